/** The bench view as a page that needs nothing else: drawing, numbers, response, positions, readings still missing. */

import { cautionsFor } from '../checks/explanation.ts';
import type { Finding } from '../checks/finding.ts';
import { tellIn } from '../checks/telling.ts';
import type { NumbersTable } from '../comparison/numbers-table.ts';
import type { MeasurementWords } from '../proposal/measurement-words.ts';
import type { Language } from '../words/languages/language.ts';
import type { FactTable } from './drawing-sheet.ts';
import { columnHeads, type HtmlNode, h, rowHead, sentence, table, words } from './html.ts';
import { PALETTES } from './theme.ts';

export interface BenchViewPage {
  readonly t: Language;
  readonly title: string;
  /** The file, the position, what stands behind the heading. */
  readonly about: readonly string[];
  readonly findings: readonly Finding[];
  readonly drawing: DrawnFacts | undefined;
  readonly sections: readonly HtmlNode[];
}

/** A drawing and the same in rows. */
interface DrawnFacts {
  readonly svg?: string;
  readonly table?: FactTable;
}

export function benchViewPageBody({
  t,
  title,
  about,
  findings,
  drawing,
  sections,
}: BenchViewPage): readonly HtmlNode[] {
  return [
    h(
      'main',
      {},
      h('h1', {}, words(title)),
      h('p', {}, ...about.flatMap((text, index) => [...(index > 0 ? [' · '] : []), words(text)])),
      ...(findings.length === 0
        ? [h('p', {}, t('No findings.'))]
        : [h('ul', {}, ...findings.map((each) => findingItem(each, t)))]),
      ...mind(
        cautionsFor(findings).map((each) => t(each)),
        t,
      ),
      ...plotOnPage(drawing ?? {}),
      ...sections,
    ),
  ];
}

function findingItem(finding: Finding, t: Language): HtmlNode {
  const { message, foreign } = tellIn(finding, t);
  return h('li', { lang: foreign }, sentence(message), ` (${finding.code})`);
}

/** `heading`: the element of its title; a page in a page has no place for a heading. */
export const mind = (cautions: readonly string[], t: Language, heading: 'h2' | 'p' = 'h2'): readonly HtmlNode[] =>
  cautions.length === 0
    ? []
    : [h(heading, {}, t('Mind at the bench')), h('ul', {}, ...cautions.map((each) => h('li', {}, each)))];

export const plotOnPage = ({ svg, table }: DrawnFacts): readonly HtmlNode[] =>
  svg === undefined || table === undefined ? [] : [h('div', {}, { drawing: svg }), factTable(table)];

export function numbersOnPage({ caption, rows }: NumbersTable, t: Language): readonly HtmlNode[] {
  if (rows.length === 0) return [];
  const isCompared = rows.some(({ before }) => before !== undefined);
  return [
    factTable({
      caption: `${caption}; ${t('± is one standard deviation')}`,
      columns: isCompared ? ['', t('before'), t('now'), t('change'), t('rests on')] : ['', t('value'), t('rests on')],
      rows: rows.map(({ name, now, before = t('not there'), change = '', restsOn }) =>
        isCompared ? [name, before, now, change, restsOn] : [name, now, restsOn],
      ),
    }),
  ];
}

export function readingsOnPage(
  readings: readonly { readonly settles: string; readonly how: string; readonly expected?: string }[],
  t: Language,
): readonly HtmlNode[] {
  if (readings.length === 0) return [];
  const items = readings.map(({ settles, how, expected }) =>
    h(
      'li',
      {},
      h('b', {}, words(settles)),
      ': ',
      sentence(how),
      expected === undefined ? '' : words(` ${t('Expect {0}.', expected)}`),
    ),
  );
  return [h('h2', {}, t('Readings still missing')), h('ul', {}, ...items)];
}

/** The reading that settles most, before all that are missing. */
export function nextReadingOnPage(reading: MeasurementWords | undefined, t: Language): readonly HtmlNode[] {
  if (reading === undefined) return [];
  const { settles, how, handling, line } = reading;
  return [
    h('h2', {}, t('Measure next')),
    h('p', {}, h('b', {}, words(settles)), words(` (${handling}): `), sentence(how), ' ', h('code', {}, words(line))),
  ];
}

