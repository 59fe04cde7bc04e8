/** An analysis in steps: what is told of a new text before anything of it is solved, and that it ends as if it had been made at once. */
import assert from 'node:assert/strict';
import { type Analyser, createAnalyser } from '../../server/src/analysis/analysis.ts';
import type { Analysis, EarlyFindings } from '../../server/src/analysis/analysis-types.ts';
import { instrumentAnalysis } from '../../server/src/analysis/instrument-analysis.ts';
import { pickupAnalysis } from '../../server/src/analysis/pickup-analysis.ts';
import { EXAMPLE, findingLines, hostOf } from '../support/check-fixture.ts';
import { sampleFiles } from '../support/sample-files.ts';

/** Its coils work against each other, told at the link. */
const AGAINST = (name: string, inside = '') => `pickup ${name} {
  coil a {
    turns 5_000
    wound clockwise
    polarity north-up
    start ${name}-1
    finish ${name}-2
  }
  coil b {
    turns 5_000
    wound clockwise
    polarity south-up
    start ${name}-3
    finish ${name}-4
  }
  hookup {
    hot ${name}-4
    link ${name}-2 ${name}-3
    ground ${name}-1
  }
${inside}}
`;
const INSTRUMENT = `instrument i {
  pickup neck heron
  selector {
    1 "neck" neck
    1 "again" neck
  }
}
`;

const host = (text: string) => hostOf({ 'example.pickup': text });

/**
 * What is told first of a text that was another one before, with the pieces of text that the findings point at: nothing where nothing
 * has to be solved.
 */
function early(before: string | undefined, text: string, analyser = createAnalyser()): readonly string[] {
  const former = before === undefined ? undefined : analyser.analyse(EXAMPLE, host(before));
  let told: EarlyFindings | undefined;
  for (const step of analyser.analysing(EXAMPLE, host(text), former)) told = step?.() ?? told;
  if (!told) return [];
  const { findings, locate } = told;
  return findings.map(({ code, place }) => {
    const at = locate(place);
    return `${code}: ${at ? text.slice(at.start, at.end) : 'nowhere'}`;
  });
}
const CANCEL = (name = 'heron') => `phase/coils-cancel: link ${name}-2 ${name}-3`;

