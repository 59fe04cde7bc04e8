/** What is told of a text that was changed within one line, before it is read: never anything else than its reading tells of that line. */
import assert from 'node:assert/strict';
import { readFileTree } from '../../grammar/src/read-file.ts';
import type { FileTree } from '../../grammar/src/syntax-tree.ts';
import { changeBetween } from '../../grammar/src/text-change.ts';
import { createAnalyser } from '../../server/src/analysis/analysis.ts';
import type { Analysis, FileSpan, Host } from '../../server/src/analysis/analysis-types.ts';
import { levelled } from '../../server/src/analysis/levels.ts';
import { lineFindings } from '../../server/src/analysis/line-findings.ts';
import { writtenFindings } from '../../server/src/analysis/text-findings.ts';
import type { Finding } from '../../server/src/checks/finding.ts';
import { syntaxOf } from '../../server/src/model/from-syntax.ts';
import type { Place } from '../../server/src/model/place.ts';
import { type Chance, chance } from '../support/chance.ts';
import { EXAMPLE, hostOf } from '../support/check-fixture.ts';
import { analysedSample, sampleFiles, sampleNames } from '../support/sample-files.ts';
import { thorough } from '../support/thorough.ts';

const PICKUP = `wire plain-42 {
  gauge 42 AWG
}
pickup heron {
  strings 6
  coil a {
    turns 5_000 # counted
    wire plain-42
    wound clockwise
    polarity north-up
    start red
    finish black
  }
  coil b {
    turns 5_000
    wound clockwise
    polarity south-up
    start green
    finish white
  }
  hookup {
    hot white
    link black green
    ground red
  }
}
`;

const host: Host = hostOf({});

const analysed = (text: string): Analysis => createAnalyser().analyse(EXAMPLE, hostOf({ 'example.pickup': text }));

/** What is told once `from` is typed over by `to`, each with what it marks; `undefined` where the text has to be read first. */
function told(from: string, to: string, text = PICKUP): readonly string[] | undefined {
  assert.ok(text.includes(from), from);
  const now = text.replace(from, () => to);
  const line = lineFindings(analysed(text), now, host);
  return line?.findings.map(({ code, place }) => {
    const at = line.locate(place);
    return `${code}: ${at ? now.slice(at.start, at.end) : 'nowhere'}`;
  });
}

const STOOD = 'phase/coils-cancel: link black green';

describe('what is told of a line that is typed in', () => {
  it('is what stood, where nothing is written wrong', () => {
    assert.deepEqual(told('turns 5_000', 'turns 5_0001'), [STOOD]);
    assert.deepEqual(told('strings 6', 'strings  6'), [STOOD]);
  });

  it('is what is written wrong there, in the order of the text', () => {
    assert.deepEqual(told('wound clockwise', 'wound clockwisse'), ['syntax/unknown-word: clockwisse', STOOD]);
    assert.deepEqual(told('wound clockwise', 'wound'), ['syntax/incomplete: wound', STOOD]);
    assert.deepEqual(told('ground red', 'ground red "'), [STOOD, 'syntax/unclosed: "', 'syntax/unexpected: "']);
  });

  it('leaves out what was written wrong there and is no more', () => {
    const wrong = PICKUP.replace('wound clockwise', 'wound clockwisse');
    assert.deepEqual(told('clockwisse', 'clockwise', wrong), [STOOD]);
    assert.deepEqual(told('clockwisse', 'clockwiss', wrong), ['syntax/unknown-word: clockwiss', STOOD]);
  });

  it('keeps what was found of the circuit, moved along with the text', () => {
    assert.deepEqual(told('link black green', 'link black  green'), ['phase/coils-cancel: link black  green']);
    assert.deepEqual(told('ground red', 'ground  red'), [STOOD]);
  });

  it('is told as loudly as the bench has it', () => {
    const quiet = `bench {\n  severity syntax/unknown-word off\n}\n${PICKUP}`;
    assert.deepEqual(told('wound clockwise', 'wound clockwisse', quiet), [STOOD]);
  });
});

