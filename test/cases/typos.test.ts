/**
 * One spec with one slip of the pen each, as people make them at the bench: exactly the findings that it draws, and the text once the
 * first fix of each is applied, which is the spec without the slip unless its lines say otherwise.
 */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { editedText } from '../../grammar/src/edited-text.ts';
import { createAnalyser } from '../../server/src/analysis/analysis.ts';
import { diskHost, uriOf } from '../../server/src/cli/files.ts';
import { analyse } from '../support/check-fixture.ts';

const folder = path.join(import.meta.dirname, 'typos');
const analyser = createAnalyser();
const analysed = (name: string) =>
  analyser.analyse(uriOf(path.join(folder, `${name}.pickup`)), diskHost(import.meta.dirname));

interface Slip {
  /** Line, code and the text that is pointed at. */
  readonly findings: readonly string[];
  /** Lines after the first fixes that are not the base's, in order; nothing where the slip is mended wholly. */
  readonly after?: readonly string[];
}

const TURNS = (code: string, text: string): Slip => ({ findings: [`10 ${code} ${text}`, `18 ${code} ${text}`] });
const COUNTED: Slip['after'] = ['    turns 5000', '    turns 5000'];
const WOUND = (text: string): Slip => ({
  findings: [`11 syntax/unknown-word ${text}`, `19 syntax/unknown-word ${text}`],
});
const OTHER_WAY: Slip['after'] = ['    wound counterclockwise', '    wound counterclockwise'];

const SLIPS: Readonly<Record<string, Slip>> = {
  base: { findings: [] },
  '01-comma': { findings: ['33 syntax/number 3,95'] },
  '02-k': { findings: ['33 unit/wrong k'] },
  '02b-k2': { findings: [], after: ['    screw 3.95k'] },
  '02c-K': { findings: ['33 unit/wrong K'] },
  '03-nounit': { findings: ['33 unit/missing 3.95'] },
  // Of what dimension the number is, nobody knows: nothing is offered.
  '04-wrongunit': { findings: ['33 unit/wrong kHz'], after: ['    screw 3.95 kHz'] },
  // Offered, never applied unasked: milliohm and megohm are a billion apart.
  '04b-mohm': { findings: ['33 unit/wrong mohm'], after: ['    screw 3.95 Mohm'] },
  '04c-Kohm': { findings: ['33 unit/wrong Kohm'] },
  '04d-kOhm': { findings: ['33 unit/wrong kOhm'] },
  '04e-kohms': { findings: ['33 unit/wrong kohms'] },
  '05-brace': { findings: ['7 syntax/unclosed coil screw {'] },
  '06-quotes': { findings: ['2 syntax/unexpected Elm'] },
  '07-turnscomma': TURNS('syntax/number', '5,000'),
  '07b-turnsdot': TURNS('syntax/number', '5.000'),
  '07c-space': TURNS('syntax/unexpected', '5 000'),
  '07d-turnsdot-noreading': {
    findings: ['2 syntax/unclosed pickup elm "Elm" {', ...TURNS('syntax/number', '5.000').findings],
  },
  '08-colour': { findings: ['27 lead/undeclared pnik'] },
  '09-grey': { findings: ['29 lead/undeclared grey'] },
  '10-date': { findings: ['31 syntax/number 02.11.2026'] },
  '11-ccw': { ...WOUND('counter-clockwise'), after: OTHER_WAY },
  '11b-anti': { ...WOUND('anticlockwise'), after: OTHER_WAY },
  '11c-cw': WOUND('cw'),
  '12-colon': { ...TURNS('syntax/unexpected', ':'), after: COUNTED },
  '13-equals': { ...TURNS('syntax/unexpected', '='), after: COUNTED },
  '14-northup': { findings: ['23 syntax/unknown-word screw'] },
  // Two wires on the shelf have that gauge: both are offered.
  '15-wire': { findings: ['9 syntax/unexpected 42 AWG', '17 syntax/unexpected 42 AWG'] },
  '16-tabs': { findings: [] },
  '17-quoteopen': { findings: ['2 syntax/unclosed "Elm'] },
  '18-cap': {
    findings: [11, 19].flatMap((line) => [
      `${line} syntax/unknown-word Wound`,
      `${line} syntax/unknown-word Clockwise`,
    ]),
  },
  '19-C': { findings: ['32 unit/wrong C'] },
  '19b-deg': { findings: ['32 unit/wrong °'] },
  '19c-grad': { findings: [], after: ['    room 20 °C'] },
  '20-toground': { findings: ['34 syntax/unexpected -'] },
  '21-semicolons': { findings: ['27 syntax/unexpected :'], after: ['    hot pink;'] },
  '22-commentslash': {
    ...TURNS('syntax/unexpected', '//'),
    after: ['    turns 5_000 # counted', '    turns 5_000 # counted'],
  },
  '23-missingto': { findings: ['12 syntax/unexpected gray'] },
  '24-towards': { findings: ['23 syntax/unknown-word towards'] },
  '25-cover': { findings: ['24 syntax/unknown-word nickel silver'] },
  '26-german-silver': { findings: ['24 syntax/unknown-word german-silver'] },
  '27-link3': { findings: ['28 syntax/incomplete link gold'], after: ['    link gold'] },
  '28-bobin': { findings: ['16 syntax/unknown-word bobin'] },
  '29-spoolname': { findings: ['9 name/unknown w-42', '17 name/unknown w-42'] },
  '30-extra-brace': { findings: ['37 syntax/unexpected }'] },
  '31-umlaut': { findings: [], after: ['pickup Küche "Für Jörg" {'] },
  '32-bom': { findings: [] },
  '33-crlf': { findings: [] },
  '34-smartquotes': { findings: ['2 syntax/unexpected “Elm”'] },
  '35-coilname-space': { findings: ['7 syntax/unexpected side'], after: ['  coil screw side {'] },
  '36-brace-newline': { findings: ['8 syntax/unexpected {'] },
};

