/**
 * A writer of HTML pages that need nothing else: no script, no address, no style but the one sheet in the head. Whatever a user
 * typed can only become text. There is no way to say `style`, `on…`, `href` or `src`; a photograph stands in the page itself, and only
 * the copy without the camera's notes can.
 */
import { type CleanPhoto, dataUri } from '../photos/photo-file.ts';
import { codeSpans } from '../words/code-spans.ts';
import type { Language, LanguageCode, Text } from '../words/languages/language.ts';
import { unbroken } from '../words/unbroken.ts';
import { escapeText, render as renderSvg, type SvgNode } from './svg.ts';

type AttributeName = 'aria-hidden' | 'aria-label' | 'class' | 'colspan' | 'lang' | 'role' | 'scope';

export type HtmlAttributes = { readonly [name in AttributeName]?: string | number | undefined };

export interface HtmlElement {
  readonly name: string;
  readonly attributes: HtmlAttributes;
  readonly children: readonly HtmlNode[];
}

/** An element, a piece of text, a photograph, or a drawing: by its nodes, or as the text that a drawing of this project was written to. */
export type HtmlNode =
  | HtmlElement
  | string
  | { readonly svg: SvgNode }
  | { readonly drawing: string }
  | { readonly photo: CleanPhoto; readonly caption: string };

export function h(name: string, attributes: HtmlAttributes, ...children: readonly HtmlNode[]): HtmlElement {
  return { name, attributes, children };
}

export const section = (...children: readonly HtmlNode[]): HtmlElement => h('section', {}, ...children);

/** Text from a spec: its writing direction stays its own. */
export function typed(text: string): HtmlElement {
  return h('bdi', {}, text);
}

/** The same where it holds quantities: a number and its unit stay on one line. */
export const words = (text: string): HtmlElement => typed(unbroken(text));

/** A sentence of ours, with what it quotes from a spec set as code. */
export const sentence = (text: string): HtmlElement =>
  h('bdi', {}, ...codeSpans(unbroken(text)).map((part) => (part.isCode ? h('code', {}, part.text) : part.text)));

/** A text with names and marks of the page in between. */
export const phrase = (
  t: Language,
  text: Text,
  ...between: readonly (HtmlNode | readonly HtmlNode[])[]
): readonly HtmlNode[] =>
  t
    .pattern(text)
    .split(/\{(\d)\}/)
    .flatMap((part, index) => (index % 2 === 1 ? (between[Number(part)] ?? []) : part))
    .filter((part) => part !== '');

export interface Table {
  readonly className?: string;
  readonly caption?: HtmlNode;
  /** Headings: words, words with their class (and how many columns they stand over), or a cell. */
  readonly columns: readonly (HtmlNode | readonly [words: string, className: string | undefined, colspan?: number])[];
  /** Cells of each row. */
  readonly rows: readonly (readonly HtmlNode[])[];
  readonly foot?: readonly HtmlNode[];
}

export function table({ className, caption, columns, rows, foot }: Table): HtmlElement {
  const row = (cells: readonly HtmlNode[]) => h('tr', {}, ...cells);
  return h(
    'table',
    { class: className },
    ...(caption === undefined ? [] : [h('caption', {}, caption)]),
    h('thead', {}, row(columns.map(columnHead))),
    h('tbody', {}, ...rows.map(row)),
    ...(foot === undefined ? [] : [h('tfoot', {}, row(foot))]),
  );
}

function columnHead(heading: Table['columns'][number]): HtmlNode {
  if (typeof heading === 'object' && !('length' in heading)) return heading;
  const [words, className, colspan] = typeof heading === 'string' ? [heading] : heading;
  return h('th', { scope: 'col', class: className, colspan }, words);
}

/** Headings that a person wrote; over the names of the rows stands none. */
export const columnHeads = (titles: readonly string[]): readonly HtmlNode[] =>
  titles.map((title) => (title === '' ? h('td', {}) : h('th', { scope: 'col' }, typed(title))));

/** The cell that names its row. */
export const rowHead = (...children: readonly HtmlNode[]): HtmlNode => h('th', { scope: 'row' }, ...children);

export interface Page {
  readonly title: string;
  readonly language: LanguageCode;
  readonly css: string;
  readonly body: readonly HtmlNode[];
}

/** The same page gives the same bytes. */
export async function htmlPage({ title, language, css, body }: Page): Promise<string> {
  // The sheet is made of constants; without `<` it cannot end its element early.
  const sheet = css.replaceAll('<', '').replaceAll('\r', '');
  const rendered = body.map(renderHtml).join('');
  // Words are escaped and drawings hold no pictures: only a photograph is an `img`.
  const pictures = rendered.includes('<img ') ? ' img-src data:;' : '';
  const policy = `default-src 'none'; style-src ${await styleSource(sheet, rendered)};${pictures} base-uri 'none'; form-action 'none'`;
  return [
    '<!doctype html>',
    `<html lang="${language}"><head><meta charset="utf-8">`,
    `<meta http-equiv="Content-Security-Policy" content="${policy.replaceAll('"', '')}">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<title>${escapeText(title)}</title><style>${sheet}</style></head>`,
    `<body>${rendered}</body></html>`,
    '',
  ].join('\n');
}

/**
 * What the page's policy admits as style: exactly its own sheet and those inside the drawings of its body, by their hashes (W3C
 * Content Security Policy Level 3).
 */
async function styleSource(sheet: string, renderedBody: string): Promise<string> {
  const inDrawings = [...renderedBody.matchAll(/<style>([^<]*)<\/style>/g)].map(([, each = '']) => each);
  const hashes = await Promise.all([...new Set([sheet, ...inDrawings])].map(sha256));
  return hashes.map((hash) => `'sha256-${hash}'`).join(' ');
}

async function sha256(text: string): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text));
  return btoa(String.fromCharCode(...new Uint8Array(digest)));
}

export function renderHtml(node: HtmlNode): string {
  if (typeof node === 'string') return escapeText(node);
  if ('svg' in node) return renderSvg(node.svg);
  if ('drawing' in node) return node.drawing;
  if ('photo' in node) {
    const { photo, caption } = node;
    return `<img alt="${attributeValue(caption)}" width="${photo.width}" height="${photo.height}" src="${dataUri(photo)}">`;
  }
  const attributes = Object.entries(node.attributes)
    .flatMap(([name, value]) => (value === undefined ? [] : ` ${name}="${attributeValue(String(value))}"`))
    .join('');
  if (VOID.has(node.name)) return `<${node.name}${attributes}>`;
  const end = ENDS_LINE.has(node.name) ? '\n' : '';
  return `<${node.name}${attributes}>${node.children.map(renderHtml).join('')}</${node.name}>${end}`;
}

const VOID = new Set(['br', 'hr']);
const ENDS_LINE = new Set([
  'main',
  'header',
  'footer',
  'section',
  'figure',
  'div',
  'p',
  'h1',
  'h2',
  'ul',
  'li',
  'dl',
  'tr',
  'table',
]);

const attributeValue = (text: string): string => escapeText(text).replaceAll('"', '&quot;').replaceAll("'", '&#39;');
