/** A comparison as a page that needs nothing else: facts, numbers, findings, the wiring side by side and the responses overlaid. */

import type { Analysis, PickupAnalysis } from '../analysis/analysis-types.ts';
import type { Finding } from '../checks/finding.ts';
import { tellIn } from '../checks/telling.ts';
import { changedParts } from '../comparison/changed-parts.ts';
import { type FactChange, sidesOf } from '../comparison/compare-facts.ts';
import type { SweepChange } from '../comparison/compare-sweeps.ts';
import { type Comparison, sameMeaning } from '../comparison/comparison.ts';
import { type NumberRow, numberRows } from '../comparison/number-rows.ts';
import { loadOf } from '../estimates/pickup-estimates.ts';
import { ENGLISH, type Language } from '../words/languages/language.ts';
import { titleOf } from '../words/parts.ts';
import { columnHeads, type HtmlNode, h, phrase, rowHead, table, words } from './html.ts';
import { beforeAfterPicture } from './response-plot/before-after.ts';
import { pickupResponsePicture, positionResponsePicture } from './response-plot/from-model.ts';
import { responsePlot } from './response-plot/response-plot.ts';
import { PALETTES } from './theme.ts';
import { pickupPicture } from './wiring-diagram/from-model.ts';
import { drawPickup } from './wiring-diagram/wiring-diagram.ts';

export interface StateNames {
  readonly before: string;
  readonly after: string;
}

export interface ComparisonPage {
  readonly title: string;
  readonly css: string;
  readonly body: readonly HtmlNode[];
}

export function comparisonPage(
  before: Analysis,
  after: Analysis,
  comparison: Comparison,
  names: StateNames,
  t = ENGLISH,
): ComparisonPage {
  const same = sameMeaning(comparison);
  return {
    title: `${names.before} → ${names.after}`,
    css: pageCss() + markedParts(after, comparison),
    body: [
      h(
        'main',
        {},
        h('h1', {}, words(names.before), ' → ', words(names.after)),
        ...(same ? [h('p', {}, t('No change of meaning: nothing differs but order, layout and comments.'))] : []),
        ...section(t('Facts'), factTable(comparison.facts, t)),
        ...section(t('Numbers'), numberTable(numberRows(comparison, t), names, t)),
        ...section(t('Findings'), findingList(comparison.findings, t)),
        ...(same ? [] : pictures(before, after, comparison, { names, t })),
      ),
    ],
  };
}

function section(title: string, content: HtmlNode | undefined): readonly HtmlNode[] {
  return content === undefined ? [] : [h('section', {}, h('h2', {}, title), content)];
}

function factTable(changes: readonly FactChange[], t: Language): HtmlNode | undefined {
  if (changes.length === 0) return undefined;
  const rows = changes.flatMap((change) => {
    const path = change.path.join(' / ');
    return sidesOf(change).map(([before, after], index) => [
      rowHead(index === 0 ? words(path) : ''),
      h('td', { class: 'gone' }, before === '' ? '' : words(before)),
      h('td', { class: 'come' }, after === '' ? '' : words(after)),
    ]);
  });
  return table({ columns: columnHeads(['', t('before'), t('after')]), rows });
}

function numberTable(rows: readonly NumberRow[], names: StateNames, t: Language): HtmlNode | undefined {
  if (rows.length === 0) return undefined;
  const cells = rows.map(({ path, what, before, after, by }, index) => {
    const shown = path.join(' / ');
    const repeated = rows[index - 1]?.path.join(' / ') === shown;
    return [
      rowHead(repeated ? '' : words(shown)),
      h('td', {}, what),
      h('td', { class: 'number' }, before),
      h('td', { class: 'number' }, after),
      h('td', { class: 'number' }, by),
    ];
  });
  return table({ columns: columnHeads(['', t('value'), names.before, names.after, t('change')]), rows: cells });
}

function findingList({ gone, come, changed }: Comparison['findings'], t: Language): HtmlNode | undefined {
  if (gone.length + come.length + changed.length === 0) return undefined;
  const item = (what: string, finding: Finding): HtmlNode => {
    const { severity, code } = finding;
    const { what: fault, foreign } = tellIn(finding, t);
    return h('li', {}, h('strong', {}, what), ` ${t(severity)} ${code}: `, h('span', { lang: foreign }, words(fault)));
  };
  return h(
    'ul',
    {},
    ...gone.map((each) => item(t('gone'), each)),
    ...come.map((each) => item(t('new'), each)),
    ...changed.map(({ before, after }) => item(t('was {0}, now', t(before.severity)), after)),
  );
}

interface Told {
  readonly names: StateNames;
  readonly t: Language;
}

