/** What unequal coils cost, from the spec's text on: against closed forms, and against numbers made outside this project. */
import assert from 'node:assert/strict';
import { MISMATCH_KEYS, mismatch } from '../../server/src/estimates/mismatch.ts';
import { type Comparison, numberAt, referenceCases, testAgainstReference } from '../support/reference-cases.ts';
import { HUM_CANCELLING, PARALLEL, pickupText } from '../support/shop.ts';
import { known, pickupOf, quickOfText } from './spec-text.ts';

const CORE = { coreMm: [63, 5.6], heightMm: 7.2 } as const;
const PACKING = 0.66;

/** Two coils on equal bobbins, the second packed in proportion to its turns: equal build, and so equal mean turn and mean area. */
const equalMeanAreas = (first: number, second: number, hookup = HUM_CANCELLING, readings = '') =>
  pickupText(
    [
      { ...CORE, facts: `    packing ${PACKING}\n    turns ${first}` },
      { ...CORE, facts: `    packing ${((PACKING * second) / first).toFixed(6)}\n    turns ${second}` },
    ],
    { hookup, readings },
  );

const mismatchOf = (text: string) => {
  const found = mismatch(quickOfText(text), undefined);
  assert.ok(found, text);
  return found;
};

/* hum.json, H-SER: residue of a series path in closed form, 20 lg |N1 − N2| / N1. */
testAgainstReference('hum that unequal turns leave, from a spec', () =>
  referenceCases('hum', 'H-SER')
    .filter(({ inputs }) => numberAt(inputs, 'turns2') < 4950)
    .flatMap(({ id, inputs, expected }): Comparison[] => {
      const text = equalMeanAreas(numberAt(inputs, 'turns1'), numberAt(inputs, 'turns2'));
      const { humDb, humOnItsOwnDb } = mismatchOf(text).figures;
      // Nothing hangs on the output but the coils' own capacitance, which mains frequency does not see: 0.01 dB is six digits of packing.
      return [humDb, humOnItsOwnDb].map((figure, index) => ({
        id,
        quantity: index === 0 ? 'in place' : 'on its own',
        reference: numberAt(expected, 'residueRelativeToLargerCoilDb'),
        ours: known(figure?.built).value,
        tolerance: { absolute: 0.01 },
      }));
    }),
);