/** Files of other texts, each with a test of its own. */
const OTHERS = ['five-turns', 'harmful-fixes', 'name-x', 'wires'];

const linesOf = (text: string) =>
  text
    .replace('\uFEFF', '')
    .split(/\r\n|\n/)
    .map((line) => line.replaceAll('\t', '  ').trimEnd())
    .filter((line) => line !== '');

function found(name: string) {
  const analysis = analysed(name);
  return analysis.allFindings().map((finding) => {
    const at = analysis.locate(finding.place);
    assert.ok(at);
    const line = analysis.text.slice(0, at.start).split('\n').length;
    const told = `${line} ${finding.code} ${analysis.text.slice(at.start, at.end)}`;
    return { told, finding, fixes: analysis.verifiedFixes(finding) };
  });
}

/** The text with the first fix of every finding. */
function mended(name: string): string {
  const analysis = analysed(name);
  const edits = found(name).flatMap(({ fixes }) =>
    (fixes[0]?.edits ?? []).flatMap(({ place, newText }) => {
      const at = analysis.locate(place);
      return at ? [{ start: at.start, end: at.end, newText }] : [];
    }),
  );
  return editedText(analysis.text, edits) ?? '';
}

describe('slips of the pen', () => {
  const base = linesOf(readFileSync(path.join(folder, 'base.pickup'), 'utf8'));

  it('are all in this list', () => {
    const files = readdirSync(folder).map((file) => path.basename(file, '.pickup'));
    assert.deepEqual(files.sort(), [...Object.keys(SLIPS), ...OTHERS].sort());
  });

  for (const [name, { findings, after = [] }] of Object.entries(SLIPS)) {
    it(name, () => {
      assert.deepEqual(
        found(name).map(({ told }) => told),
        findings,
      );
      const own = linesOf(mended(name)).filter((line) => !base.includes(line));
      assert.deepEqual(own, after);
    });
  }
});

describe('a slip takes nothing along', () => {
  const spec = readFileSync(path.join(folder, 'base.pickup'), 'utf8');
  const shelf = readFileSync(path.join(import.meta.dirname, 'parts', 'shelf.pickup'), 'utf8');
  const told = (right: string, wrong: string) =>
    analyse(spec.replace('use "../parts/shelf.pickup"', shelf).replaceAll(right, wrong))
      .findings.map(({ code }) => code)
      .filter((code) => code !== 'syntax/unknown-word');

  for (const [right, wrong] of [
    ['coil slug {', 'coill slug {'],
    ['coil slug {', 'Coil slug {'],
    ['hookup {', 'hokup {'],
    ['pickup elm', 'pikup elm'],
    ['readings "', 'reading "'],
    ['conductors pink', 'conductor pink'],
    ['magnet strong north', 'magnet strong upwards'],
    ['wound clockwise', 'wound rightways'],
    ['start red', 'strat red'],
  ] as const)
    it(`${wrong}: what would be missing without it is not told`, () => assert.deepEqual(told(right, wrong), []));
});