describe('what is told first', () => {
  it('of a text that is new is what is written wrong, nothing of its circuits', () => {
    assert.deepEqual(early(undefined, AGAINST('heron')), []);
    assert.deepEqual(early(undefined, AGAINST('heron', '  bogus 3\n')), ['syntax/unknown-word: bogus']);
  });

  it('keeps what is found in pickups and instruments that are as they were', () => {
    const text = AGAINST('heron') + AGAINST('wren') + INSTRUMENT;
    assert.deepEqual(early(text, `# one line more\n${text}`), [CANCEL(), CANCEL('wren'), 'name/duplicate: 1']);
  });

  it('carries along what stood in a pickup that is changed, until it is solved', () => {
    const before = AGAINST('heron');
    const changed = (from: string, to: string) => {
      assert.ok(before.includes(from));
      return early(before, before.replace(from, to));
    };
    assert.deepEqual(changed('  coil a {', '  strings 6\n  coil a {'), [CANCEL()]);
    assert.deepEqual(changed('    ground', '    # a remark\n    ground'), [CANCEL()]);
    assert.deepEqual(changed('link heron-2 heron-3', 'link heron-2 x heron-3'), [
      'phase/coils-cancel: link heron-2 x heron-3',
    ]);
    assert.deepEqual(changed('link heron-2 heron-3', 'Link heron-2 heron-3'), [
      'syntax/unknown-word: Link',
      'phase/coils-cancel: Link heron-2 heron-3',
    ]);
    assert.deepEqual(changed('    link heron-2 heron-3\n', ''), ['phase/coils-cancel: pickup heron {']);
    assert.deepEqual(changed('5_000', '5_0001'), [CANCEL()]);
  });

  it('drops what stood in a pickup that is gone or has another name', () => {
    const before = AGAINST('heron') + AGAINST('wren');
    assert.deepEqual(early(before, AGAINST('wren') + AGAINST('egret')), [CANCEL('wren')]);
    assert.deepEqual(early(AGAINST('heron'), AGAINST('heron').replace('pickup heron', 'pickup egret')), []);
  });

  it('holds what needs inductances, where that was worked out before', () => {
    const files = Object.fromEntries(sampleFiles().map(({ path, text }) => [path, text]));
    const quorl = files['quorl.pickup'] ?? '';
    const of = (text: string) => hostOf({ ...files, 'example.pickup': text });
    const analyser = createAnalyser();
    const before = analyser.analyse(EXAMPLE, of(quorl));
    before.allFindings();
    let told: EarlyFindings | undefined;
    for (const step of analyser.analysing(EXAMPLE, of(`# a remark\n${quorl}`), before)) told = step?.() ?? told;
    // Nothing is told early where nothing has to be solved; what is known is told either way.
    const found = told?.findings ?? analyser.analyse(EXAMPLE, of(`# a remark\n${quorl}`)).knownFindings();
    assert.deepEqual(
      found.map(({ code }) => code),
      ['hum/partly-cancelled', 'hum/partly-cancelled'],
    );
  });

  it('holds what goes past a limit', () => {
    const row = `pickup row {\n${Array.from({ length: 49 }, (_, index) => `  coil c${index} {\n  }\n`).join('')}}\n`;
    const told = early(undefined, row + AGAINST('heron'));
    assert.deepEqual(
      told.map((each) => each.split(':')[0]),
      ['analysis/incomplete'],
    );
  });

  it('tells once what needs no solving although it is told of a pickup or an instrument', () => {
    const row = `pickup row {\n${Array.from({ length: 49 }, (_, index) => `  coil c${index} {\n  }\n`).join('')}}\n`;
    assert.deepEqual(early(row, row.replace('c7', 'c71')), ['analysis/incomplete: pickup row {']);
    const reworked = `${AGAINST('heron')}pickup egret reworks heron {\n}\n${INSTRUMENT}`;
    const codes = early(reworked, reworked.replace('"again"', '"once more"')).map((each) => each.split(':')[0]);
    assert.equal(codes.filter((each) => each === 'fit/former-state').length, 1);
  });

  it('tells a line by itself before anything is read, where nothing else has changed and something is solved', () => {
    const first = (before: string, text: string): readonly string[] | undefined => {
      const analyser = createAnalyser();
      const step = analyser.analysing(EXAMPLE, host(text), analyser.analyse(EXAMPLE, host(before))).next();
      return step.done ? undefined : step.value?.()?.findings.map(({ code }) => code);
    };
    const before = AGAINST('heron');
    assert.deepEqual(first(before, before.replace('wound clockwise', 'wound clockwisse')), [
      'syntax/unknown-word',
      'phase/coils-cancel',
    ]);
    assert.equal(first(before, before.replace('    turns', '    # counted\n    turns')), undefined);
    const parts = 'wire w {\n  gauge 42 AWG\n}\n';
    assert.equal(first(parts, parts.replace('AWG', 'AWGG')), undefined);
  });

  it('carries along what a finding points to beside its own place', () => {
    const before = AGAINST('heron') + INSTRUMENT;
    const related = ({ findings, locate }: EarlyFindings, text: string) =>
      findings.flatMap((finding) =>
        finding.related.map(({ place }) => text.slice(locate(place)?.start ?? 0, locate(place)?.end ?? 0)),
      );
    const former = createAnalyser().analyse(EXAMPLE, host(before));
    const now = before
      .replace('  coil a {', '  strings 6\n  coil a {')
      .replace('  selector {', '  # two\n  selector {');
    let told: EarlyFindings | undefined;
    for (const step of createAnalyser().analysing(EXAMPLE, host(now), former)) told = step?.() ?? told;
    assert.ok(told && related(former, before).length > 0);
    assert.deepEqual(related(told, now), related(former, before));
  });

  it('holds an instrument that goes past a limit, and calls a record of a pickup that', () => {
    const positions = Array.from({ length: 201 }, (_, index) => `    ${index + 1} "p" neck\n`).join('');
    const many = `instrument i {\n  pickup neck heron\n  selector {\n${positions}  }\n}\n`;
    assert.deepEqual(
      early(undefined, AGAINST('heron') + many).map((each) => each.split(':')[0]),
      ['analysis/incomplete'],
    );
    const reworked = `${AGAINST('heron')}pickup wren reworks heron {\n  strings 6\n}\n`;
    const analyser = createAnalyser();
    const former = analyser.analyse(EXAMPLE, host(reworked));
    const text = reworked.replace('strings 6', 'strings 7');
    const levels = new Set<string>();
    for (const step of analyser.analysing(EXAMPLE, host(text), former)) {
      const found = step?.()?.findings;
      if (found) levels.add(found.map(({ subject, severity }) => `${subject.pickup} ${severity}`).join());
    }
    assert.deepEqual([...levels], ['heron information,wren error']);
  });

  it('drops what was written wrong and is no more', () => {
    assert.deepEqual(early(AGAINST('heron', '  bogus 3\n'), AGAINST('heron')), [CANCEL()]);
  });

  it('carries what stands in an instrument whose pickup is changed', () => {
    const before = AGAINST('heron') + INSTRUMENT;
    assert.deepEqual(early(before, before.replace('5_000', '5_100')), [CANCEL(), 'name/duplicate: 1']);
    assert.deepEqual(early(before, before.replace('"again"', '"once more"')), [CANCEL(), 'name/duplicate: 1']);
  });

  it('calls no acceptance unused before all is solved, and takes back none that was', () => {
    const used = AGAINST('heron', '  accept phase/coils-cancel "for its tone"\n');
    assert.deepEqual(early(undefined, used), []);
    assert.deepEqual(early(used, used.replace('5_000', '5_100')), [CANCEL()]);
    const idle = AGAINST('heron', '  accept potting/too-hot\n');
    assert.deepEqual(early(idle, idle.replace('5_000', '5_100')), [CANCEL(), 'accept/unused: accept potting/too-hot']);
  });
});

