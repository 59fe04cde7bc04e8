/** What all cards share: the head, the foot with the guidance sentence, fields to read and to fill, boxes, cautions. */

import type { PickupAnalysis } from '../../analysis/analysis-types.ts';
import type { Finding } from '../../checks/finding.ts';
import { tellIn } from '../../checks/telling.ts';
import type { Bench } from '../../model/bench.ts';
import type { Estimate } from '../../quantities/estimate.ts';
import { printCelsius } from '../../quantities/print.ts';
import { cautionsOf, GUIDANCE, type Hazard } from '../../words/cautions.ts';
import type { Language, PlainText } from '../../words/languages/language.ts';
import { titleOf } from '../../words/parts.ts';
import { type HtmlNode, h, typed } from '../html.ts';
import type { Card, CardSetting } from './card.ts';
import type { CardKind } from './card-kinds.ts';
import { kiloohm, passText } from './numbers.ts';
import { aboutPickup } from './pickup-words.ts';

export interface Head extends Pick<Card, 'kind' | 'css'> {
  /** What it is about, as parts of a file name. */
  readonly of: readonly string[];
  /** A page behind the card's own. */
  readonly behind?: HtmlNode | undefined;
  readonly title: string;
  /** Of the page, where its heading is too short to stand alone. */
  readonly pageTitle?: string;
  /** Serial, pickup, what the card is for: the line below the title. */
  readonly about: readonly (string | undefined)[];
  /** False where nothing on the card depends on the temperature. */
  readonly atRoom: boolean;
  readonly findings: readonly Finding[];
}

/** Of a pickup as a whole: `Potting: Withen bridge`. */
export const pickupHead = ({ pickup, findings }: PickupAnalysis, kind: CardKind, what: string, t: Language): Head => ({
  kind,
  of: [pickup.name],
  title: `${what}: ${titleOf(pickup)}`,
  about: aboutPickup(pickup, t),
  atRoom: true,
  findings,
});

export function cardWith(head: Head, setting: CardSetting, ...content: readonly HtmlNode[]): Card {
  const { t } = setting;
  const about = head.about.filter((each): each is string => each !== undefined && each !== '');
  const body = [
    h(
      'main',
      { class: 'card' },
      h(
        'header',
        {},
        h(
          'div',
          {},
          h('h1', { class: head.title.length > LONG_TITLE ? 'long' : undefined }, typed(head.title)),
          h('p', { class: 'q' }, ...about.flatMap((each, index) => [index > 0 ? ' · ' : '', typed(each)])),
        ),
        h('div', { class: 'q' }, head.atRoom ? t('printed for {0}', printCelsius(setting.roomC, t.numbers)) : ''),
      ),
      ...warning(head.findings, t),
      ...content.slice(0, -1),
      // With what stands before it, so that it is never alone on a page.
      h(
        'div',
        { class: 'end' },
        ...content.slice(-1),
        h('footer', {}, h('span', {}, t(GUIDANCE)), h('span', {}, typed(setting.file))),
      ),
      ...(head.behind ? [head.behind] : []),
    ),
  ];
  return {
    kind: head.kind,
    about: head.of,
    title: head.pageTitle ?? head.title,
    language: t.code,
    css: head.css,
    body,
  };
}

const LONG_TITLE = 60;

/** A card is worked from the spec as it stands: that the spec holds errors has to stand on the paper too. */
function warning(findings: readonly Finding[], t: Language): readonly HtmlNode[] {
  const errors = findings.filter(({ severity }) => severity === 'error');
  if (errors.length === 0) return [];
  const shown = errors.slice(0, MOST_WARNINGS);
  const more = errors.length - shown.length;
  return [
    h(
      'p',
      { class: 'warn' },
      h('b', {}, `${t('The spec holds an error; settle it before the work.')} `),
      ...shown.flatMap((finding) => {
        const { what, foreign } = tellIn(finding, t);
        return [h('bdi', { lang: foreign }, what), ` (${finding.code}) `];
      }),
      ...(more > 0 ? [t('and {0} more', String(more))] : []),
    ),
  ];
}

export const MOST_WARNINGS = 2;

/** A field: what it is, and what is known; a blank one is for the pencil. */
export interface Field {
  readonly label: string;
  readonly value?: HtmlNode | readonly HtmlNode[] | undefined;
}

export function fields(list: readonly Field[], className?: string): HtmlNode {
  return h(
    'dl',
    { class: className },
    ...list.map(({ label, value }) =>
      h(
        'div',
        {},
        h('dt', {}, label),
        h('dd', {}, ...(value === undefined ? [] : Array.isArray(value) ? value : [value as HtmlNode])),
      ),
    ),
  );
}

/** Unknown, and the reading that settles it: never nothing, never a dash. */
export const unknown = (settledBy: PlainText, t: Language): string => t('unknown: {0}', t(settledBy));

/** What a resistance should read, and what passes, kΩ. */
export const ohmCells = (ohm: Estimate, bench: Bench | undefined, t: Language): readonly HtmlNode[] => [
  h('td', { class: 'n x' }, kiloohm(ohm.value, bench, t)),
  h('td', { class: 'q s' }, passText(ohm, bench, t)),
];

export const boxCell = (): HtmlNode => h('td', { class: 'box' });
export const tickCell = (): HtmlNode => h('td', { class: 'tick' });
export const gapCell = (): HtmlNode => h('td', { class: 'gap' });
export const tickBox = (text: string): readonly HtmlNode[] => [h('span', { class: 'tickbox' }), text];
export const line = (): HtmlNode => h('span', { class: 'line' });

export const cautions = (t: Language, ...hazards: readonly Hazard[]): readonly string[] =>
  cautionsOf(...hazards).map((each) => t(each));

export function mind(t: Language, texts: readonly string[], layout: 'column' | 'wide' = 'wide'): HtmlNode {
  return h(
    'section',
    { class: layout === 'wide' ? 'wide' : undefined },
    h('h2', {}, t('Mind')),
    h('ul', {}, ...texts.map((each) => h('li', {}, each))),
  );
}
