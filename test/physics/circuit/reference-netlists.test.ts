import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { type Circuit, circuit, ground } from '../../../server/src/physics/circuit/circuit.ts';
import { resistanceBetween } from '../../../server/src/physics/circuit/dc.ts';
import { networkOf } from '../../../server/src/physics/circuit/network.ts';
import { responseFigures, responseOf } from '../../../server/src/physics/circuit/response.ts';
import { type SourceValues, transfers } from '../../../server/src/physics/circuit/solve.ts';
import { magnitude } from '../../../server/src/physics/complex.ts';
import { combinedLevelDb } from '../../support/combined-level.ts';
import {
  type Comparison,
  numberAt,
  type ReferenceCase,
  recordAt,
  referenceCases,
  testAgainstReference,
  uncertaintyOf,
} from '../../support/reference-cases.ts';
import { readSpice } from '../../support/spice-netlist.ts';

/*
 * circuits.json: two independent solutions (a sparse tableau in numpy, and ngspice 39) of netlists with invented
 * values. The solver gets the reference's own uncertainty: nothing about a given netlist is a matter of modelling.
 */
const levelToleranceDb = 1e-5;

interface InstrumentCoil {
  readonly turns: number;
  readonly turnAreaM2: number;
  readonly stringSign: number;
  readonly humSign: number;
}

const instrument = JSON.parse(readFileSync(new URL('../reference/circuits.json', import.meta.url), 'utf8'))
  .instrument as { readonly coils: Readonly<Record<string, InstrumentCoil>> };

/** The netlists abbreviate `bridge.screw` to `bs`, and `slug` to `g`. */
const coilOfSource: Readonly<Record<string, string>> = {
  Vbs: 'bridge.screw',
  Vbg: 'bridge.slug',
  Vmi: 'middle',
  Vns: 'neck.screw',
  Vng: 'neck.slug',
};

testAgainstReference('circuit: response of the reference netlists', () =>
  referenceCases('circuits').flatMap((reference): Comparison[] => {
    const { network, values } = read(reference);
    const figures = responseFigures(network, 'out', values);
    assert.ok(typeof figures === 'object');
    const { id, expected } = reference;
    const rows: Comparison[] = [
      level(id, 'lowFrequencyLevelDb', numberAt(expected, 'lowFrequencyLevelDb'), figures.lowFrequencyLevelDb),
      {
        id,
        quantity: 'minus3DbHz',
        reference: numberAt(expected, 'minus3DbHz'),
        ours: figures.minus3DbHz ?? Number.NaN,
        tolerance: { relative: uncertaintyOf(reference, 'minus3DbHz') },
      },
    ];
    if (expected.peakHz !== null)
      rows.push(level(id, 'peakDb', numberAt(expected, 'peakDb'), figures.peakDb ?? Number.NaN), {
        id,
        quantity: 'peakHz',
        reference: numberAt(expected, 'peakHz'),
        ours: figures.peakHz ?? Number.NaN,
        tolerance: { relative: uncertaintyOf(reference, 'peakHz') },
      });
    const frequencies = Object.entries(recordAt(expected, 'responseDb')) as [string, number][];
    const response = responseOf(
      network,
      'out',
      values,
      Float64Array.from(frequencies, ([hz]) => Number(hz)),
    );
    assert.ok(typeof response === 'object');
    frequencies.forEach(([hz, db], index) => {
      const ours = (response.levelDb[index] ?? Number.NaN) - figures.lowFrequencyLevelDb;
      rows.push(level(id, `responseDb at ${hz} Hz`, db, ours));
    });
    return rows;
  }),
);

describe('circuit: reference netlists that have no peak', () => {
  for (const reference of referenceCases('circuits').filter(({ expected }) => expected.peakHz === null))
    it(reference.id, () => {
      const { network, values } = read(reference);
      const figures = responseFigures(network, 'out', values);
      assert.ok(typeof figures === 'object');
      assert.deepEqual([figures.peakHz, figures.peakDb], [null, null]);
    });
});

