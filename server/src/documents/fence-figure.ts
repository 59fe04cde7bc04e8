/** A spec that stands in a document of other words: its drawings, and what is found of it, in words. */

import { cautionsFor } from '../checks/explanation.ts';
import type { Finding } from '../checks/finding.ts';
import type { Language } from '../words/languages/language.ts';
import { factTable, mind } from './bench-view-page.ts';
import type { FactTable } from './drawing-sheet.ts';
import { type HtmlNode, h, renderHtml, sentence, words } from './html.ts';

export interface FenceFigure {
  readonly drawings: readonly { readonly svg: string; readonly table: FactTable }[];
  /** `line` counts from 1, in the spec itself. */
  readonly findings: readonly (Pick<Finding, 'code' | 'severity'> & {
    readonly message: string;
    readonly line: number;
  })[];
  /** What the figure leaves out, in a sentence. */
  readonly leftOut?: string;
  readonly t: Language;
}

/** The figure as HTML for a page that has its own style sheet; whatever was typed is text in it. */
export function fenceFigure({ drawings, findings, leftOut, t }: FenceFigure): string {
  const nodes: readonly HtmlNode[] = [
    ...drawings.map(({ svg }) => h('div', { class: 'pickup-drawing' }, { drawing: svg })),
    ...(leftOut === undefined ? [] : [h('p', {}, leftOut)]),
    ...(findings.length === 0
      ? [h('p', { class: 'pickup-findings' }, t('No findings.'))]
      : [h('ul', { class: 'pickup-findings' }, ...findings.map((each) => findingItem(each, t)))]),
    ...mind(
      cautionsFor(findings).map((each) => t(each)),
      t,
      'p',
    ),
    ...drawings.map(({ table }) => h('details', {}, h('summary', {}, words(table.caption)), factTable(table))),
  ];
  return nodes.map(renderHtml).join('');
}

const findingItem = ({ code, severity, message, line }: FenceFigure['findings'][number], t: Language): HtmlNode =>
  h(
    'li',
    { class: `pickup-${severity}` },
    h('b', {}, `${t('Line {0}, {1}.', String(line), t(severity))} `),
    sentence(message),
    ' ',
    h('code', {}, code),
  );