/** The target with what the build comes to; then each build that is proposed, and what is in the way. */
export function proposalsOnPage(
  {
    target,
    free,
    builds,
    inTheWay,
    cautions,
  }: {
    readonly target?: FactTable;
    readonly free?: string;
    readonly builds: readonly {
      readonly odds: string;
      readonly parts: readonly string[];
      readonly reaches: FactTable;
      readonly givesUp: readonly { readonly what: string; readonly foreign?: 'en' }[];
    }[];
    readonly inTheWay: readonly string[];
    readonly cautions: readonly string[];
  },
  t: Language,
): readonly HtmlNode[] {
  if (target === undefined) return [];
  const lines = (texts: readonly string[]) => texts.map((each) => h('p', {}, sentence(each)));
  return [
    factTable(target),
    ...(free === undefined ? [] : [h('h2', {}, t('Builds for the target')), h('p', {}, words(t('Free: {0}.', free)))]),
    ...builds.flatMap(({ odds, parts, reaches, givesUp }, index) => [
      h('p', {}, h('b', {}, words(t('Build {0}, {1}', String(index + 1), odds)))),
      ...lines(parts),
      factTable(reaches),
      ...givesUp.map(({ what, foreign }) => h('p', { lang: foreign }, sentence(what))),
    ]),
    ...lines(inTheWay),
    ...mind(cautions, t),
  ];
}

/** What to solder: sentences, the switches drawn, joint by joint, and as the spec says it. */
export function planOnPage(
  {
    says,
    drawn,
    joints,
    lines,
    cautions,
  }: {
    readonly says: readonly string[];
    readonly drawn: DrawnFacts;
    readonly joints?: FactTable;
    readonly lines: readonly string[];
    readonly cautions: readonly string[];
  },
  t: Language,
): readonly HtmlNode[] {
  if (says.length === 0) return [];
  return [
    h('h2', {}, t('Planned wiring')),
    ...says.map((each) => h('p', {}, sentence(each))),
    ...plotOnPage(drawn),
    ...(joints ? [factTable(joints)] : []),
    ...(lines.length > 0 ? [h('pre', {}, words(lines.join('\n')))] : []),
    ...mind(cautions, t),
  ];
}

export function usageOnPage(
  {
    rows,
  }: {
    readonly rows: readonly { readonly part: string; readonly usedBy: readonly string[]; readonly left?: string }[];
  },
  t: Language,
): readonly HtmlNode[] {
  if (rows.length === 0) return [];
  return [
    factTable({
      caption: t('Used by'),
      columns: [t('part'), t('used by'), t('left')],
      rows: rows.map(({ part, usedBy, left }) => [part, usedBy.join(', ') || t('nothing'), left ?? '']),
    }),
  ];
}

export function factTable({ caption, columns, rows }: FactTable): HtmlNode {
  return table({
    caption: words(caption),
    columns: columnHeads(columns),
    rows: rows.map(([name = '', ...cells]) => [
      // A row that goes on with the one above has no name of its own.
      name === '' ? h('td', {}) : rowHead(words(name)),
      ...cells.map((cell) => h('td', {}, words(cell))),
    ]),
  });
}

export function benchViewPageCss(): string {
  const { light, dark } = PALETTES;
  const colours = ({ paper, ink, line }: typeof light | typeof dark): string =>
    `:root { --paper: ${paper}; --ink: ${ink}; --line: ${line}; }`;
  return [
    colours(light),
    `@media screen and (prefers-color-scheme: dark) { ${colours(dark)} }`,
    'body { margin: 2rem auto; max-width: 62rem; padding: 0 1rem; background: var(--paper); color: var(--ink); font: 1rem/1.4 system-ui, sans-serif; overflow-wrap: break-word; }',
    'h1 { font-size: 1.3rem; margin: 0; } h2 { font-size: 1.1rem; margin: 2rem 0 .5rem; }',
    'table { border-collapse: collapse; width: 100%; margin: 1rem 0 2rem; font-variant-numeric: tabular-nums; break-inside: avoid; }',
    'caption { text-align: left; font-weight: 600; padding-bottom: .3rem; }',
    'th, td { border-bottom: 1px solid var(--line); padding: .2rem .6rem .2rem 0; text-align: left; vertical-align: top; font-weight: 400; }',
    'pre { white-space: pre-wrap; }',
    'svg, img { max-width: 100%; height: auto; }',
    'figure { margin: 1rem 0; break-inside: avoid; } figure img { display: block; max-height: 40rem; width: auto; } figcaption { padding-top: .3rem; }',
    '@media print { body { margin: 0; max-width: none; } }',
    '',
  ].join('\n');
}
