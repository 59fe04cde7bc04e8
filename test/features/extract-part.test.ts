import assert from 'node:assert/strict';
import type { Analysis } from '../../server/src/analysis/analysis-types.ts';
import { extractions } from '../../server/src/features/extract-part.ts';
import { FOLDER, findingLines } from '../support/check-fixture.ts';
import { PARTS, SINGLE } from '../support/shop.ts';
import { applyEdits } from '../support/text-edits.ts';
import { analysedAll } from './analysed.ts';

type Files = Readonly<Record<string, string>>;

const offered = (files: Files, head: string, others: readonly string[] = []) => {
  const analysis = analysedAll(files)['main.pickup'];
  const at = files['main.pickup']?.indexOf(head) ?? -1;
  assert.ok(analysis && at >= 0);
  return extractions(analysis, { start: at, end: at }, others);
};

/** The files once the one that is offered has been made. */
function moved(files: Files, head: string): { readonly title: string; readonly after: Files } {
  const [extraction, another] = offered(files, head);
  assert.ok(extraction);
  assert.equal(another, undefined);
  const { title, edits, target, newFile } = extraction;
  const all = { 'parts.pickup': PARTS, ...files };
  const edited = Object.entries(all).map(([name, text]) => [
    name,
    applyEdits(
      text,
      edits.filter(({ at }) => at.uri === FOLDER + name),
    ),
  ]);
  const made = newFile === undefined ? {} : { [target.slice(FOLDER.length)]: newFile };
  return { title, after: { ...Object.fromEntries(edited), ...made } };
}

const told = (analysis: Analysis | undefined) =>
  findingLines(analysis ?? assert.fail()).map((line) => line.replace(/ at \d+:.*$/s, ''));

const numbers = (analysis: Analysis | undefined) =>
  analysis?.pickups.map(({ quick }) => [
    JSON.stringify(quick.resistance20COhm),
    [...quick.coils.values()].map((coil) => JSON.stringify(coil)),
  ]);

/** Both files as before, findings and numbers. */
function assertSame(before: Files, after: Files): void {
  const [then, now] = [analysedAll(before), analysedAll(after)];
  assert.deepEqual(told(now['main.pickup']), told(then['main.pickup']));
  assert.deepEqual(numbers(now['main.pickup']), numbers(then['main.pickup']));
  assert.deepEqual(told(now['parts.pickup']), []);
}

const THIN = `# Bought in spring.
wire thin-43 { # a full spool
  gauge 43 AWG
  overall 0.062 mm
  enamel plain
}
`;
const withThin = SINGLE.replace('pickup wren', `${THIN}\npickup wren`).replace('wire plain-42', 'wire thin-43');

describe('moving a part to the file of parts', () => {
  it('it stands behind the last of its kind there, with its comments', () => {
    const before = { 'main.pickup': withThin };
    const { title, after } = moved(before, 'wire thin-43 {');
    assert.equal(title, 'Move wire thin-43 to parts.pickup');
    assert.equal(after['main.pickup'], SINGLE.replace('wire plain-42', 'wire thin-43'));
    assert.equal(after['parts.pickup'], PARTS.replace('}\nspool', `}\n\n${THIN}spool`));
    assertSame(before, after);
  });

  it('what it is made of goes along where it stands in the same file, and is found where it is there already', () => {
    const spool = 'spool NEW-1 {\n  wire thin-43\n  measures 6.9 ohm/m at 20 degC\n}\n';
    const before = {
      'main.pickup': withThin
        .replace('pickup wren', `${spool}\npickup wren`)
        .replace('    wire thin-43', '    spool NEW-1'),
    };
    const { title, after } = moved(before, 'spool NEW-1 {');
    assert.equal(title, 'Move wire thin-43 and spool NEW-1 to parts.pickup');
    assert.equal(after['main.pickup'], SINGLE.replace('wire plain-42', 'spool NEW-1'));
    assertSame(before, after);

    const like = {
      'main.pickup': SINGLE.replace(
        'pickup wren',
        'bobbin low like rod-six {\n  window 9.0 x 5.2 mm\n}\n\npickup wren',
      ).replace('    bobbin rod-six', '    bobbin low'),
    };
    const other = moved(like, 'bobbin low');
    assert.equal(other.title, 'Move bobbin low to parts.pickup');
    assertSame(like, other.after);
  });

  it('a file that uses none gets a new one beside it', () => {
    const parts = PARTS.slice(PARTS.indexOf('bobbin'));
    const rest = `${PARTS.slice(0, PARTS.indexOf('bobbin'))}\n`;
    const text = `# Ruddle Yard\n\n${SINGLE.replace('use "parts.pickup"\n\n', parts + rest)}`;
    const [extraction] = offered({ 'main.pickup': text }, 'bobbin rod-six {');
    assert.equal(extraction?.title, 'Move bobbin rod-six to parts.pickup, a new file');
    const { after } = moved({ 'main.pickup': text }, 'bobbin rod-six {');
    assert.match(after['main.pickup'] ?? '', /^# Ruddle Yard\n\nuse "parts\.pickup"\n\nmagnet bar-5 \{/);
    assert.equal(after['parts.pickup'], parts.slice(0, parts.indexOf('magnet')));
    assertSame({ 'main.pickup': text }, after);
    // In the second place: the `use` line comes before the first block.
    const second = moved({ 'main.pickup': text }, 'magnet bar-5 {').after;
    assert.match(second['main.pickup'] ?? '', /^# Ruddle Yard\n\nuse "parts\.pickup"\n\nbobbin rod-six \{/);
    assertSame({ 'main.pickup': text }, second);
    // Where such a file is there but not used, it stays as it is.
    assert.deepEqual(offered({ 'main.pickup': text }, 'bobbin rod-six {', ['parts.pickup']), []);
  });

  it('nothing is offered where the name is taken, or what the part needs stands in a third file', () => {
    const taken = withThin.replaceAll('thin-43', 'plain-42');
    assert.deepEqual(offered({ 'main.pickup': taken }, 'wire plain-42 {'), []);
    const third = {
      'main.pickup': `use "wires.pickup"\n${SINGLE.replace('pickup wren', 'spool NEW-1 {\n  wire thin-43\n}\n\npickup wren')}`,
      'wires.pickup': THIN,
    };
    // Into that third file it may go.
    assert.deepEqual(
      offered(third, 'spool NEW-1 {').map(({ title }) => title),
      ['Move spool NEW-1 to wires.pickup'],
    );
  });

  it('nothing is offered elsewhere than in the first line of a part, nor into a file of pickups', () => {
    assert.deepEqual(offered({ 'main.pickup': withThin }, 'gauge 43'), []);
    assert.deepEqual(offered({ 'main.pickup': withThin }, 'pickup wren'), []);
    const other = {
      'main.pickup': withThin,
      'parts.pickup': PARTS + SINGLE.slice(SINGLE.indexOf('pickup')).replace('wren', 'heron'),
    };
    assert.deepEqual(offered(other, 'wire thin-43 {'), []);
  });
});
