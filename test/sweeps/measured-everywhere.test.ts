/**
 * Every place that tells numbers, over specs with sweeps: where a number that was measured stands it says so, and where one stands that is
 * computed without the sweep it says that.
 */
import assert from 'node:assert/strict';
import { cpSync } from 'node:fs';
import path from 'node:path';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { given } from '../../grammar/values/present.ts';
import type { Analysis } from '../../server/src/analysis/analysis-types.ts';
import { pickupAnalysis } from '../../server/src/analysis/pickup-analysis.ts';
import { commands } from '../../server/src/cli/commands.ts';
import { uriOf } from '../../server/src/cli/files.ts';
import { instrumentText, pickupText } from '../../server/src/cli/report-text.ts';
import { stylesFor } from '../../server/src/cli/styles.ts';
import { CARD_KINDS } from '../../server/src/documents/cards/card-kinds.ts';
import type { FactTable } from '../../server/src/documents/drawing-sheet.ts';
import { lensNumbers } from '../../server/src/features/code-lens.ts';
import { hover } from '../../server/src/features/hover.ts';
import { inlayHints } from '../../server/src/features/inlay-hints.ts';
import { ownSubjects } from '../../server/src/features/own-subjects.ts';
import { toPlainText } from '../../server/src/features/rich-text.ts';
import { drawing } from '../../server/src/lsp/drawings.ts';
import { cardPages } from '../../server/src/lsp/page.ts';
import { PROTOCOL_VERSION, SECTION_NAMES } from '../../server/src/lsp/protocol.ts';
import { sectionOf } from '../../server/src/lsp/sections.ts';
import { whatIfView } from '../../server/src/lsp/what-if.ts';
import { whatIfState } from '../../server/src/lsp/what-if-state.ts';
import { withoutSweeps } from '../../server/src/model/sweeps.ts';
import type { Estimate } from '../../server/src/quantities/estimate.ts';
import { ENGLISH } from '../../server/src/words/languages/language.ts';
import { numberText } from '../../server/src/words/number-text.ts';
import { COIL_NUMBERS, PICKUP_NUMBERS, POSITION_NUMBERS } from '../../server/src/words/numbers.ts';
import { Shell } from '../cli/shell.ts';
import { analysedSample, SAMPLES, sampleText } from '../support/sample-files.ts';

const PLAYED = `
instrument quay "Quay" {
  pickup bridge NAME
  controls {
    volume 250 kohm audio
  }
  cable 4.5 m of 100 pF/m
  selector {
    1 bridge
  }
}
`;

/** Two coils of which nothing is known, with the curve of the sample between their leads. */
const closed = (text: string): string => {
  const readings = text.slice(text.indexOf('  readings "after potting"'), text.lastIndexOf('}'));
  return `${text.slice(text.indexOf('use '), text.indexOf('pickup yarrow'))}
pickup yarrow-bridge "Closed" {
  coil upper {
    start white
    finish red
  }
  coil lower {
    start green
    finish black
  }
  hookup {
    hot black
    link red green
    ground white
  }
${readings}}
`;
};

interface Spec {
  readonly name: string;
  readonly sample: string;
  readonly edit: (text: string) => string;
  /** Where numbers of the pickup, or of the position, stand as measured. */
  readonly measuredIn: readonly string[];
}

const EVERYWHERE = ['code lens', 'hover', 'report', 'numbers', 'response', 'positions', 'drawing'];
const played = (text: string, name: string) => `${text}${PLAYED.replace('NAME', name)}`;
const SPECS: readonly Spec[] = [
  {
    name: 'a coil that was swept',
    sample: 'yarrow-bridge.pickup',
    edit: (text) => played(text, 'yarrow-bridge'),
    measuredIn: [...EVERYWHERE, 'card bench check', 'sweeps'],
  },
  {
    name: 'a closed pickup that was swept as a whole',
    sample: 'yarrow-bridge.pickup',
    edit: (text) => played(closed(text), 'yarrow-bridge'),
    measuredIn: [...EVERYWHERE, 'card bench check'],
  },
  {
    name: 'two coils whose capacitance the sweeps could not tell',
    sample: 'mistakes/reading-contradicts-sweep.pickup',
    edit: (text) => played(text, 'heron'),
    measuredIn: ['hover', 'report', 'numbers', 'response', 'card bench check'],
  },
];

