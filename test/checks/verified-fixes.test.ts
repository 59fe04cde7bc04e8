/** Fixes are judged by what their edits touch; here each candidate is judged once more by the whole file. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { Analysis } from '../../server/src/analysis/analysis-types.ts';
import type { Finding, Remedy } from '../../server/src/checks/finding.ts';
import { say } from '../../server/src/checks/say.ts';
import { diskHost, uriOf } from '../../server/src/cli/files.ts';
import { analyse, EXAMPLE, findingOf, hostOf } from '../support/check-fixture.ts';
import { analysedSample, analyser, SAMPLES, sampleFiles } from '../support/sample-files.ts';
import { single } from '../support/shop.ts';

/** A part without its unit, and an instrument with two faults: each settled by a fix. */
const REALISTIC = path.resolve(import.meta.dirname, '../benchmarks/realistic.tpl');
const host = diskHost(SAMPLES);

const isNote = ({ severity }: Finding): boolean => severity === 'information';
const said = (each: Finding): string =>
  JSON.stringify([each.code, each.subject.pickup, each.subject.instrument, each.subject.position, isNote(each)]);
const times = (found: readonly Finding[], what: string): number => found.filter((each) => said(each) === what).length;
const isGrave = ({ severity, code }: Finding): boolean =>
  (severity === 'error' || severity === 'warning') && !code.startsWith('reading/');

/** By analysing the changed file as a whole. */
function holdsInTheFile({ edits, kind }: Remedy, finding: Finding, analysis: Analysis): boolean {
  const after = analysis.edited(edits);
  if (!after) return false;
  const isLate = !analysis.findings.includes(finding);
  const [was, is] = [analysis, after].map((each) => (isLate ? each.allFindings() : each.findings));
  assert.ok(was && is);
  const isGone = times(is, said(finding)) < times(was, said(finding));
  return (
    isGone && (kind === 'text' || is.filter(isGrave).every((each) => times(is, said(each)) <= times(was, said(each))))
  );
}

const changes = ({ title, edits }: Remedy) =>
  JSON.stringify([title, edits.map(({ place: { span }, newText }) => [span, newText])]);

/** How many remedies held, and how many did not; as many as are offered. */
function judged(analysis: Analysis, where: string): readonly [held: number, refused: number] {
  let [held, refused] = [0, 0];
  for (const finding of analysis.allFindings()) {
    const candidates = finding.remedies(analysis.pickupsInSight());
    const expected = new Set(candidates.filter((each) => holdsInTheFile(each, finding, analysis)).map(changes));
    assert.deepEqual(analysis.verifiedFixes(finding).map(changes), [...expected], `${where}: ${finding.code}`);
    held += expected.size;
    refused += candidates.length - expected.size;
  }
  return [held, refused];
}
const sum = (counts: readonly (readonly [number, number])[]): readonly [number, number] =>
  counts.reduce(([held, refused], [more, less]) => [held + more, refused + less], [0, 0]);

describe('verified fixes', () => {
  it('are exactly those that hold where the whole file is analysed again', () => {
    const [held, refused] = sum(sampleFiles().map((file) => judged(analysedSample(file.path), file.path)));
    assert.ok(held > 50 && refused > 20, `${held} held, ${refused} did not`);
  });

  it('are so too where one of the findings is accepted, and leave nothing accepted for no reason', () => {
    const [stock = '', pickup = ''] = readFileSync(REALISTIC, 'utf8').replaceAll('{{i}}', '1').split('%%\n');
    const withLine = (accept: string) => analyse(stock + pickup.replace('  scale', `${accept}  scale`));
    for (const [accept, held] of [
      ['', 3],
      ['  accept phase/position-cancels\n', 2],
      ['  accept ground/metal-hot\n', 2],
    ] as const)
      assert.equal(judged(withLine(accept), accept)[0], held, accept);
  });

  it('leave what the file was read as in place', () => {
    const uri = uriOf(path.join(SAMPLES, 'mistakes', 'phase-position-cancels.pickup'));
    const before = analyser.analyse(uri, host);
    assert.ok(before.findings.some((finding) => before.verifiedFixes(finding).length > 1));
    const after = analyser.analyse(uri, host);
    assert.deepEqual(
      after.instruments.map(({ instrument }, index) => instrument === before.instruments[index]?.instrument),
      before.instruments.map(() => true),
    );
    assert.ok(after.instruments.length > 0);
  });
});

