/** Markup, script, quotes, escape sequences, bidirectional marks and very long texts of a spec, through every output. */
import assert from 'node:assert/strict';
import { cpSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { SaxesParser } from 'saxes';
import { type Analyser, createAnalyser } from '../../server/src/analysis/analysis.ts';
import type { Analysis } from '../../server/src/analysis/analysis-types.ts';
import { commands } from '../../server/src/cli/commands.ts';
import { SAMPLES } from '../support/sample-files.ts';
import { Shell } from './shell.ts';

const HOSTILE: Readonly<Record<string, string>> = {
  script: '<script>alert(1)</script>',
  'image with a handler': '<img src=x onerror=alert(1)>',
  'end of the element': '</title></style></svg>--><!--]]>',
  quotes: `\\" ' & &quot; \` \${x} {{x}}`,
  'escape sequence': '\u001b]0;owned\u0007\u001b[2J\u009b31m',
  'bidirectional marks': 'abc\u202Egnp.\u2066x\u2069\u200F',
  'line breaks that are none': 'a\u2028b\u2029c\u0085d',
  'zalgo and emoji': `Z${'\u0301'.repeat(60)} 👩\u200D🔧`,
  'ten thousand letters': 'x'.repeat(10_000),
  'workflow command': '::error file=x::owned%0A::set-output name=a::b',
};

const OUTPUTS: Readonly<Record<string, readonly string[]>> = {
  check: ['check', 'hostile.pickup'],
  'check, JSON': ['check', 'hostile.pickup', '--format', 'json'],
  'check, SARIF': ['check', 'hostile.pickup', '--format', 'sarif'],
  'check, annotations': ['check', 'hostile.pickup', '--format', 'github'],
  report: ['report', 'hostile.pickup'],
  'report, JSON': ['report', 'hostile.pickup', '--format', 'json'],
  wiring: ['draw', 'hostile.pickup'],
  response: ['draw', 'hostile.pickup', '--view', 'response'],
  positions: ['draw', 'hostile-guitar.pickup', '--view', 'positions'],
  schematic: ['draw', 'hostile-guitar.pickup', '--view', 'schematic'],
  compare: ['compare', 'hesk-neck.pickup', 'hostile.pickup'],
  'compare, JSON': ['compare', 'hesk-neck.pickup', 'hostile.pickup', '--format', 'json'],
  'compare, page': ['compare', 'hesk-neck.pickup', 'hostile.pickup', '--format', 'html'],
  facts: ['compare', '--facts', 'hostile.pickup'],
  list: ['list', '.'],
  'list, JSON': ['list', '.', '--format', 'json'],
  repair: ['repair', 'hostile.pickup'],
  identify: ['identify', 'hostile.pickup'],
  'repair, JSON': ['repair', 'hostile.pickup', '--format', 'json'],
};

/** What an output is made from is worked out once a text: each command asks for the same file. */
function remembering(analyser: Analyser): Analyser {
  const last = new Map<string, Analysis>();
  return {
    ...analyser,
    analyse: (uri, host) => {
      const text = host.content(uri);
      const before = last.get(uri);
      if (before && text?.kind === 'text' && text.text === before.text) return before;
      const analysis = analyser.analyse(uri, host);
      last.set(uri, analysis);
      return analysis;
    },
  };
}

describe('hostile texts of a spec', () => {
  let shell: Shell;
  before(() => {
    shell = new Shell(commands, remembering(createAnalyser()));
    cpSync(SAMPLES, shell.folder, { recursive: true, filter: (file) => !file.endsWith('mistakes') });
  });
  after(() => shell.remove());

  for (const [what, text] of Object.entries(HOSTILE)) {
    describe(what, () => {
      before(() => {
        const hesk = readFileSync(shell.path('hesk-neck.pickup'), 'utf8');
        // Title, serial, customer and note; and a coil wound the other way, so that findings and plans speak of it.
        const hostile = hesk
          .replace('"Hesk, neck"', `"${text}"`)
          .replace('serial RYD-014', `serial "${text}"`)
          .replace('"Sorrel, customer 12"', `"${text}"`)
          .replace(/note ".*"/, `note "${text}"`)
          .replace('"before the cover"', `"${text}"`)
          .replace('    counted 5_050\n', '    counted 5_050\n    wound counterclockwise\n');
        shell.write('hostile.pickup', hostile);
        const teasel = readFileSync(shell.path('teasel.pickup'), 'utf8');
        shell.write('hostile-guitar.pickup', teasel.replace(/"Teasel.*"/, `"${text}"`).replace('"both"', `"${text}"`));
      });
      after(() => rmSync(shell.path('cards'), { recursive: true, force: true }));

      for (const [output, words] of Object.entries(OUTPUTS)) {
        it(`${output}: comes out harmless`, async () => {
          const { stdout, stderr } = await shell.run(words);
          assert.doesNotMatch(stderr, /fault of the program/);
          assertHarmless(output, stdout + stderr);
        });
      }

      it('cards: come out harmless', async () => {
        const { code, stderr } = await shell.run(['cards', 'hostile.pickup', '-o', 'cards']);
        assert.equal(code, 0, stderr);
        const files = readdirSync(shell.path('cards'));
        assert.ok(files.length > 3);
        for (const file of files) assertHarmless('page', readFileSync(shell.path(`cards/${file}`), 'utf8'));
      });
    });
  }
});

function assertHarmless(output: string, text: string): void {
  // Nothing steers a terminal or reorders a line. A page or a drawing may isolate directions by its markup, not by characters.
  assertWithout(/(?![\n\t])[\p{Cc}\u2028\u2029\u202A-\u202E\u2066-\u2069\u200E\u200F\u061C]/u, text);
  if (output.includes('JSON') || output.includes('SARIF')) JSON.parse(text);
  if (output.includes('annotations')) {
    for (const line of text.trimEnd().split('\n'))
      assert.match(line, /^::(error|warning|notice) file=hostile\.pickup,/);
  }
  if (output.includes('page')) {
    assertWithout(/<(script|img|iframe|object|link)\b/i, text);
    assertWithout(/<[a-z][^<>]*\son\w+=/i, text);
    assert.equal(text.match(/<\/html>/g)?.length, 1);
  }
  if (['wiring', 'response', 'positions', 'schematic'].includes(output)) {
    const parser = new SaxesParser();
    parser.on('error', (error) => assert.fail(error.message));
    parser.on('opentag', ({ name }) => assert.doesNotMatch(name, /^(script|img|a|image|foreignObject)$/i));
    parser.write(text).close();
  }
}

/** Says what was found and what stands around it, where a whole page would say nothing. */
function assertWithout(pattern: RegExp, text: string): void {
  const found = pattern.exec(text);
  if (found) assert.fail(JSON.stringify(text.slice(Math.max(0, found.index - 60), found.index + 60)));
}
