/**
 * What readings through several coils at once say of a pickup: from hot to ground, or between any other two points with more than one
 * coil between them. The sum is then as read, and each coil that was never read by itself has its part of it, as far as its turns and
 * wire tell. In a closed pickup, of which nobody knows either, the coils count as alike and as lying one behind the other.
 */

import { type Bench, benchMeter } from '../model/bench.ts';
import type { Coil } from '../model/coil.ts';
import { joinedNetlist, looseNetlist, type PickupNetlist, probedNets } from '../model/netlist.ts';
import type { ReadingOf, Readings } from '../model/readings.ts';
import { type Estimate, linear, named, restingOn } from '../quantities/estimate.ts';
import { givenSums } from '../quantities/sums-read.ts';
import { causes, coilPath, pieceName } from './causes.ts';
import { countsNow, type PickupLife } from './coil-life.ts';
import { coilOfReading, readingTemperature, resistanceAt20C } from './coil-reading.ts';
import type { CoilReading, WindingEstimates } from './coil-winding.ts';
import { NOMINAL_OHM, OPEN_FROM_OHM, SHORT_OHM, UNSEEN_SHARE_RELATIVE_SD } from './common-practice.ts';
import { dcTransfers } from './pickup-circuit.ts';
import { atTemperature, toleranceOhm } from './reading-limits.ts';
import { because } from './reasons.ts';
import { resistanceWeights } from './segment-shares.ts';
import { sweptLines } from './swept-resistance.ts';

export interface ReadTogether {
  /** Of coils that were not read by themselves, at 20 degC. */
  readonly coils: ReadonlyMap<Coil, Estimate>;
  /** Between hot and ground, at 20 degC. */
  readonly whole: Estimate | undefined;
}

interface Known {
  readonly netlist: PickupNetlist;
  readonly windings: ReadonlyMap<Coil, WindingEstimates>;
  readonly readings: ReadonlyMap<Coil, CoilReading>;
}

export function readTogether(known: Known, life: PickupLife, bench: Bench | undefined): ReadTogether {
  const together = linesTogether(known, life, bench);
  const [whole] = together.filter(({ isWhole }) => isWhole);
  const lines = [...(whole ? [whole] : []), ...together.filter(({ isWhole }) => !isWhole)].filter(({ fits }) => fits);
  return { coils: partsOf(lines, known), whole: whole?.read };
}

interface LineTogether {
  readonly read: Estimate;
  readonly isWhole: boolean;
  /** A reading that is not what was wound and joined is of other coils, or of other joints: it is told, and says nothing of each. */
  readonly fits: boolean;
  /** Coils between the probes with their weights; `ohmOf`: of each coil as it is taken to be. */
  weights(ohmOf: (coil: Coil) => number | undefined): ReadonlyMap<Coil, number>;
}

/** The newest first; what sweeps show between hot and ground only where no meter read it. */
function linesTogether(known: Known, life: PickupLife, bench: Bench | undefined): readonly LineTogether[] {
  const read = readByMeter(known, life, bench);
  if (read.some(({ isWhole }) => isWhole)) return read;
  const { netlist } = known;
  const isSeveral = netlist.pickup.coils.length > 1;
  const swept = isSeveral ? sweptLines(netlist, bench) : [];
  return [
    ...read,
    ...swept
      .flatMap(({ line, file, block }) => {
        const together = lineTogether(line, { block, joined: netlist }, known, bench);
        const { words } = readingTemperature(line.atC, block, bench);
        const restsOn = [because('low end of the sweep {0} at {1}', file, words)];
        return together ? [{ ...together, read: { ...together.read, restsOn } }] : [];
      })
      .reverse(),
  ];
}