/** Of pickups and positions whose numbers or facts differ; what stayed as it was needs no picture. */
function pictures(before: Analysis, after: Analysis, comparison: Comparison, { names, t }: Told): readonly HtmlNode[] {
  const changed = new Set([
    ...comparison.facts.map(({ path }) => path[0]),
    ...comparison.numbers.map(({ path }) => path[0]),
    ...comparison.phases.map(({ path }) => path[0]),
  ]);
  const nameAfter = (name: string): string => comparison.renamed.get(name) ?? name;
  const labels = { before: names.before, now: names.after };
  const pickups = after.pickups.flatMap((now): readonly HtmlNode[] => {
    const { name } = now.pickup;
    const old = before.pickups.find((each) => nameAfter(each.pickup.name) === name);
    if (old === undefined || !changed.has(`pickup ${name}`)) return [];
    const response = pickupResponsePicture(
      { analysis: after, pickup: now },
      { analysis: before, pickup: old },
      { names: labels, t },
    );
    const swept = comparison.sweeps.find(({ pickup }) => pickup === now.pickup);
    return [
      h('h2', {}, ...phrase(t, 'Wiring and response of {0}', words(titleOf(now.pickup)))),
      h(
        'div',
        { class: 'pair' },
        wiring(
          { analysis: before, pickup: old, t },
          'before',
          names.before,
          changedParts(comparison.facts, `pickup ${name}`, 'before'),
        ),
        wiring(
          { analysis: after, pickup: now, t },
          'after',
          names.after,
          changedParts(comparison.facts, `pickup ${name}`, 'after'),
        ),
      ),
      ...(response === undefined ? [] : [h('div', {}, { drawing: responsePlot(response, 'wide') })]),
      ...(swept === undefined ? [] : [h('div', {}, { drawing: beforeAfter(swept, names, t) })]),
    ];
  });
  const positions = after.instruments.flatMap((now): readonly HtmlNode[] => {
    const { name } = now.instrument;
    const old = before.instruments.find((each) => nameAfter(each.instrument.name) === name);
    if (old === undefined || !changed.has(`instrument ${name}`)) return [];
    return now.instrument.positions.flatMap(({ key }): readonly HtmlNode[] => {
      const picture = positionResponsePicture({ analysis: after, instrument: now }, key.value, {
        before: { analysis: before, instrument: old },
        names: labels,
        t,
      });
      return picture === undefined ? [] : [h('div', {}, { drawing: responsePlot(picture, 'wide') })];
    });
  });
  return [
    ...(pickups.length === 0 ? [] : [h('section', {}, ...pickups)]),
    ...(positions.length === 0 ? [] : [h('section', {}, h('h2', {}, t('Positions')), ...positions)]),
  ];
}

const beforeAfter = ({ pair, pickup }: SweepChange, { before, after }: StateNames, t: Language): string =>
  responsePlot(beforeAfterPicture(pair, pickup, loadOf(pickup), t, { before, now: after }), 'wide');

/** Two drawings of one pickup stand on the page, so each has ids of its own. What was changed is marked, and named beside it. */
function wiring(
  { analysis, pickup, t }: { readonly analysis: Analysis; readonly pickup: PickupAnalysis; readonly t: Language },
  side: 'before' | 'after',
  name: string,
  changed: ReadonlySet<string>,
): HtmlNode {
  const picture = pickupPicture(analysis, pickup, t);
  const { svg } = drawPickup({ ...picture, id: `${side}-${picture.id}` }, 'narrow');
  const parts = [...changed].map((part) => part.replace(/^(coil|lead|part):/, '$1 '));
  return h(
    'div',
    { class: side },
    h('p', {}, words(name), ...(parts.length === 0 ? [] : phrase(t, ', marked: {0}', words(parts.join(', '))))),
    { drawing: svg },
  );
}

/** A glow around each changed part. A name that holds more than letters, digits and joiners is named in words alone. */
function markedParts({ pickups }: Analysis, { facts }: Comparison): string {
  const rules = pickups.flatMap(({ pickup }) =>
    (['before', 'after'] as const).flatMap((side) =>
      [...changedParts(facts, `pickup ${pickup.name}`, side)]
        .filter((part) => /^[\p{L}\p{N}_.: -]+$/u.test(part))
        .map((part) => `.${side} [data-part="${part}"] { filter: drop-shadow(0 0 3px var(--mark)); }`),
    ),
  );
  return [...new Set(rules)].map((rule) => `${rule}\n`).join('');
}

function pageCss(): string {
  const { light, dark } = PALETTES;
  const colours = (palette: typeof light | typeof dark): string =>
    `:root { --paper: ${palette.paper}; --ink: ${palette.ink}; --line: ${palette.line}; --gone: ${palette.find}; --come: ${palette.live}; --mark: ${palette.find}; }`;
  return [
    colours(light),
    `@media (prefers-color-scheme: dark) { ${colours(dark)} }`,
    'body { margin: 2rem auto; max-width: 70rem; padding: 0 1rem; background: var(--paper); color: var(--ink); font: 1rem/1.4 system-ui, sans-serif; overflow-wrap: break-word; }',
    'h1 { font-size: 1.3rem; } h2 { font-size: 1.1rem; margin: 2rem 0 .5rem; }',
    'table { border-collapse: collapse; width: 100%; font-variant-numeric: tabular-nums; }',
    'th, td { border-bottom: 1px solid var(--line); padding: .2rem .6rem .2rem 0; text-align: left; vertical-align: top; }',
    'th { font-weight: 600; } .number { white-space: nowrap; }',
    '.gone { color: var(--gone); } .come { color: var(--come); }',
    '.pair { display: flex; flex-wrap: wrap; gap: 1rem; } .pair > div { flex: 1 1 30rem; min-width: 0; }',
    'svg { max-width: 100%; height: auto; }',
    '',
  ].join('\n');
}