describe('an analysis in steps', () => {
  const files = Object.fromEntries(sampleFiles().map(({ path, text }) => [path, text]));
  const all = (analysis: Analysis) => [findingLines(analysis), analysis.pickups.length, analysis.instruments.length];
  const played = (analyser: ReturnType<typeof createAnalyser>, text: string, most = Number.POSITIVE_INFINITY) => {
    const steps = analyser.analysing(EXAMPLE, hostOf({ ...files, 'example.pickup': text }));
    for (let count = 0; count < most; count++) {
      const step = steps.next();
      if (step.done) return { count, analysis: step.value };
    }
    return undefined;
  };
  const atOnce = (analyser: Analyser, text: string) =>
    analyser.analyse(EXAMPLE, hostOf({ ...files, 'example.pickup': text }));

  it('ends as one that is made at once', () => {
    for (const name of ['quorl.pickup', 'teasel.pickup']) {
      const text = files[name] ?? '';
      const end = played(createAnalyser(), text);
      assert.ok(end);
      assert.deepEqual(all(end.analysis), all(atOnce(createAnalyser(), text)));
    }
  });

  it('solves one pickup or one position a step', () => {
    const text = AGAINST('heron') + AGAINST('wren') + INSTRUMENT;
    const [one, both, fitted] = [AGAINST('heron'), AGAINST('heron') + AGAINST('wren'), text].map(
      (each) => played(createAnalyser(), each)?.count ?? 0,
    );
    assert.ok(one && both && fitted && one >= 2 && both > one && fitted > both + 1, `${one} ${both} ${fitted}`);
    // What is known is not read again.
    const analyser = createAnalyser();
    played(analyser, text);
    assert.ok((played(analyser, text)?.count ?? 0) < fitted);
  });

  it('reads a text piece by piece, as it is read at once', () => {
    const wire = (index: number) => `${'# a remark\n'.repeat(100)}wire w${index} {\n  gauge 42 AWG\n}\n`;
    const text = Array.from({ length: 60 }, (_, index) => wire(index)).join('');
    const [inSteps, known] = [createAnalyser(), createAnalyser()];
    known.declared(EXAMPLE, host(text));
    const [steps, without] = [inSteps, known].map((each) => played(each, text));
    assert.ok(steps && without);
    assert.ok(steps.count > 2 * 60, `${steps.count}`);
    // What was read before needs no steps.
    assert.equal(without.count, 0);
    assert.deepEqual(steps.analysis.tree, without.analysis.tree);
  });

  it('reads the blocks in a piece one by one', () => {
    const row = (coils: number) =>
      `pickup row {\n${Array.from({ length: coils }, (_, index) => `  coil c${index} {\n  }\n`).join('')}}\n`;
    const [few = 0, many = 0] = [10, 30].map((coils) => played(createAnalyser(), row(coils))?.count);
    assert.equal(many - few, 20);
  });

  it('has solved all before it puts it together', () => {
    const text = AGAINST('heron') + INSTRUMENT;
    const analyser = createAnalyser();
    const { count = 0 } = played(analyser, text) ?? {};
    const other = createAnalyser();
    played(other, text, count);
    const { model, bench } = { bench: undefined, ...other.declared(EXAMPLE, host(text)) };
    const [pickup, instrument] = [model.pickups[0], model.instruments[0]];
    assert.ok(pickup && instrument);
    assert.ok(pickupAnalysis.known(pickup, bench) && instrumentAnalysis.known(instrument, bench));
  });

  it('takes as many steps for an instrument as it has positions', () => {
    const more = INSTRUMENT.replace('    1 "again"', '    2 "two" neck\n    3 "three" neck\n    1 "again"');
    const [few = 0, many = 0] = [INSTRUMENT, more].map(
      (each) => played(createAnalyser(), AGAINST('heron') + each)?.count,
    );
    assert.equal(many, few + 2);
  });

  /** What is told first of all of a text, and what in the end. */
  const firstAndLast = (text: string) => {
    const said = ({ findings, locate }: EarlyFindings) =>
      findings.map(({ code, severity, place }) => {
        const { start, end } = locate(place) ?? { start: 0, end: 0 };
        return `${code} ${severity} at ${start}: ${text.slice(start, end)}`;
      });
    const steps = createAnalyser().analysing(EXAMPLE, hostOf({ ...files, 'example.pickup': text }));
    let first: readonly string[] | undefined;
    for (let step = steps.next(); ; step = steps.next()) {
      if (step.done) return { first, last: said(step.value) };
      const told = step.value?.();
      first ??= told && said(told);
    }
  };
  const wires = Array.from({ length: 120 }, (_, index) => `wire w${index} {\n  bogus ${index}\n}\n`).join('');

  it('tells first of a long text that is new what is written wrong at its beginning', () => {
    const { first = [], last } = firstAndLast(wires);
    assert.ok(first.length > 12 && first.length < 120, `${first.length}`);
    assert.deepEqual(first, last.slice(0, first.length));
  });

  it('tells nothing first that the whole does not say', () => {
    const quiet = 'bench {\n  severity syntax/unknown-word off\n}\n';
    assert.equal(firstAndLast(wires + quiet).first, undefined);
    assert.deepEqual(firstAndLast(quiet + wires).first, []);
    const wrong = 'wire oops {\n  bogus 3\n}\n';
    const long = sampleFiles().filter(({ text }) => text.length > 4096);
    for (const { text } of long) {
      const { first = [], last } = firstAndLast(wrong + text);
      assert.notEqual(first.length, 0);
      assert.deepEqual(
        first.filter((each) => !last.includes(each)),
        [],
      );
    }
  });

  it('may be given up at any step: the next one knows nothing wrong of it', () => {
    const before = AGAINST('heron') + AGAINST('wren') + INSTRUMENT;
    const after = before.replace('5_000', '5_100').replace('"again"', '"2"');
    for (let most = 0; most < 40; most++) {
      const analyser = createAnalyser();
      played(analyser, before, most);
      assert.deepEqual(all(atOnce(analyser, after)), all(atOnce(createAnalyser(), after)), `${most} steps`);
    }
  });

  it('reads a long text piece by piece into what it is as a whole', () => {
    const text = Array.from({ length: 1500 }, (_, index) => `wire w${index} {\n  gauge 42 AWG\n}\n`).join('');
    const end = played(createAnalyser(), text);
    assert.equal(end?.analysis.model.wires.length, 1500);
    assert.equal(end.analysis.text, text);
    assert.deepEqual(end.analysis.findings, []);
    assert.ok(end.count > text.length / 16_384);
  });

  it('tells a fault of the host as the finding of the file', () => {
    const steps = createAnalyser().analysing(EXAMPLE, {
      content: () => {
        throw new Error('no disk');
      },
      isInside: () => true,
    });
    const { value } = steps.next();
    assert.ok(value && typeof value === 'object');
    assert.deepEqual(
      value.findings.map(({ code }) => code),
      ['analysis/incomplete'],
    );
  });
});
