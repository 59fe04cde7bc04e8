/**
 * Responses of a hundred random positions against ngspice, within 0.1 dB up to 20 kHz. The netlist is made from the random structure, not
 * from the product's circuit; only the values of the coils (inductances, couplings, stray capacitances) are taken from the product.
 */
import assert from 'node:assert/strict';
import type { Analysis } from '../../server/src/analysis/analysis-types.ts';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import { pickupMagnetics } from '../../server/src/estimates/magnetics.ts';
import { AS_PLAYED, positionNetwork } from '../../server/src/estimates/position-network.ts';
import { stringSources } from '../../server/src/estimates/sources.ts';
import { responseOf } from '../../server/src/physics/circuit/response.ts';
import { analyse } from '../support/check-fixture.ts';
import { ngspiceSweeps, type SpiceSweep } from '../support/ngspice.ts';
import { type Branch, GROUND } from './dense-circuit.ts';
import { type Part, positionCircuit, type Values } from './signed-sources.ts';
import { instrumentText, type Pickup, randomInstrument, selectionText } from './structure.ts';

const RESPONSES = 100;
/** Levels below this are nulls of a hundredth of a coil: rounding of both. */
const SILENT_DB = 20;

/** The parts of one coil share nearly all their flux: as the product has it. */
const OF_ONE_COIL = 0.9999;

function valuesIn(analysis: Analysis): (pickup: Pickup) => Values {
  return ({ name, ground }) => {
    const found = analysis.pickups.find(({ pickup }) => pickup.name === name);
    assert.ok(found);
    const magnetics = pickupMagnetics(quickOf(analysis.bench)(found.pickup));
    const coilOf = (coil: { readonly name: string }) => {
      const own = found.pickup.coils.find((each) => each.name === coil.name);
      const magnetic = own && magnetics.coils.get(own);
      assert.ok(own && magnetic);
      return { own, magnetic };
    };
    return {
      henry: (coil) => coilOf(coil).magnetic.totalH.value,
      mutualHenry: (a, b) => magnetics.mutualSameSenseH(coilOf(a).own, coilOf(b).own),
      ofOneCoil: OF_ONE_COIL,
      capacitors: (coils, node, hot) => {
        const screen = node(ground[0] ?? '');
        const between = magnetics.between.flatMap(({ coils: pair, farad }): readonly Branch[] => {
          const [a, b] = pair.map((each) => coils.find((coil) => coil.name === each.name));
          return a && b ? [{ from: node(a.finish), to: node(b.finish), farad: farad.value }] : [];
        });
        const own = coils.flatMap((coil): readonly Branch[] => {
          const { windingF, startF, finishF, facesF } = coilOf(coil).magnetic.capacitances;
          const [start, finish] = [node(coil.start), node(coil.finish)];
          // The faces' charge: half at each end, less a sixth across the coil.
          return [
            { from: start, to: finish, farad: windingF.value - facesF.value / 6 },
            { from: start, to: screen, farad: startF.value + facesF.value / 2 },
            { from: finish, to: screen, farad: finishF.value + facesF.value / 2 },
          ];
        });
        return [...own, ...between, { from: hot, to: screen, farad: magnetics.leadF }];
      },
    };
  };
}

function spiceText(
  branches: readonly Branch[],
  parts: readonly Part[],
): { text: string; nodeOf(node: string): string } {
  const numbers = new Map([[GROUND, 0]]);
  const nodeOf = (node: string) => {
    const number = numbers.get(node) ?? numbers.size;
    numbers.set(node, number);
    return String(number);
  };
  const index = new Map(branches.map(({ source }, at) => [source, at]));
  const lines = branches.flatMap((branch, at): readonly string[] => {
    const [from, to] = [nodeOf(branch.from), nodeOf(branch.to)];
    if (branch.farad !== undefined) return [`C${at} ${from} ${to} ${branch.farad}`];
    if (branch.source === undefined) return [`R${at} ${from} ${to} ${branch.ohm}`];
    const emf = parts.find(({ source }) => source === branch.source)?.string ?? 0;
    const couplings = [...(branch.mutual ?? [])].flatMap(([other, henry]) => {
      const second = index.get(other);
      const partner = second === undefined ? undefined : branches[second];
      if (second === undefined || second <= at || !partner || henry === 0) return [];
      return [`K${at}_${second} L${at} L${second} ${henry / Math.sqrt((branch.henry ?? 0) * (partner.henry ?? 0))}`];
    });
    return [
      `R${at} ${from} a${at} ${branch.ohm}`,
      `L${at} a${at} b${at} ${branch.henry}`,
      `V${at} ${to} b${at} dc 0 ac ${Math.abs(emf)} ${emf < 0 ? 180 : 0}`,
      ...couplings,
    ];
  });
  return { text: ['* a position', '.options rshunt=1e12', ...lines, '.end', ''].join('\n'), nodeOf };
}

const SWEEP = { pointsPerDecade: 25, fromHz: 20, toHz: 20_000 };

/** One position of a random instrument: its netlist, and how far the product's response is from what ngspice makes of it. */
function positionOf(seed: number) {
  const index = seed % 3;
  const instrument = randomInstrument(seed);
  const position = instrument.positions[index];
  const analysis = analyse(instrumentText(instrument));
  const [made] = analysis.instruments;
  const selection = made?.instrument.positions[index]?.selection;
  assert.ok(position && made && selection);
  const { branches, parts, plugged, output } = positionCircuit(instrument, position, valuesIn(analysis));
  if (output === GROUND) return [];
  const { text: netlist, nodeOf } = spiceText([...branches, ...plugged], parts);
  /** `undefined` where neither sounds. */
  const farthestDb = ({ frequencyHz, levelDb }: SpiceSweep): number | undefined => {
    const played = positionNetwork(made.instrument, selection, quickOf(analysis.bench), AS_PLAYED);
    const ours = responseOf(played.network, played.output, stringSources(played.segments), frequencyHz);
    if (typeof ours === 'string' || ours.levelDb.every((level) => level < SILENT_DB)) return undefined;
    const apart = levelDb.map((level, at) =>
      level < SILENT_DB ? 0 : Math.abs(level - (ours.levelDb[at] ?? Number.NaN)),
    );
    return Math.max(...apart);
  };
  return [{ name: `seed ${seed}, ${selectionText(position)}`, netlist, node: nodeOf(output), farthestDb }];
}

describe('responses of random positions against ngspice', () => {
  it(`${RESPONSES} of them, each within 0.1 dB from 20 Hz to 20 kHz`, () => {
    const compared: { readonly name: string; readonly apart: number }[] = [];
    let seed = 1000;
    while (compared.length < RESPONSES) {
      const positions = Array.from({ length: RESPONSES - compared.length }, () => seed++).flatMap(positionOf);
      const sweeps = ngspiceSweeps(positions, SWEEP);
      for (const [index, { name, farthestDb }] of positions.entries()) {
        const sweep = sweeps[index];
        const apart = sweep && farthestDb(sweep);
        if (apart !== undefined) compared.push({ name, apart });
      }
    }
    assert.deepEqual(
      compared.flatMap(({ name, apart }) => (apart < 0.1 ? [] : [`${name}: ${apart} dB apart`])),
      [],
    );
  });
});