describe('a text is read first', () => {
  const readFirst = (from: string, to: string, text?: string): void =>
    assert.equal(told(from, to, text), undefined, `${from} → ${to}`);

  it('where a line comes or goes, or a block opens or closes', () => {
    readFirst('strings 6\n', '');
    readFirst('strings 6', 'strings 6\n  serial 7');
    readFirst('strings 6', 'strings 6 {');
    readFirst('strings 6', 'strings 6 }');
    readFirst('strings 6', 'strings 6; serial 7');
    readFirst('start green', 'start green\r');
  });

  it('where the line becomes another fact, or may go on in the next', () => {
    readFirst('wound clockwise', 'wund clockwise');
    readFirst('wound clockwise', '  wound clockwise');
    readFirst('link black green', 'link black green,');
    readFirst('link black green', 'link black (green');
    readFirst('strings 6', '# strings 6');
  });

  it('where it is the line of a block or of a name', () => {
    readFirst('coil a', 'coil ab');
    readFirst('pickup heron', 'pickup herons');
    readFirst('42 AWG\n}', '42 AWG\n}x');
  });

  it('where something on the line is told of more than its writing', () => {
    readFirst(
      'plain-42\n    wound',
      'plain-4\n    wound',
      PICKUP.replace('wire plain-42\n    ', 'wire plain-43\n    wire plain-42\n    '),
    );
    readFirst('wire plain-43', 'wire plain-432', PICKUP.replace('wire plain-42\n    ', 'wire plain-43\n    '));
  });

  it('where braces are wrong elsewhere in the block', () => {
    readFirst('strings 6', 'strings 7', PICKUP.replace('coil b {', 'coil b'));
    readFirst('ground red', 'ground black', PICKUP.replace(/\}\n$/, ''));
  });

  it('where nothing has changed, or all has', () => {
    readFirst('strings 6', 'strings 6');
    readFirst(PICKUP, 'wire w {\n  gauge 43 AWG\n}\n');
  });

  it('where something of that kind is accepted', () => {
    const accepting = PICKUP.replace('strings 6', 'accept syntax/unknown-word "for now"\n  strings 6');
    readFirst('wound clockwise', 'wound clockwisse', accepting);
  });
});

/** All that is written wrong in a text: the line of each, and all that is said of it with its places in lines. */
interface Written {
  readonly line: number;
  readonly said: string;
}

function writtenIn({ text, chunks }: FileTree, { bench }: Analysis): readonly Written[] {
  return chunks.flatMap(({ chunk, offset }) =>
    levelled(writtenFindings(chunk, syntaxOf(chunk)), bench, undefined).map((each) => writtenOf(each, text, offset)),
  );
}

/** `offset`: where its piece begins. */
function writtenOf(
  { code, severity, message, place, related, remedies }: Finding,
  text: string,
  offset: number,
): Written {
  const at = ({ span: { start, end } }: Place) => [start, end].map((each) => positionOf(text, offset + each));
  const mended = remedies().map(({ title, edits }) => [title, edits.map((each) => [at(each.place), each.newText])]);
  const others = related.map((each) => [each.message, at(each.place)]);
  const said = JSON.stringify([code, severity, message, at(place), others, mended]);
  return { line: lineOf(text, offset + place.span.start), said };
}

function positionOf(text: string, offset: number): readonly [line: number, character: number] {
  const lines = text.slice(0, offset).split(/\r\n|\r|\n/);
  return [lines.length, lines.at(-1)?.length ?? 0];
}

const lineOf = (text: string, offset: number): number => positionOf(text, offset)[0];