function readByMeter(known: Known, life: PickupLife, bench: Bench | undefined): readonly LineTogether[] {
  return life.blocks
    .flatMap(({ block, state, worksAgo }) => {
      const joined = joinedNetlist(state);
      const closed = joined.windings.every(({ unseen }) => unseen);
      // As it came in, the pickup may have been joined otherwise, unless nobody has opened it.
      if (block.found && !closed) return [];
      return block.lines.flatMap((line) => {
        const isTogether =
          line.kind === 'resistance' && !coilOfReading(line, block, joined, looseNetlist(state)) && bothOnLeads(line);
        const read = isTogether ? lineTogether(line, { block, joined }, known, bench) : undefined;
        const counts = read && [...read.weights(() => NOMINAL_OHM).keys()];
        return counts?.every(({ name }) => countsNow(life, name, { block, state, worksAgo })) ? [read] : [];
      });
    })
    .reverse()
    .flatMap((line) => line ?? []);
}

const bothOnLeads = ({ probes: { red, black } }: ReadingOf<'resistance'>) => red.text !== black.text;

function lineTogether(
  line: ReadingOf<'resistance'>,
  { block, joined }: { readonly block: Readings; readonly joined: PickupNetlist },
  { netlist, windings, readings }: Known,
  bench: Bench | undefined,
): LineTogether | undefined {
  const { value, probes } = line;
  if (value === 'open' || value.si < SHORT_OHM || value.si >= OPEN_FROM_OHM) return undefined;
  // Before it is fitted the shield is not on ground; and leads may have been read before they were joined, whatever the title says.
  const apart = { ...joined, chassis: joined.ground };
  const lying = block.apart
    ? [looseNetlist(joined.pickup)]
    : [apart, ...(joined.chassis === joined.ground ? [] : [joined]), looseNetlist(joined.pickup)];
  const now = (coil: Coil) => netlist.pickup.coils.find(({ name }) => name === coil.name);
  const weightsIn = (state: PickupNetlist) => (ohmOf: (coil: Coil) => number | undefined) => {
    const nets = probedNets(probes, state);
    const asWound = state.windings.flatMap(({ coil }) => {
      const present = now(coil);
      const winding = present && windings.get(present);
      return present && winding ? [[coil, withOhm(winding, ohmOf(present))] as const] : [];
    });
    const weights = nets && resistanceWeights(state, new Map(asWound), ...nets);
    return new Map([...(weights ?? [])].flatMap(([coil, weight]) => [[now(coil) ?? coil, weight] as const]));
  };
  const temperature = readingTemperature(line.atC, block, bench);
  const meter = benchMeter(bench);
  const ohmOf = (coil: Coil) => (readings.get(coil)?.at20COhm ?? windings.get(coil)?.computed20COhm)?.value;
  const fitsIn = (state: PickupNetlist): boolean => {
    const parts = [...weightsIn(state)(ohmOf)].map(([coil, weight]) => ({
      ohm: readings.get(coil)?.at20COhm ?? windings.get(coil)?.computed20COhm,
      weight,
    }));
    if (parts.length === 0) return false;
    const whole = linear(
      parts.flatMap(({ ohm }) => ohm ?? []),
      parts.flatMap(({ ohm, weight }) => (ohm ? [weight] : [])),
    );
    const expected = atTemperature(whole, temperature);
    const tolerance = toleranceOhm(value, expected, meter);
    return parts.every(({ ohm }) => ohm)
      ? Math.abs(value.si - expected.value) <= tolerance
      : value.si > expected.value + tolerance;
  };
  const state = lying.find(fitsIn) ?? lying[0] ?? joined;
  const weights = weightsIn(state);
  const through = [...weights(ohmOf)];
  const nets = probedNets(probes, state);
  if (!nets || hasPart(state, nets) || through.every(([coil]) => readings.has(coil))) return undefined;
  const { red, black } = probes;
  return {
    read: named(
      resistanceAt20C(value, temperature, meter),
      causes.readTogether(`${red.text} to ${black.text}`, pieceName(netlist.pickup)),
    ),
    isWhole: [state.hot, state.ground].every((net) => net === nets[0] || net === nets[1]) && nets[0] !== nets[1],
    fits: fitsIn(state),
    weights,
  };
}

/** Of a tapped coil only some turns lie between the probes: they say less of the coil than of where its tap is. */
function hasPart(netlist: PickupNetlist, nets: readonly [number, number]): boolean {
  const shares = [...(dcTransfers(netlist, () => NOMINAL_OHM, ...nets) ?? [])];
  const through = new Set(shares.flatMap(([{ coil }, share]) => (Math.abs(share) > NO_PATH ? [coil] : [])));
  return shares.some(([{ coil }, share]) => through.has(coil) && Math.abs(share) <= NO_PATH);
}