describe('what was measured', () => {
  for (const { name, sample, edit, measuredIn } of SPECS)
    it(`says so in every place, and so does what is computed without it: ${name}`, async () => {
      const analysis = analysedSample(sample, edit);
      const [measured, computed] = [measuredTexts(analysis), computedTexts(analysis)];
      assert.ok(measured.length >= 3, measured.join());
      const holds = (unit: string, number: string) => new RegExp(`(?<![\\d.])${escaped(number)}`).test(unit);
      const found = new Set<string>();
      for (const { place, text } of await placesOf(analysis)) {
        if (measured.some((number) => holds(text, number))) {
          found.add(place);
          assert.match(text, /measured|reading|sweep/i, `${place}: ${text}`);
        }
        for (const number of computed)
          if (!measured.includes(number) && holds(text, number)) assert.match(text, /computed/i, `${place}: ${number}`);
      }
      for (const place of measuredIn) assert.ok(found.has(place), `${place} of ${[...found].join(', ')}`);
    });
});

/** Beside the first pickup of the sample one coil is still to be wound: what is proposed rests on one that was swept and one that was not. */
const HALF_WOUND = (text: string): string =>
  text
    .replace(/coil slug like screw \{/, 'coil slug {\n    wound counterclockwise')
    .replace(/ +sweep (slug|hot).*\n/g, '')
    .replace('readings "soldered"', 'readings apart "wound"')
    .replace('  magnet bar-5', '  target {\n    inductance 4.2 H ± 0.4 H\n  }\n  magnet bar-5');

describe('what was measured, in what is written for other programs', () => {
  let shell: Shell;
  before(() => {
    shell = new Shell(commands);
    cpSync(SAMPLES, shell.folder, { recursive: true });
  });
  after(() => shell.remove());

  const dataOf = async (...words: readonly string[]): Promise<unknown> => {
    const { stdout, stderr } = await shell.run([...words, '--format', 'json']);
    assert.equal(stderr, '');
    return JSON.parse(stdout);
  };

  for (const { name, sample, edit } of SPECS)
    it(`says so beside its value: ${name}`, async () => {
      const text = edit(sampleText(sample));
      const analysis = analysedSample(sample, edit);
      const file = path.join(path.dirname(sample), 'made-up.pickup');
      const bare = path.join(path.dirname(sample), 'bare.pickup');
      shell.write(file, text);
      shell.write(bare, text.replace(/^ +sweep .*\n/gm, ''));
      const [measured, computed] = [valuesOf(analysis, true), valuesOf(analysis, false)];
      const [{ pickup } = assert.fail()] = analysis.pickups;
      const [record, report, fitted, compared] = [
        await dataOf('list', file),
        await dataOf('report', file),
        await dataOf('fit', file),
        await dataOf('compare', `${bare}#${pickup.name}`, `${file}#${pickup.name}`),
      ];
      for (const [command, data] of Object.entries({ record, report, fitted, compared })) {
        const figures = figuresIn(data);
        assert.ok(figures.length > 0, command);
        for (const { at, value, basis } of figures) {
          assert.ok(basis !== undefined, `${command}${at} does not say what it rests on`);
          const isAmong = (values: readonly number[]) => values.some((each) => Math.abs(each / value - 1) < 1e-9);
          if (isAmong(measured)) assert.equal(basis, 'reading', `${command}${at}: ${value}`);
          else if (isAmong(computed)) assert.notEqual(basis, 'reading', `${command}${at}: ${value}`);
        }
      }
      const isTold = (data: unknown) => figuresIn(data).filter(({ basis }) => basis === 'reading').length;
      assert.ok(isTold(report) > 0 && isTold(fitted) > 0 && isTold(compared) > 0);
    });

  it('and a build that rests on it in part only is computed', async () => {
    shell.write('mistakes/half.pickup', HALF_WOUND(sampleText('mistakes/reading-contradicts-sweep.pickup')));
    const figures = figuresIn(await dataOf('propose', 'mistakes/half.pickup'));
    assert.ok(figures.length > 0 && figures.every(({ basis }) => basis === 'computed'));
  });
});

/** What pickups come to, in SI. */
const valuesOf = (analysis: Analysis, isMeasured: boolean): readonly number[] =>
  analysis.pickups.flatMap(({ pickup }) => {
    const { coils, ...whole } = pickupAnalysis(isMeasured ? pickup : withoutSweeps(pickup), analysis.bench).estimates();
    return [whole, ...coils.values()]
      .flatMap((each) => Object.values(each as Readonly<Record<string, unknown>>))
      .flatMap((each) => {
        const { value, sd, basis }: Partial<Estimate> = Object(each);
        return value && sd && (basis === 'reading') === isMeasured ? [value] : [];
      });
  });

interface DataFigure {
  /** The keys that lead to it. */
  readonly at: string;
  readonly value: number;
  readonly basis?: string;
}

/** Whatever has a value and a deviation; a difference of two figures rests on both, which stand beside it. */
function figuresIn(data: unknown, at = ''): readonly DataFigure[] {
  if (typeof data !== 'object' || data === null || 'toldApart' in data) return [];
  const { value, basis, ...more }: { readonly value?: number; readonly basis?: string } = data;
  const isFigure = value !== undefined && ('sd' in more || 'uncertainty' in more);
  return isFigure
    ? [{ at, value, ...given({ basis }) }]
    : Object.entries(data).flatMap(([key, each]) => figuresIn(each, `${at} ${key}`));
}

const escaped = (text: string): string => text.replace(/[.+*?^$()[\]{}|\\]/g, '\\$&');
const plain = (text: string): string => text.replaceAll('\u202F', ' ');

/** Numbers alone, since a table says the unit at its head. */
function textsOf(analysis: Analysis, isMeasured: boolean): readonly string[] {
  const told = (estimate: Estimate | null | undefined, name: Parameters<typeof numberText>[1]): readonly string[] => {
    if (!estimate || estimate.sd <= 0 || (estimate.basis === 'reading') !== isMeasured) return [];
    return [plain(numberText(estimate, name)).replace(/ \D+$/, '')];
  };
  return analysis.pickups.flatMap(({ pickup }) => {
    const { coils, ...whole } = pickupAnalysis(isMeasured ? pickup : withoutSweeps(pickup), analysis.bench).estimates();
    return [
      ...(['inductanceH', 'capacitanceF', 'resonanceHz'] as const).flatMap((key) =>
        told(whole[key], PICKUP_NUMBERS[key]),
      ),
      ...[...coils.values()].flatMap(({ inductanceH }) => told(inductanceH, COIL_NUMBERS.inductanceH)),
    ];
  });
}

const computedTexts = (analysis: Analysis): readonly string[] => textsOf(analysis, false);
const measuredTexts = (analysis: Analysis): readonly string[] => [
  ...textsOf(analysis, true),
  ...analysis.instruments.flatMap((each) =>
    each
      .positions()
      .flatMap(({ resonanceHz }) =>
        resonanceHz?.basis === 'reading' ? [plain(numberText(resonanceHz, POSITION_NUMBERS.resonanceHz))] : [],
      ),
  ),
];

interface Unit {
  readonly place: string;
  /** A row with the head of its column, a sentence, a line. */
  readonly text: string;
}

async function placesOf(analysis: Analysis): Promise<readonly Unit[]> {
  const uri = uriOf(path.join(SAMPLES, 'made-up.pickup'));
  const document = TextDocument.create(uri, 'pickup', 1, analysis.text);
  const states = { t: ENGLISH, document, now: analysis, before: undefined };
  const units: Unit[] = [];
  const see = (place: string, ...texts: readonly string[]) =>
    units.push(...texts.flatMap((text) => plain(text).split('\n')).map((text) => ({ place, text })));
  const styles = stylesFor(false, {});
  for (const each of analysis.pickups) see('report', pickupText(each, {}, styles));
  for (const each of analysis.instruments) see('report', instrumentText(each, each.positions(), undefined, styles));
  for (const { kind, name } of ownSubjects(analysis)) {
    const subject = { kind, name };
    const asked = { protocol: PROTOCOL_VERSION, uri, subject, pots: { volume: 10, tone: 10 }, width: 960 };
    see('code lens', lensNumbers(analysis, subject) ?? '');
    see('drawing', ...unitsIn(drawing(asked, { document, analysis }, ENGLISH)));
    for (const section of SECTION_NAMES) see(section, ...unitsIn(sectionOf(section, states, asked)));
    see('what if', ...unitsIn(movedState(states, { ...asked, settings: {} })));
  }
  const kinds = new Set(['coil resistance', 'inferred turns', 'pickup resistance'] as const);
  for (const { label, tooltip } of inlayHints(analysis, { start: 0, end: analysis.text.length }, kinds))
    see('hint', `${label} ${tooltip}`);
  for (const { index, 0: word } of analysis.text.matchAll(/(?<=\b(pickup|coil|instrument|sweep) )[\w-]+/g))
    see('hover', toPlainText(hover(analysis, index + word.length - 1)?.text ?? []));
  const asked = { protocol: PROTOCOL_VERSION, uri, kinds: CARD_KINDS, paper: 'a4' } as const;
  const { pages } = await cardPages(states, asked, async () => ({ kind: 'missing' }));
  for (const { title, html } of pages) see(`card ${title.replace(/:.*/, '').toLowerCase()}`, ...unitsIn(html));
  return units;
}

/** With the first knob that is a choice turned to another one. */
function movedState(states: Parameters<typeof whatIfState>[0], asked: Parameters<typeof whatIfState>[1]): unknown {
  const [knob] = whatIfView(states, asked).knobs.filter(({ choices = [] }) => choices.length > 1);
  const other = knob?.choices?.find(({ id }) => id !== knob.now);
  if (!knob || !other) return undefined;
  return whatIfState(states, { ...asked, settings: { [knob.id]: other.id } }) ?? assert.fail(knob.label);
}

/** Rows of tables with their heads; of a picture what is told to those who do not see it. */
function unitsIn(value: unknown): readonly string[] {
  if (typeof value === 'string') return value.includes('<') ? marksIn(value) : [value];
  if (Array.isArray(value)) return value.flatMap(unitsIn);
  if (typeof value !== 'object' || value === null) return [];
  if ('columns' in value && 'rows' in value) return rowsOf(value as FactTable);
  if ('restsOn' in value && 'now' in value) return [Object.values(value).join(' ')];
  return Object.values(value).flatMap(unitsIn);
}

const rowsOf = ({ caption, columns, rows }: FactTable): readonly string[] =>
  rows.flatMap((row) => row.slice(1).map((cell, index) => `${row[0]} ${columns[index + 1]} ${cell} ${caption}`));

function marksIn(html: string): readonly string[] {
  const text = (marks: string) => marks.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ');
  const tables = [...html.matchAll(/<table.*?<\/table>/gs)].flatMap(([table]) => {
    const head = /<caption.*?<\/thead>/s.exec(table)?.[0] ?? '';
    return [...table.matchAll(/<tr.*?<\/tr>/gs)].map(([row]) => text(`${head} ${row}`));
  });
  const others = [...html.matchAll(/<(title|desc|p|li|dd)\b.*?<\/\1>/gs)].map(([each]) => text(each));
  return [...tables, ...others];
}
