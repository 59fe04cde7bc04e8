/** One number, one name, one set of digits: in hover, report, comparison, bench view and on cards. */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { pickupText } from '../../server/src/cli/report-text.ts';
import { stylesFor } from '../../server/src/cli/styles.ts';
import { compareStates } from '../../server/src/comparison/comparison.ts';
import { numberRows } from '../../server/src/comparison/number-rows.ts';
import { pickupNumbers } from '../../server/src/comparison/numbers-table.ts';
import { stateOf } from '../../server/src/comparison/state-of.ts';
import { hover } from '../../server/src/features/hover.ts';
import { toPlainText } from '../../server/src/features/rich-text.ts';
import { COIL_NUMBERS, keysOf, PICKUP_NUMBERS } from '../../server/src/words/numbers.ts';
import { cardsOfText, pageText } from '../documents/cards/card-bench.ts';
import { analysedSample } from '../support/sample-files.ts';

const SAMPLE = 'ottlewick-neck.pickup';
const after = analysedSample(SAMPLE);
const [pickup] = after.pickups;
assert.ok(pickup);

const spaces = (text: string): string => text.replaceAll('\u202F', ' ');
const hoverOn = (words: string): string =>
  spaces(toPlainText(hover(after, after.text.indexOf(words) + words.length - 1)?.text ?? [])).split('What would')[0] ??
  '';
const report = pickupText(pickup, {}, stylesFor(false, {}));
const bench = pickupNumbers(pickup).rows.map(({ name, now }) => [spaces(name), spaces(now)] as const);

/** `resistance at 20 °C: 6.1 ± 0.3 kΩ (…` of a hover, as name and value. */
const hovered = (text: string): readonly (readonly [name: string, value: string])[] =>
  [...text.matchAll(/^([^:\n]+): (.+?)(?: \(.*)?$/gm)].map(([, name = '', value = '']) => [name, value] as const);

/** The view leaves the capacitance to the hover; a point of −3 dB is told where there is no peak, which this pickup has. */
const NOT_IN_VIEW: ReadonlySet<string> = new Set(['capacitanceF', 'minus3DbHz']);

/** The report says in a column of its own what was measured. */
const inReport = (value: string): string => {
  const [number = '', mark] = value.split(', ');
  return `${escaped(number)} ${mark === 'measured' ? ' +reading ' : ''}`;
};

describe('a computed number', () => {
  for (const [what, words, names] of [
    ['pickup', 'pickup ottlewick-neck', PICKUP_NUMBERS],
    ['coil', 'coil slug', COIL_NUMBERS],
  ] as const)
    it(`of a ${what} has the same name and digits in hover and report`, () => {
      const rows = new Map(hovered(hoverOn(words)));
      const known = Object.values(names).filter(({ what: name }) => rows.has(spaces(name)));
      assert.ok(known.length >= 7, [...rows.keys()].join(' | '));
      const part = what === 'coil' ? report.slice(report.indexOf('\n  coil slug')) : report;
      for (const { what: name } of known)
        assert.match(
          part,
          new RegExp(`\n +${escaped(spaces(name))} +${inReport(rows.get(spaces(name)) ?? '')}`),
          `${name} in the report`,
        );
    });

  it('has them in the bench view, the unit in its head', () => {
    const rows = hovered(hoverOn('pickup ottlewick-neck'));
    for (const key of keysOf(PICKUP_NUMBERS).filter((each) => !NOT_IN_VIEW.has(each))) {
      const name = spaces(PICKUP_NUMBERS[key].what);
      const value = rows.find(([each]) => each === name)?.[1];
      const row = bench.find(([each]) => each.startsWith(`${name}, `));
      assert.ok(row && value, `${name}: ${bench.map(([each]) => each).join(' | ')}`);
      const unit = row[0].slice(name.length + 2);
      assert.equal(row[1].replace(/(?=, measured$)|$/, ` ${unit}`), value);
    }
  });

  it('has them in a comparison', () => {
    const before = analysedSample(SAMPLE, (text) => text.replace('turns 8_200', 'turns 6_200'));
    const rows = numberRows(compareStates(stateOf(before), stateOf(after)));
    const told = new Map(hovered(hoverOn('coil screw')));
    const coil = rows.filter(({ path: [, part] }) => part === 'coil screw');
    assert.ok(coil.length >= 5, coil.map(({ what }) => what).join(' | '));
    for (const { what, after: now } of coil) assert.equal(spaces(now), told.get(spaces(what)), what);
  });

  it('has them on the wiring card', async () => {
    const [card] = cardsOfText(after, ['wiring']);
    assert.ok(card);
    const value = hovered(hoverOn('pickup ottlewick-neck')).find(([name]) => name === PICKUP_NUMBERS.humDb.what)?.[1];
    assert.ok(value);
    const text = spaces(await pageText(card));
    assert.ok(text.includes(`${PICKUP_NUMBERS.humDb.what}</dt><dd>${value}`), value);
  });
});

/**
 * What a sign or a verdict is called is said in `server/src/words/` (and, for what the language itself calls it, in
 * `server/src/model/coil.ts`); a ternary of such words elsewhere is a second place.
 */
const WORDED = /\? ?\(?'(?:counter)?clockwise'|\? ?'(?:north|south)(?:-up)?'|\? ?'[NS]'|'in phase'|'out of phase'/;

describe('words for phase, pole and winding direction', () => {
  it('stand in one place', () => {
    const root = path.resolve(import.meta.dirname, '../../server/src');
    const offenders = readdirSync(root, { recursive: true, encoding: 'utf8' })
      .map((file) => file.replaceAll('\\', '/'))
      .filter((file) => file.endsWith('.ts') && !file.startsWith('words/') && file !== 'model/coil.ts')
      .filter((file) => file !== 'checks/pages.ts')
      .flatMap((file) =>
        readFileSync(path.join(root, file), 'utf8')
          .split('\n')
          .flatMap((line, index) => (WORDED.test(line) ? [`${file}:${index + 1}: ${line.trim()}`] : [])),
      );
    assert.deepEqual(offenders, [], 'say it with rotationOf, poleOf, opposite or a function of server/src/words/');
  });
});

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