const NO_PATH = 1e-3;

const withOhm = (winding: WindingEstimates, ohm: number | undefined): WindingEstimates => ({
  ...winding,
  resistance20COhm: ohm === undefined ? undefined : { value: ohm, sd: 0, basis: 'computed', restsOn: [] },
});

/** Coils side by side share a current as their resistances are: their weights settle within so many rounds. */
const ROUNDS = 6;

/** Each coil's part of what was read, by the lines in their order. */
function partsOf(
  lines: readonly LineTogether[],
  { netlist: { pickup, windings: wired }, windings, readings }: Known,
): ReadonlyMap<Coil, Estimate> {
  let ohms: ReadonlyMap<Coil, number> = new Map();
  const ohmOf = (coil: Coil) =>
    readings.get(coil)?.at20COhm.value ?? ohms.get(coil) ?? windings.get(coil)?.computed20COhm?.value;
  const touched = new Set(lines.flatMap(({ weights }) => [...weights(ohmOf).keys()]));
  const coils = pickup.coils.filter((coil) => touched.has(coil) && !readings.has(coil));
  const unknown = coils.filter((coil) => !windings.get(coil)?.computed20COhm);
  let parts: readonly Estimate[] = [];
  for (let round = 0; round < (coils.length > 0 ? ROUNDS : 0); round++) {
    const usual = unknown.reduce((sum, coil) => sum + (ohms.get(coil) ?? NOMINAL_OHM), 0) / unknown.length;
    const before = coils.map((coil) => {
      const computed = windings.get(coil)?.computed20COhm;
      const path = coilPath(pickup, coil);
      return computed ? named(computed, causes.partOf(path)) : anyOf(usual, unknown.length, path);
    });
    const sums = lines.map(({ weights, read }) => {
      const all = weights(ohmOf);
      const own = [...all].flatMap(([coil, weight]) => {
        const ohm = readings.get(coil)?.at20COhm;
        return ohm ? [{ ohm, weight }] : [];
      });
      return {
        weights: coils.map((coil) => all.get(coil) ?? 0),
        read: linear([read, ...own.map(({ ohm }) => ohm)], [1, ...own.map(({ weight }) => -weight)]),
      };
    });
    parts = givenSums(before, sums);
    ohms = new Map(coils.map((coil, index) => [coil, parts[index]?.value ?? NOMINAL_OHM]));
  }
  // Only hot to ground leaves a closed pickup: there the coils' parts do not show.
  const closed = wired.every(({ unseen }) => unseen);
  const assumed = unknown.length > 1 ? { basis: 'assumed' as const } : {};
  return new Map(
    coils.flatMap((coil, index) => {
      const part = parts[index];
      if (!part) return [];
      if (!unknown.includes(coil)) return [[coil, part] as const];
      return [
        [coil, { ...(unknown.length > 1 && !closed ? restingOn(part, COILS_ALIKE) : part), ...assumed }] as const,
      ];
    }),
  );
}

const COILS_ALIKE = because('coils that nobody read alike, assumed');

/** A coil of which nothing is known: anything, but with the others of which nothing is known more or less alike. */
function anyOf(ohm: number, alike: number, path: string): Estimate {
  // Taken from their mean, each differs a little less than by itself.
  const apart = alike > 1 ? UNSEEN_SHARE_RELATIVE_SD * Math.sqrt(alike / (alike - 1)) * ohm : 0;
  const anything = ANYTHING_RELATIVE_SD * ohm;
  return {
    value: ohm,
    sd: Math.hypot(anything, apart),
    basis: 'assumed',
    restsOn: [],
    sources: { [causes.unknown]: anything, ...(apart === 0 ? {} : { [causes.partOf(path)]: apart }) },
  };
}

/** So wide that a reading decides, not so wide that rounding does. */
const ANYTHING_RELATIVE_SD = 1e3;