describe('a remedy', () => {
  const BROKEN = single('wren').replace('    ground', '    # ground');
  const analysis = analyse(`${BROKEN}${single('heron')}bogus 3\n`);
  const open = findingOf(analysis, 'circuit/open');
  const chunks = analysis.tree.chunks.map(({ chunk }) => chunk);

  /** One that replaces the first such piece of text in one of the file's pieces. */
  function change(piece: number, from: string, to: string, title = 'Change it'): Remedy {
    const chunk = chunks[piece];
    const start = chunk?.text.indexOf(from) ?? -1;
    assert.ok(chunk && start >= 0, from);
    const edits = [{ place: { chunk, span: { start, end: start + from.length } }, newText: to }];
    return { title: say`${title}`, edits, kind: 'build' };
  }
  const together = (...all: readonly Remedy[]): Remedy => ({
    title: say`Change all`,
    edits: all.flatMap(({ edits }) => edits),
    kind: 'build',
  });
  /** Places in the list of those that hold. */
  function holding(finding: Finding, ...remedies: readonly Remedy[]): readonly number[] {
    const held = analysis.verifiedFixes({ ...finding, remedies: () => remedies });
    return remedies.flatMap((each, index) => (held.includes(each) ? [index] : []));
  }
  const settle = change(0, '    # ground', '    ground');

  it('holds where the finding is gone, and not where it stays', () => {
    assert.deepEqual(holding(open, settle, change(0, '7_700', '7_701')), [0]);
  });

  it('is made once where two causes ask for the same, and twice where they ask for it in two places', () => {
    assert.deepEqual(holding(open, settle, { ...settle }), [0]);
    const apart = [together(settle, change(1, 'heron', 'egret')), together(settle, change(1, '7_700', '7_701'))];
    assert.deepEqual(holding(open, ...apart), [0, 1]);
  });

  it('is twice where two pieces are changed alike, and once in each of them', () => {
    const both = [change(1, 'pickup', 'pickup '), change(0, 'pickup', 'pickup ')].map((each) => together(settle, each));
    assert.deepEqual(holding(open, ...both), [0, 1]);
  });

  it('that cannot be made takes no other with it', () => {
    const overlapping = together(change(0, '7_700', '7_701'), change(0, '7_700', '7_702'));
    assert.deepEqual(holding(open, overlapping, settle), [1]);
  });

  it('of an instrument is found beside faults of a pickup of its name', () => {
    const text = `${single('wren')}instrument wren {
  pickup neck wren
  selector {
    1 "neck" neck
    1 "again" neck
  }
}
`;
    const twice = analyse(text);
    const finding = findingOf(twice, 'name/duplicate');
    const chunk = finding.place.chunk;
    const start = chunk.text.indexOf('1 "again"');
    const edits = [{ place: { chunk, span: { start, end: start + 1 } }, newText: '2' }];
    const [build, said]: readonly Remedy[] = (['build', 'text'] as const).map((kind) => ({
      title: say`Number it`,
      edits,
      kind,
    }));
    for (const remedy of [build, said])
      assert.deepEqual(twice.verifiedFixes({ ...finding, remedies: () => (remedy ? [remedy] : []) }), [remedy]);
  });

  it('holds that makes a record of a pickup: what is wrong with that is none of anybody’s now', () => {
    const hot = (name: string, more = '') => single(name, { inside: `  potting {\n    bath 92 degC\n  }\n${more}` });
    const file = analyse(`${hot('wren')}pickup heron {\n}\n`);
    const finding = findingOf(file, 'potting/too-hot');
    const chunk = file.tree.chunks[1]?.chunk;
    assert.ok(chunk);
    const at = 'pickup heron'.length;
    const edits = [{ place: { chunk, span: { start: at, end: at } }, newText: ' reworks wren' }];
    const rework: Remedy = { title: say`It was that`, edits, kind: 'text' };
    assert.deepEqual(file.verifiedFixes({ ...finding, remedies: () => [rework] }), [rework]);
  });

  it('may bring what is accepted there, and nothing that cannot be read', () => {
    const brings = (accept: string, line: string) => {
      const text = BROKEN.replace('  hookup {', `${accept}  hookup {`) + single('heron');
      const whole = hostOf({ 'example.pickup': text });
      const file = analyser.analyse(EXAMPLE, {
        ...whole,
        content: (uri) => {
          if (uri.endsWith('.csv')) throw new Error('a worn-out drive');
          return whole.content(uri);
        },
      });
      const finding = findingOf(file, 'circuit/open');
      const { chunk } = finding.place;
      const edit = (from: string, newText: string) => ({
        place: { chunk, span: { start: chunk.text.indexOf(from), end: chunk.text.indexOf(from) + from.length } },
        newText,
      });
      const edits = [edit('    # ground', '    ground'), edit('  hookup {', `${line}  hookup {`)];
      const remedy: Remedy = { title: say`Join it`, edits, kind: 'build' };
      return file.verifiedFixes({ ...finding, remedies: () => [remedy] }).length;
    };
    const hot = '  potting {\n    bath 92 degC\n  }\n';
    assert.equal(brings('', hot), 0);
    assert.equal(brings('  accept potting/too-hot\n', hot), 1);
    assert.equal(brings('', '  strings 6\n'), 1);
    assert.equal(brings('', '  readings "as wound" {\n    sweep hot to ground "worn.csv" over 10 kohm\n  }\n'), 0);
  });

  it('holds where it settles one of two that say the same', () => {
    const twice = analyse('bogus 3\nwire w {\n}\nbogus 4\n');
    const [first, second] = twice.findings;
    const chunk = twice.tree.chunks[0]?.chunk;
    assert.ok(first && second && chunk);
    assert.equal(first.code, second.code);
    const edits = [{ place: { chunk, span: { start: 0, end: 'bogus 3\n'.length } }, newText: '' }];
    const away: Remedy = { title: say`Away with it`, edits, kind: 'text' };
    assert.deepEqual(twice.verifiedFixes({ ...first, remedies: () => [away] }), [away]);
  });

  it('brings nothing new, nor more of what was there already', () => {
    assert.deepEqual(holding(open, together(settle, change(1, '    turns', '    bogus'))), []);
    assert.deepEqual(holding(open, together(settle, change(2, 'bogus 3', 'bogus 3\nwire w {\n}\nbogus 4'))), []);
    assert.deepEqual(holding(open, together(settle, change(2, 'bogus 3', 'bogus 4'))), [0]);
  });

  it('takes no name that others have, and breaks no other pickup', () => {
    assert.deepEqual(holding(open, together(settle, change(1, 'heron', 'wren'))), []);
    assert.deepEqual(holding(open, together(settle, change(1, '    ground', '    # ground'))), []);
  });
});
