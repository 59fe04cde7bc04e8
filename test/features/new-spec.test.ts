import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import * as fc from 'fast-check';
import { formatFile } from '../../grammar/src/format.ts';
import { readFileTree } from '../../grammar/src/read-file.ts';
import { missingPickupReadings } from '../../server/src/features/missing-readings.ts';
import {
  measureIn,
  NEW_COILS,
  NEW_GAUGES,
  NEW_KINDS,
  NEW_MAGNETS,
  NEW_POLES,
  NEW_POSITIONS,
  NEW_STRINGS,
  type NewAnswers,
  type NewParts,
} from '../../server/src/features/new-answers.ts';
import { newSpec } from '../../server/src/features/new-spec.ts';
import { analyse, findingLines } from '../support/check-fixture.ts';

const STOCK = readFileSync(path.resolve(import.meta.dirname, '../../samples/parts/stock.pickup'), 'utf8');
const PLAIN: NewAnswers = {
  what: 'pickup',
  title: 'Wren, bridge',
  strings: 6,
  coils: 1,
  positions: ['bridge'],
  leads: ['grey', 'violet'],
  parts: { kind: 'described', gauge: 42 },
};
const LEADS = ['grey', 'violet', 'pink', 'turquoise'];

const textOf = (answers: NewAnswers): string => {
  const made = newSpec(answers);
  return 'text' in made ? made.text : assert.fail(made.problem);
};

function assertSound(answers: NewAnswers): void {
  const text = textOf(answers);
  const analysis = analyse(text, { 'parts/stock.pickup': STOCK });
  const wrong = analysis.allFindings().filter(({ severity }) => severity === 'error' || severity === 'warning');
  assert.deepEqual(
    wrong.map(({ message }) => message),
    [],
    text,
  );
  assert.equal(formatFile(readFileTree(text)), text);
  assert.equal(analysis.pickups.length, answers.positions.length, text);
  // Each has a drawing with its two ends, and readings still to be taken.
  for (const each of analysis.pickups) assert.ok(missingPickupReadings(analysis, each).length > 0, text);
}

describe('a new spec', () => {
  const shelf = (bobbin: string, ownMagnets: boolean, magnet?: string): NewParts => ({
    kind: 'shelf',
    use: 'parts/stock.pickup',
    bobbin,
    ownMagnets,
    wire: { kind: 'spool', name: 'RYD-W7' },
    ...(magnet === undefined ? {} : { magnet }),
  });
  const placings = [['bridge'], ['neck'], ['bridge', 'neck'], ['bridge', 'middle', 'neck']] as const;

  for (const what of NEW_KINDS)
    for (const strings of NEW_STRINGS)
      for (const coils of NEW_COILS)
        it(`is clean, in the one layout and asks for readings: ${what}, ${strings} strings, ${coils} coils`, () => {
          const ofSix = [shelf('rod-six', true), shelf('slug-six', false), shelf('slug-six', false, 'bar-3')];
          const described = NEW_GAUGES.map((gauge): NewParts => ({ kind: 'described', gauge }));
          for (const parts of [...described, ...(strings === 6 ? ofSix : [])])
            for (const positions of what === 'instrument' ? placings : NEW_POSITIONS.map((each) => [each] as const))
              for (const turns of [undefined, 4_000]) {
                const leads = LEADS.slice(0, 2 * coils);
                assertSound({ ...PLAIN, what, strings, coils, parts, positions, leads, ...(turns ? { turns } : {}) });
              }
        });

  for (const pole of NEW_POLES)
    for (const coils of NEW_COILS)
      it(`takes what caliper and eye say: ${coils} coils over ${pole}`, () => {
        for (const magnet of [undefined, ...NEW_MAGNETS]) {
          const measured = { pole, core: '60.5x6,1', window: '8 x 5 mm', spread: '1.95 in', ...(magnet && { magnet }) };
          const leads = LEADS.slice(0, 2 * coils);
          const answers = { ...PLAIN, coils, leads, parts: { kind: 'described', gauge: 42, measured } } as const;
          assertSound(answers);
          const text = textOf(answers);
          assert.match(text, /\n {2}core 60\.5 x 6\.1 mm\n {2}window 8 x 5 mm\n {2}poles 6 spread 1\.95 in\n/);
          assert.match(text, new RegExp(`\n {2}pole ${pole} ${pole === 'rod' ? (magnet ?? 'alnico-5') : 'steel'} `));
          assert.equal(/grade of the magnet is not known/.test(text), magnet === undefined);
        }
      });

  it('reads measures as they are typed at a bench, and nothing else', () => {
    for (const [name, typed, written] of [
      ['core', '60 x 5.8', '60 x 5.8 mm'],
      ['core', ' 60×5,8mm ', '60 x 5.8 mm'],
      ['bar', '2.5*0.5*0.125 IN', '2.5 x 0.5 x 0.125 in'],
      ['wire', '43awg', '43 AWG'],
      ['wire', '0.058', '0.058 mm'],
      ['poles', '6', '6'],
      ['core', '60', undefined],
      ['core', '60 x 5.8 } coil x {', undefined],
      ['spread', '0', undefined],
      ['poles', '6.5', undefined],
      ['window', '11 x', undefined],
    ] as const)
      assert.equal(measureIn(name, typed), written, typed);
  });

  it('takes any title', async () => {
    await fc.assert(
      fc.property(fc.string({ minLength: 1, maxLength: 60, unit: 'grapheme' }), (title) => {
        if (title.trim() !== '') assertSound({ ...PLAIN, title });
      }),
      { numRuns: 200 },
    );
  });

  it('says what is amiss with answers that give none', () => {
    const problem = (answers: Partial<NewAnswers>) => {
      const made = newSpec({ ...PLAIN, ...answers });
      return 'problem' in made ? made.problem : undefined;
    };
    assert.equal(problem({}), undefined);
    assert.equal(problem({ title: ' ' }), 'A title is needed.');
    assert.equal(problem({ leads: ['grey'] }), '2 leads are needed: start and finish of each coil.');
    // VT is violet by IEC 60757: one lead, not two.
    assert.equal(problem({ leads: ['VT', 'violet'] }), 'Each lead has a name of its own.');
    assert.equal(problem({ leads: ['grey } coil x {', 'violet'] }), 'A lead is a colour or another single word.');
    const measured = { core: '60 } coil x {' };
    assert.equal(problem({ parts: { kind: 'described', gauge: 42, measured } }), '60 } coil x { is no such measure.');
    assert.equal(problem({ positions: ['neck', 'neck'] }), 'Each position is named once.');
  });

  it('names the file after the title', () => {
    const fileOf = (title: string) => {
      const made = newSpec({ ...PLAIN, title });
      return 'path' in made ? made.path : '';
    };
    assert.equal(fileOf('Wren, bridge'), 'wren-bridge.pickup');
    assert.equal(fileOf('../../2 Löwen'), 'löwen.pickup');
    assert.equal(fileOf('42'), 'new-pickup.pickup');
  });

  it('is found wrong with its hot and ground on one lead: the check above can fail', () => {
    const text = textOf(PLAIN).replace('hot violet', 'hot grey');
    assert.ok(findingLines(analyse(text)).some((line) => line.includes(' error ')));
  });
});