describe('a mismatch', () => {
  it('is none up to one per cent, between coils of which only one sounds, and where hum adds', () => {
    for (const text of [
      equalMeanAreas(5000, 4975),
      equalMeanAreas(5000, 4950),
      equalMeanAreas(5000, 4000, '    hot b1\n    ground a1 a2 b2'),
      equalMeanAreas(5000, 4000, '    hot b2\n    link b1 a2\n    ground a1'),
    ])
      assert.equal(mismatch(quickOfText(text), undefined), undefined, text);
  });

  it('is undone by the larger coil, which loses turns, and the match leaves no hum', () => {
    const { coil, other, turns, matchedTurns, figures } = mismatchOf(equalMeanAreas(5500, 5000));
    assert.deepEqual([coil.name, other.name, turns], ['c1', 'c2', 5500]);
    // N · Ā of both equal; the core's straight length is 57.4 mm, its ends are round. A coil with fewer turns is thinner: more than 5,000.
    const build = (count: number, packing: number) => (count * Math.PI * 0.07 ** 2) / 4 / (packing * CORE.heightMm);
    const turnArea = (count: number, packing: number) => {
      const b = build(count, packing);
      return count * (57.4 * (5.6 + b) + Math.PI * (2.8 ** 2 + 2.8 * b + b ** 2 / 3));
    };
    const wanted = turnArea(5000, (PACKING * 5000) / 5500);
    assert.ok(turnArea(matchedTurns - 1, PACKING) < wanted && turnArea(matchedTurns + 1, PACKING) > wanted);
    const { matched, difference } = figures.humDb ?? {};
    // Turns are whole: at most half of one is left, 20 lg (0.5 / 5,161) = -80.3 dB.
    assert.ok(known(matched).value < -80, `${matched?.value}`);
    assert.equal(difference, undefined);
  });

  it('changes the coil that was wound here beside one whose turns only a reading tells', () => {
    const reading = '  readings "bench" {\n    c1 4.50 kohm at 20 degC\n  }\n';
    const text = pickupText(
      [
        { ...CORE, facts: `    packing ${PACKING}` },
        { ...CORE, facts: `    packing ${PACKING}\n    turns 4000` },
      ],
      { hookup: HUM_CANCELLING, readings: reading },
    );
    const { coil, matchedTurns } = mismatchOf(text);
    assert.equal(coil.name, 'c2');
    assert.ok(matchedTurns > 4000);
    // Where only readings tell the turns of both, nobody winds either to a count.
    const bothRead = text.replace('    turns 4000\n', '').replace('c1 4.50', 'c2 3.40 kohm at 20 degC\n    c1 4.50');
    assert.equal(mismatch(quickOfText(bothRead), undefined), undefined);
  });

  it('costs what the matched pickup, written as a spec of its own, has less', () => {
    const [built, { coil, matchedTurns, figures }] = [5500, mismatchOf(equalMeanAreas(5500, 5000))];
    const text = equalMeanAreas(built, 5000).replace(`turns ${built}`, `turns ${matchedTurns}`);
    const matched = pickupOf(text).estimates();
    assert.equal(coil.name, 'c1');
    for (const key of ['resonanceHz', 'peakDb'] as const) {
      const [mine, own] = [known(figures[key]?.matched), known(matched[key])];
      assert.ok(Math.abs(mine.value - own.value) < 1e-6 * Math.abs(own.value), key);
      assert.ok(Math.abs(mine.sd / own.sd - 1) < 0.05, `${key}: ${mine.sd}, as a spec ${own.sd}`);
    }
  });

  it('raises level as turns do: 20 lg (N1 + N2) / (N1 + N2), less what the higher resistance loses', () => {
    const { matchedTurns, figures } = mismatchOf(equalMeanAreas(5500, 5000));
    const difference = known(figures.levelDb?.difference);
    // Coils of about 9 kohm on 250 kohm and 1 Mohm lose 0.35 dB; a tenth of that for turns that differ by 5 %.
    const turnsAlone = 20 * Math.log10((5500 + 5000) / (matchedTurns + 5000));
    assert.ok(difference.value > turnsAlone - 0.05 && difference.value < turnsAlone, `${difference.value}`);
  });

  it('has differences known better than either side: what both share cancels', () => {
    const { figures } = mismatchOf(equalMeanAreas(5500, 5000).replace('turns 5500', 'turns 5500 ± 55'));
    for (const key of ['resonanceHz', 'peakDb', 'levelDb'] as const) {
      const { built, matched, difference } = figures[key] ?? {};
      assert.ok(known(difference).sd < 0.5 * Math.hypot(known(built).sd, known(matched).sd), key);
      assert.ok(Math.abs(known(built).value - known(matched).value - known(difference).value) < 1e-9, key);
    }
  });

  it('in parallel is told against the larger coil in place and, lower, on its own', () => {
    const { figures } = mismatchOf(equalMeanAreas(5500, 5000, PARALLEL));
    const { coils } = pickupOf(equalMeanAreas(5500, 5000, PARALLEL)).estimates();
    const ohms = ['c1', 'c2'].map((name) => known(coils.get(name)?.resistance20COhm).value);
    const henries = ['c1', 'c2'].map((name) => known(coils.get(name)?.inductanceH).value);
    const [z1, z2] = [0, 1].map((index) => [ohms[index] ?? 0, 2 * Math.PI * 50 * (henries[index] ?? 0)] as const);
    assert.ok(z1 && z2);
    // The larger coil's share of its own e.m.f. at the output is Z2 / (Z1 + Z2); coupling between the two left out.
    const share = 20 * Math.log10(Math.hypot(...z2) / Math.hypot(z1[0] + z2[0], z1[1] + z2[1]));
    const [inPlace, own] = [known(figures.humDb?.built), known(figures.humOnItsOwnDb?.built)];
    assert.ok(Math.abs(own.value - inPlace.value - share) < 0.05, `${own.value} - ${inPlace.value}, share ${share}`);
  });

  it('keeps what readings of the whole pickup say, and changes it in proportion', () => {
    const reading = '  readings "bench" {\n    inductance hot to ground 6.00 H at 120 Hz\n  }\n';
    const [plain, read] = ['', reading].map((each) => mismatchOf(equalMeanAreas(5500, 5000, HUM_CANCELLING, each)));
    assert.ok(plain && read);
    const ratio = ({ figures }: typeof plain) =>
      known(figures.resonanceHz?.matched).value / known(figures.resonanceHz?.built).value;
    assert.notEqual(read.figures.resonanceHz?.built.value, plain.figures.resonanceHz?.built.value);
    assert.ok(Math.abs(ratio(read) / ratio(plain) - 1) < 1e-6);
  });

  it('leaves out what is not known: hum where only kicks tell the phase, all where nothing does', () => {
    const without = (readings: string) =>
      equalMeanAreas(5500, 5000, HUM_CANCELLING, readings)
        .replaceAll(/polarity (north|south)-up/g, '')
        .replaceAll('wound clockwise', '');
    const kicks = `  readings "bench" {
    kick b1 to a1 approach positive
    kick a2 to b2 approach positive
  }\n`;
    const { figures } = mismatchOf(without(kicks));
    assert.deepEqual(
      MISMATCH_KEYS.filter((key) => figures[key]),
      ['resonanceHz', 'peakDb', 'levelDb'],
    );
    assert.equal(mismatch(quickOfText(without('')), undefined), undefined);
  });
});
