/** Curve files as a spec names them. Broken ones: test/physics/sweeps/README.md. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { createAnalyser } from '../../server/src/analysis/analysis.ts';
import { diskHost, uriOf } from '../../server/src/cli/files.ts';
import { completions } from '../../server/src/features/completion.ts';
import { documentLinks } from '../../server/src/features/document-links.ts';
import type { Curve } from '../../server/src/model/curve.ts';
import { curveFile } from '../../server/src/model/curve-file.ts';
import { analyse, EXAMPLE, FOLDER, findingLines, hostOf } from '../support/check-fixture.ts';

const BROKEN = path.resolve(import.meta.dirname, '../physics/sweeps/broken');

interface Broken {
  readonly file: string;
  readonly statement: string;
  readonly code: string;
  readonly severity: string;
  readonly row: number | null;
  readonly mustName: readonly string[];
}

const broken: readonly Broken[] = JSON.parse(
  readFileSync(path.resolve(import.meta.dirname, '../physics/sweeps/broken.json'), 'utf8'),
);

const spec = (lines: string) => `pickup heron "Heron, bridge" {
  coil main {
    turns 8000
    start black
    finish white
  }
  hookup {
    hot white
    ground black
  }
  readings "as wound" {
    ${lines}
  }
}
`;

describe('a curve file', () => {
  const analyser = createAnalyser();
  for (const { file, statement, code, severity, row, mustName } of broken)
    it(`${file}: one finding at its line`, () => {
      const uri = uriOf(path.join(BROKEN, 'broken-spec.pickup'));
      const text = spec(statement);
      const { findings } = analyser.analyse(uri, diskHost(BROKEN, new Map([[uri, text]])));
      assert.deepEqual(
        findings.map((each) => [each.code, each.severity]),
        [[code, severity]],
      );
      const [{ message, place } = assert.fail()] = findings;
      assert.equal(place.chunk.text.slice(place.span.start, place.span.end), /"[^"]+"/.exec(statement)?.[0]);
      for (const word of [...mustName, ...(row === null ? [] : [`row ${row}`])])
        assert.ok(message.toLowerCase().includes(word.toLowerCase()), `${word} in: ${message}`);
    });

  const rows = (row: (hz: number) => string) =>
    Array.from({ length: 9 }, (_, index) => row(100 * 2 ** index)).join('\n');
  const curveOf = (text: string): Curve => {
    const read = curveFile(text);
    assert.ok(read.kind === 'curve', JSON.stringify(read));
    return read;
  };
  const near = (value: number | undefined, expected: number) =>
    assert.ok(Math.abs((value ?? Number.NaN) - expected) < 1e-9 * Math.abs(expected), `${value}, ${expected} expected`);

  for (const [form, text] of [
    [
      'ohm and degrees',
      `# by hand\nfrequency (Hz),impedance [ohm],phase_deg\n${rows((hz) => `${hz},5,-36.86989764584402`)}`,
    ],
    [
      'kilohertz, kilohm and radians',
      `frequency_kHz;impedance kΩ;phase rad\n${rows((hz) => `${hz / 1000};0,005;-0,6435011087932844`)}`,
    ],
    [
      'resistance and reactance, quoted',
      `"frequency Hz"\t"resistance ohm"\t"reactance ohm"\n${rows((hz) => `${hz}\t4\t-3`)}`,
    ],
    [
      'Touchstone, real and imaginary',
      `! one port\n# kHz Z RI R 50\n${rows((hz) => `${hz / 1000} 0.08 -0.06 ! a point`)}`,
    ],
  ] as const)
    it(`holds an impedance in ${form}`, () => {
      const { quantity, hz, magnitude, phase } = curveOf(text);
      assert.equal(quantity, 'impedance');
      near(hz[1], 200);
      near(magnitude[0], 5);
      near(phase?.[8], Math.atan2(-3, 4));
    });

  it('holds what a meter shows: series inductance with resistance or quality', () => {
    const reactance = 2 * Math.PI * 100 * 0.5;
    for (const [column, cell] of [
      ['resistance kohm', '0.2'],
      ['quality', String(reactance / 200)],
    ]) {
      const { magnitude, phase } = curveOf(
        `frequency Hz,inductance mH,${column}\n${rows((hz) => `${hz},500,${cell}`)}`,
      );
      near(magnitude[0], Math.hypot(200, reactance));
      near(phase?.[0], Math.atan2(reactance, 200));
    }
  });

  it('holds a ratio with its deviation, and what nobody asks for beside it', () => {
    const { quantity, magnitude, phase, relativeSd } = curveOf(
      `frequency Hz,remark,level dB,level sd dB\n${rows((hz) => `${hz},a b,-20,0.1`)}`,
    );
    assert.equal(quantity, 'ratio');
    near(magnitude[0], 0.1);
    near(relativeSd?.[0], Math.LN10 / 200);
    assert.equal(phase, undefined);
  });

  const complaintOf = (text: string) => {
    const read = curveFile(text);
    assert.ok(read.kind === 'complaint');
    return `${read.row ?? 'whole'}: ${read.reason}`;
  };

  it('is refused with the number where it is larger than any sweep', () => {
    assert.match(complaintOf('x'.repeat(5.5 * 1024 * 1024)), /^whole: it has 5\.5 MB/);
    const long = Array.from({ length: 20_001 }, (_, index) => `${index + 1},1`).join('\n');
    assert.match(complaintOf(`frequency Hz,ratio\n${long}`), /^whole: 20001 rows/);
  });

  it('is refused where units, columns or numbers leave its meaning open', () => {
    const under = (header: string) => `${header}\n${rows((hz) => `${hz},1,1`)}`;
    assert.match(
      complaintOf(under('frequency Hz,level,phase deg')),
      /^1: the column level has no unit\. Write level dB/,
    );
    assert.match(complaintOf(under('frequency MHz,level dB,phase deg')), /^1: the column frequency is in MHz/);
    assert.match(complaintOf(under('frequency Hz,colour,phase deg')), /^1: no column says what was measured/);
    assert.match(complaintOf(under('frequency Hz,level dB,level (dB)')), /^1: there are two columns level/);
    assert.match(complaintOf(`frequency Hz,ratio\n${rows((hz) => `${hz},0`)}`), /^2: nothing at all/);
    assert.match(complaintOf(`# Hz S MA R 50\n${rows((hz) => `${hz} 1 0`)}`), /^1: it holds a reflection/);
    assert.match(complaintOf('# only a comment\n'), /^whole: there are no rows/);
  });
});

describe('a sweep of a spec', () => {
  it('asks for a curve of what its line says', () => {
    const found = (line: string) => analyse(spec(line)).findings.map(({ code, message }) => `${code} ${message}`);
    assert.match(
      found('sweep hot to ground "sweeps/d-100k.csv" impedance')[0] ?? '',
      /^sweep\/file .*ratio of two voltages/,
    );
    assert.match(found('sweep hot to ground "sweeps/z-plain.csv" over 10 kohm')[0] ?? '', /^sweep\/file .*impedance/);
    assert.match(found('sweep hot to ground "sweeps/lost.csv" impedance')[0] ?? '', /^sweep\/missing/);
    assert.deepEqual(found('sweep hot to ground "sweeps/z-plain.csv" impedance accuracy 0.1 % at 21 degC'), []);
  });

  it('has nothing to tell in the readings of an instrument', () => {
    const { findings } = analyse(
      'instrument juniper "Juniper" {\n  readings "new" {\n    sweep hot to ground "sweeps/s-10k.csv" over 10 kohm\n  }\n}\n',
    );
    assert.deepEqual(
      findings.map(({ code, action }) => [code, action]),
      [['sweep/file', 'Move the line to the readings of its pickup.']],
    );
  });

  it('is read anew when its file changes, and waits for a file that the editor has not brought yet', () => {
    const text = spec('sweep hot to ground "a.csv" over 10 kohm');
    const analyser = createAnalyser();
    const codes = (files: Readonly<Record<string, string>>) =>
      analyser.analyse(EXAMPLE, hostOf({ 'example.pickup': text, ...files })).findings.map(({ code }) => code);
    assert.deepEqual(codes({}), ['sweep/missing']);
    assert.deepEqual(codes({ 'a.csv': '' }), ['sweep/file']);
    assert.deepEqual(codes({}), ['sweep/missing']);
    const host = hostOf({ 'example.pickup': text });
    const waiting = analyser.analyse(EXAMPLE, {
      ...host,
      content: (uri) => (uri.endsWith('.csv') ? undefined : host.content(uri)),
    });
    assert.deepEqual(waiting.findings, []);
    assert.deepEqual(waiting.pending, [`${FOLDER}a.csv`]);
  });

  it('is offered the curves near, those that no line names first', () => {
    const curves = ['a.csv', 'sweeps/b.csv'];
    for (const [line, offered] of [
      ['sweep hot to ground "|" over 10 kohm', ['a.csv', 'sweeps/b.csv']],
      ['sweep hot to ground "a.csv" over 10 kohm\n    sweep hot to ground |', ['"sweeps/b.csv"', '"a.csv"']],
    ] as const) {
      const marked = spec(line);
      const offset = marked.indexOf('|');
      const analysis = analyse(marked.replace('|', ''));
      const { items } = completions(analysis, offset, { specs: [], photos: ['c.jpg'], curves });
      assert.deepEqual(
        [...items].sort((a, b) => (a.sort < b.sort ? -1 : 1)).map(({ text, label }) => text ?? label),
        offered,
      );
    }
  });

  it('leads to its file', () => {
    const analysis = analyse(
      `bench {\n  recorder alone "sweeps/c-interface.csv" through 100 kohm\n}\n\n${spec('sweep hot to ground "sweeps/s-10k.csv" over 10 kohm')}`,
    );
    assert.deepEqual(findingLines(analysis), []);
    assert.deepEqual(
      documentLinks(analysis).map(({ target }) => target),
      [`${FOLDER}sweeps/c-interface.csv`, `${FOLDER}sweeps/s-10k.csv`],
    );
  });
});
