import assert from 'node:assert/strict';
import type { Analysis } from '../../server/src/analysis/analysis-types.ts';
import { splits } from '../../server/src/features/split-file.ts';
import { FOLDER, findingLines } from '../support/check-fixture.ts';
import { analysedSample, sampleFiles } from '../support/sample-files.ts';
import { PARTS, SINGLE } from '../support/shop.ts';
import { applyEdits } from '../support/text-edits.ts';
import { analysedAll } from './analysed.ts';

type Files = Readonly<Record<string, string>>;

const offered = (files: Files, head: string, taken: readonly string[] = []) => {
  const analysis = analysedAll(files)['main.pickup'];
  const at = files['main.pickup']?.indexOf(head) ?? -1;
  assert.ok(analysis && at >= 0, head);
  return splits(analysis, { start: at, end: at }, taken);
};

/** All files as they are afterwards. */
function split(files: Files, head: string): Files {
  const [found, another] = offered(files, head);
  assert.ok(found, 'offered');
  assert.equal(another, undefined);
  const made = [...found.newFiles].map(([uri, text]) => [uri.slice(FOLDER.length), text]);
  return { ...files, 'main.pickup': applyEdits(files['main.pickup'] ?? '', found.edits), ...Object.fromEntries(made) };
}

const told = (analyses: readonly (Analysis | undefined)[]) =>
  analyses
    .flatMap((each) => findingLines(each ?? assert.fail()).map((line) => line.replace(/ at \d+:.*$/s, '')))
    .sort();

const numbers = (analyses: readonly (Analysis | undefined)[]) =>
  analyses
    .flatMap((each) => each?.pickups ?? [])
    .map(({ pickup, estimates }) => {
      const { resistance20COhm, inductanceH, resonanceHz } = estimates();
      return JSON.stringify([pickup.name, resistance20COhm, inductanceH, resonanceHz]);
    })
    .sort();

/** Findings and numbers of `main` before are those of `main` and the new files together, solved anew. */
function assertSame(before: Files, after: Files): void {
  const [then, now] = [analysedAll(before), analysedAll(after)];
  const news = Object.keys(after).filter(
    (name) => name === 'main.pickup' || (!(name in before) && name !== 'parts.pickup'),
  );
  assert.deepEqual(told(news.map((name) => now[name])), told([then['main.pickup']]));
  assert.deepEqual(numbers(news.map((name) => now[name])), numbers([then['main.pickup']]));
}

const pickupOnly = SINGLE.slice(SINGLE.indexOf('pickup wren'));
const second = pickupOnly.replace('pickup wren', 'pickup heron').replace(/turns [\d_]+/, 'turns 6_100');
const TWO = `${SINGLE}\n# The other one.\n${second}`;

describe('splitting a file by pickup', () => {
  it('each pickup stands in a file of its own with its comments and the use lines that it needs', () => {
    const before = { 'main.pickup': TWO };
    const after = split(before, 'pickup heron');
    assert.equal(after['heron.pickup'], `use "parts.pickup"\n\n# The other one.\n${second}`);
    assert.equal(after['wren.pickup'], `use "parts.pickup"\n\n${pickupOnly}`);
    assert.match(after['main.pickup'] ?? '', /^use "parts\.pickup"\nuse "wren\.pickup"\nuse "heron\.pickup"\s*$/);
    assertSame(before, after);
  });

  it('an instrument stays and uses the new files, and so does whoever uses the file', () => {
    const instrument = `\ninstrument tern "Tern" {
  pickup bridge wren
  pickup neck heron
  selector {
    1 "bridge" bridge
    2 "both" bridge parallel neck
    3 "neck" neck
  }
}
`;
    const before = {
      'main.pickup': TWO + instrument,
      'other.pickup': `use "main.pickup"\n${instrument.replace('tern "Tern"', 'gannet "Gannet"')}`,
    };
    const after = split(before, 'pickup wren');
    assert.ok(after['main.pickup']?.endsWith(instrument.trimStart()));
    assertSame(before, after);
    const [then, now] = [analysedAll(before)['other.pickup'], analysedAll(after)['other.pickup']];
    assert.deepEqual(told([now]), told([then]));
  });

  it('parts and bench that they need go into a file beside them; what finds fault before finds it afterwards', () => {
    const own = `bench {
  mains 60 Hz
}
wire thin-43 {
  gauge 43 AWG
}
`;
    const bad = second.replace('bobbin rod-six', 'bobbin rod-sx');
    const before = {
      'main.pickup': `${own}\n${TWO.replace(second, bad)}`
        .replace('wire plain-42', 'wire thin-43')
        .replace(/^(bench[\s\S]*?)use "parts.pickup"\n/, 'use "parts.pickup"\n$1'),
    };
    const after = split(before, 'pickup wren');
    assert.match(after['main-parts.pickup'] ?? '', /^bench \{[\s\S]*wire thin-43/);
    assert.match(after['wren.pickup'] ?? '', /^use "parts\.pickup"\nuse "main-parts\.pickup"\n\n/);
    assertSame(before, after);
  });

  it('one that is like another uses its file; the one that the file is named after stays', () => {
    const like = `${SINGLE}\npickup heron like wren {\n}\n`;
    const after = split({ 'main.pickup': like }, 'pickup heron');
    assert.match(after['heron.pickup'] ?? '', /^use "wren\.pickup"\n/);
    assertSame({ 'main.pickup': like }, after);
    const named = { 'main.pickup': TWO.replace('pickup wren', 'pickup main') };
    const stays = split(named, 'pickup main');
    assert.match(stays['main.pickup'] ?? '', /use "heron\.pickup"[\s\S]*pickup main/);
    assertSame(named, stays);
  });

  it('every sample of several pickups can be split', () => {
    const several = sampleFiles()
      .map(({ path }) => analysedSample(path))
      .filter(({ pickups }) => pickups.length > 1);
    assert.ok(several.length > 8);
    for (const analysis of several) {
      const at = analysis.text.search(/^pickup /m);
      assert.equal(splits(analysis, { start: at, end: at }, []).length, 1, analysis.uri);
    }
  });

  it('nothing is offered for one pickup, elsewhere than in the first line, or where a file of that name is there', () => {
    assert.deepEqual(offered({ 'main.pickup': SINGLE }, 'pickup wren'), []);
    assert.deepEqual(offered({ 'main.pickup': TWO }, 'coil'), []);
    assert.deepEqual(offered({ 'main.pickup': TWO }, 'pickup wren', ['Heron.pickup']), []);
    const needsWhatStays = `${SINGLE.replace('pickup wren', 'pickup main')}\npickup heron like main {\n}\n`;
    assert.deepEqual(offered({ 'main.pickup': needsWhatStays }, 'pickup main'), []);
    assert.deepEqual(offered({ 'main.pickup': `${TWO}${PARTS.slice(0, 0)}pickup wren {\n}\n` }, 'pickup wren'), []);
  });
});