testAgainstReference('circuit: resistance of the reference netlists, cable and input unplugged', () =>
  referenceCases('circuits').map((reference): Comparison => {
    const quantity =
      'dcResistanceAtJackOhm' in reference.expected ? 'dcResistanceAtJackOhm' : 'dcResistanceOutToGroundOhm';
    const unplugged = networkOf(without(read(reference).circuit, ['RAMP', 'RP']));
    return {
      id: reference.id,
      quantity,
      reference: numberAt(reference.expected, quantity),
      ours: resistanceBetween(unplugged, 'out', ground) ?? Number.NaN,
      tolerance: { relative: uncertaintyOf(reference, quantity) },
    };
  }),
);

testAgainstReference('circuit: string sum and hum of the reference instrument', () =>
  referenceCases('circuits', 'C-INST').flatMap((reference): Comparison[] => {
    const { id, expected } = reference;
    const { network } = read(reference);
    const hum = weights(network.sources, (coil) => coil.humSign * coil.turnAreaM2);
    const string = weights(network.sources, (coil) => coil.stringSign * coil.turns);
    const ours = (values: SourceValues, larger: unknown, hz: number) =>
      Number(combinedLevelDb(network, 'out', values, hz, sourceOf(larger)));
    const humRow = (quantity: string, hz: number) =>
      level(id, quantity, numberAt(expected, quantity), ours(hum, expected.largerCoilByTurnArea, hz));
    return [
      humRow('humResidueDb50Hz', 50),
      humRow('humResidueDb150Hz', 150),
      humRow('humResidueDbLowFrequencyLimit', 0),
      level(
        id,
        'stringSumDb100Hz',
        numberAt(expected, 'stringSumDb100Hz'),
        ours(string, expected.largerCoilByTurns, 100),
      ),
    ];
  }),
);

testAgainstReference('circuit: hum against the larger coil on its own, the other branch taken away', () =>
  referenceCases('circuits', 'C-INST-2', 'C-INST-4').map((reference): Comparison => {
    const quantity = 'humResidueDb50HzRelativeToLargerCoilOnItsOwn';
    const { network, circuit: whole } = read(reference);
    const otherBranch = ['bs', 'bg', 'ns', 'ng'].flatMap((coil) => ['V', 'L', 'R', 'C'].map((kind) => kind + coil));
    const alone = networkOf(without(whole, ['K1', 'Rlink', ...otherBranch]));
    const hum = weights(network.sources, (coil) => coil.humSign * coil.turnAreaM2);
    const amplitude = (perUnit: ReturnType<typeof transfers>, sources: readonly string[]) => {
      assert.ok(typeof perUnit === 'object');
      const parts = perUnit.map(({ re, im }, index) => [re, im].map((part) => part * (hum[sources[index] ?? ''] ?? 0)));
      return magnitude({ re: sum(parts.map(([re = 0]) => re)), im: sum(parts.map(([, im = 0]) => im)) });
    };
    const together = amplitude(transfers(network, 'out', 50), network.sources);
    const single = amplitude(transfers(alone, 'out', 50), alone.sources);
    return level(reference.id, quantity, numberAt(reference.expected, quantity), 20 * Math.log10(together / single));
  }),
);

function weights(sources: readonly string[], weight: (coil: InstrumentCoil) => number): SourceValues {
  return Object.fromEntries(
    sources.map((source) => {
      const coil = instrument.coils[coilOfSource[source] ?? ''];
      assert.ok(coil !== undefined, `${source} is no coil of the instrument`);
      return [source, weight(coil)];
    }),
  );
}

function sourceOf(coil: unknown): string {
  const found = Object.entries(coilOfSource).find(([, name]) => name === coil);
  assert.ok(found !== undefined);
  return found[0];
}

function read({ inputs }: ReferenceCase) {
  const { circuit, values } = readSpice(inputs.netlist as string[]);
  return { circuit, values, network: networkOf(circuit) };
}

function without({ components }: Circuit, names: readonly string[]): Circuit {
  return circuit(components.filter(({ name }) => !names.includes(name)));
}

function level(id: string, quantity: string, reference: number, ours: number): Comparison {
  return { id, quantity, reference, ours, tolerance: { absolute: levelToleranceDb } };
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