const WAYS = (name: string) => {
  const analysis = analysed(name);
  return found(name).map(({ told, fixes }) => [
    told,
    ...fixes.map(({ edits, preferred }) => {
      const lines = analysis.edited(edits)?.text.split('\n') ?? [];
      const changed = lines.find((line) => !analysis.text.split('\n').includes(line)) ?? '';
      return `${preferred ? 'preferred: ' : ''}${changed.trim()}`;
    }),
  ]);
};

describe('fixes change no value and no part', () => {
  it('a count with a point is never five turns: both readings are offered, neither is preferred', () => {
    assert.deepEqual(WAYS('five-turns'), [['7 syntax/number 5.000', 'turns 5_000', 'turns 5']]);
  });

  it('grades, diameters and sizes keep their figures', () => {
    assert.deepEqual(WAYS('harmful-fixes'), [
      ['2 syntax/number 0,063', 'preferred: diameter 0.063 mm'],
      ['5 syntax/unknown-word alnico 5', 'preferred: material alnico-5'],
      ['6 syntax/unexpected *12*', 'preferred: size 60 x 12 x 3 mm'],
      ['9 syntax/unknown-word alnico-v', 'preferred: material alnico-5'],
      ['12 syntax/unexpected /', 'preferred: window 7 x 4 mm'],
    ]);
  });

  it('short lines of parts and controls, each slip with one finding', () => {
    assert.deepEqual(
      WAYS('wires').map(([told, first]) => [told, first?.match(/(?:\w+ \{ )?[^;{]*$/) ? 'fix' : '-']),
      [
        ['1 syntax/unexpected AWG43', 'fix'],
        ['2 unit/wrong awg', 'fix'],
        ['4 syntax/unexpected AWG 43', 'fix'],
        ['5 syntax/number 0,063', 'fix'],
        ['7 unit/missing 42', 'fix'],
        ['9 syntax/unknown-word alnico 5', 'fix'],
        ['10 syntax/unknown-word Alnico-5', 'fix'],
        ['11 syntax/unknown-word alnico-v', 'fix'],
        ['11 syntax/unexpected *12*', 'fix'],
        ['12 syntax/unknown-word ceramic', 'fix'],
        ['12 syntax/unknown-word "', '-'],
        ['13 unit/wrong lb', '-'],
        ['13 unit/wrong ohm', 'fix'],
        ['14 syntax/unexpected /', 'fix'],
        ['15 syntax/number .022', 'fix'],
        ['15 unit/wrong k', 'fix'],
        ['15 unit/wrong nf', 'fix'],
        ['15 unit/wrong mF', '-'],
      ],
    );
  });

  it('a gauge in the place of a wire is described in a block where no wire has it', () => {
    const text = 'pickup p {\n  coil a {\n    wire 43 AWG\n  }\n}\n';
    const analysis = analyse(text);
    const finding = analysis.findings.find(({ code }) => code === 'syntax/unexpected');
    assert.ok(finding);
    const [fix] = analysis.verifiedFixes(finding);
    assert.ok(fix && !fix.preferred);
    const after = analysis.edited(fix.edits);
    assert.equal(after?.text, `wire awg-43 {\n  gauge 43 AWG\n}\n\n${text.replace('43 AWG', 'awg-43')}`);
    assert.ok(after.findings.every(({ code }) => code !== 'syntax/unexpected'));
  });

  it('a pickup called x is a pickup', () => {
    assert.deepEqual(
      analysed('name-x').pickups.map(({ pickup }) => pickup.name),
      ['x'],
    );
    assert.deepEqual(
      WAYS('name-x').map(([told]) => told?.split(' ')[1]),
      ['circuit/output-shorted'],
    );
  });
});