const PASTED = [
  ...[
    '1',
    '0',
    '.',
    'k',
    'mm',
    ' ',
    '_',
    '-',
    '"',
    ' "it"',
    '0,5',
    '±',
    ' ± 2 %',
    '(',
    ')',
    ',',
    ' x',
    'Ω',
    '°',
    '#',
    '//',
  ],
  ...['@', '\\', '/', ';', '{', '}', '\n', '\r', ' 7.8 kohm', ' bridge.slug'],
] as [string, ...string[]];

/** Something is typed, taken away or written over, nearly always within the line of a fact. */
function typed(text: string, luck: Chance): string {
  const facts = [...text.matchAll(/^ +[a-z][^#\n{}]*(?=\n|\r| #)/gm)];
  const fact = facts[luck.whole(facts.length)];
  const start = (fact?.index ?? 0) + luck.whole((fact?.[0].length ?? text.length) + 1);
  const end = Math.min(text.length, start + luck.whole(2) * luck.whole(6));
  return text.slice(0, start) + (luck.whole(3) === 0 ? '' : luck.pick(PASTED)) + text.slice(end);
}

/** True where the line is told by itself: then as the reading of the whole tells it, which says nothing else of any other line. */
function isToldAlike(before: Analysis, now: string): boolean {
  const told = lineFindings(before, now, host);
  if (!told) return false;
  const { start } = changeBetween(before.text, now);
  const line = lineOf(before.text, start);
  const about = JSON.stringify(now.slice(Math.max(0, start - 60), start + 60));
  const said = (written: readonly Written[], isThere: boolean) =>
    written.flatMap((each) => (isThere === (each.line === line) ? [each.said] : [])).sort();
  const fresh = writtenIn(readFileTree(now), before);
  assert.deepEqual(said(fresh, false), said(writtenIn(before.tree, before), false), about);
  const anew = told.findings.filter(({ place }) => before.homeOf(place.chunk) === undefined);
  const written = anew.map((each) => writtenOf(each, now, told.homeOf(each.place.chunk)?.offset ?? Number.NaN));
  assert.deepEqual(said(written, true), said(fresh, true), about);
  assert.equal(said(written, false).length, 0);
  // What stands elsewhere is the very finding that stood, in the lines where it was.
  const standing = new Set(told.findings);
  for (const finding of before.findings) {
    const was: FileSpan | undefined = before.locate(finding.place);
    const is: FileSpan | undefined = told.locate(finding.place);
    const ends = was ? [was.start, was.end].map((each) => positionOf(before.text, each)) : [];
    if (ends.some(([each]) => each === line)) continue;
    assert.deepEqual(is && [is.start, is.end].map((each) => positionOf(now, each)), ends, about);
    const points = finding.related.some(({ place }) => {
      const at = before.locate(place);
      return at && [at.start, at.end].some((each) => lineOf(before.text, each) === line);
    });
    assert.ok(points || standing.has(finding), about);
  }
  assert.equal(told.findings.length, new Set(told.findings).size);
  return true;
}

describe('a line told by itself', () => {
  /** How many of a hundred edits, over texts, are told by themselves. */
  const shareOf = (texts: readonly Analysis[], each: number, seed: number): number => {
    const luck = chance(seed);
    const alone = texts.flatMap((before) =>
      Array.from({ length: each }, () => (isToldAlike(before, typed(before.text, luck)) ? 1 : 0)),
    );
    return (100 * alone.filter((one) => one === 1).length) / alone.length;
  };

  it('is told as the whole text is, wherever a sample is typed in', () => {
    const share = shareOf(
      sampleFiles().map(({ path }) => analysedSample(path)),
      thorough(15),
      7,
    );
    assert.ok(share > 20, `${share} %`);
  });

  it('is so in texts that are wrong elsewhere', () => {
    const luck = chance(8);
    const wrong = sampleNames.map((name) => analysedSample(name, (text) => typed(typed(text, luck), luck)));
    const share = shareOf(wrong, thorough(15), 9);
    assert.ok(share > 10, `${share} %`);
  });
});
