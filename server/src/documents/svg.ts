/**
 * A writer of SVG: elements, attributes and text in, the same bytes out every time. Whatever a user typed can only become text:
 * it is escaped, and characters that would be invisible or reorder a line are written out. There is no way to say `style` or `on…`.
 */
import { HARMFUL } from '../words/harmful.ts';

type AttributeName =
  | 'aria-hidden'
  | 'aria-label'
  | 'aria-labelledby'
  | 'class'
  | 'cx'
  | 'cy'
  | 'd'
  | 'data-part'
  | 'fill-rule'
  | 'height'
  | 'id'
  | 'lang'
  | 'lang'
  | 'preserveAspectRatio'
  | 'r'
  | 'role'
  | 'rx'
  | 'ry'
  | 'transform'
  | 'viewBox'
  | 'width'
  | 'x'
  | 'xmlns'
  | 'y';

export type Attributes = { readonly [name in AttributeName]?: string | number | undefined };

export interface SvgElement {
  readonly name: string;
  readonly attributes: Attributes;
  readonly children: readonly SvgNode[];
}

/** An element, a piece of text, or a style sheet of the writer's own making. */
export type SvgNode = SvgElement | string | { readonly css: string };

export function element(name: string, attributes: Attributes, ...children: readonly SvgNode[]): SvgElement {
  return { name, attributes, children };
}

/** A picture of its own, with its name and what it shows for those who do not see it. */
export function picture(
  {
    id,
    name,
    description,
    lang,
  }: {
    readonly id: string;
    readonly name: string;
    readonly description: string;
    /** After BCP 47, where it is not English. */
    readonly lang?: string | undefined;
  },
  { y = 0, width, height }: { readonly y?: number; readonly width: number; readonly height: number },
  ...children: readonly SvgNode[]
): SvgElement {
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      lang,
      class: 'pk',
      viewBox: `0 ${y} ${width} ${height}`,
      width,
      height,
      role: 'img',
      'aria-labelledby': `${id}-t ${id}-d`,
    },
    element('title', { id: `${id}-t` }, name),
    element('desc', { id: `${id}-d` }, description),
    ...children,
  );
}

export function group(attributes: Attributes, ...children: readonly SvgNode[]): SvgElement {
  return element('g', attributes, ...children);
}

export function path(className: string, d: string, attributes: Attributes = {}): SvgElement {
  return element('path', { class: className, d, ...attributes });
}

export function circle(className: string, cx: number, cy: number, r: number): SvgElement {
  return element('circle', { class: className, cx, cy, r });
}

export function rect(className: string, x: number, y: number, width: number, height: number, rx?: number): SvgElement {
  return element('rect', { class: className, x, y, width, height, rx });
}

/** Path data as a template: numbers are rounded to 0.1. */
export function d(strings: TemplateStringsArray, ...values: readonly (number | string)[]): string {
  return strings.reduce((text, part, index) => {
    const value = values[index - 1];
    return text + (typeof value === 'number' ? coordinate(value) : (value ?? '')) + part;
  });
}

/** A coordinate rounded to 0.1, without a trailing zero and without -0. */
export function coordinate(value: number): string {
  if (!Number.isFinite(value)) return '0';
  const rounded = Math.round(value * 10) / 10;
  return String(rounded === 0 ? 0 : rounded);
}

export function render(node: SvgNode): string {
  if (typeof node === 'string') return escapeText(node);
  // The sheet is built from constants; a check here keeps a later change from ending the element early.
  if ('css' in node) return `<style>\n${node.css.replaceAll('<', '')}</style>\n`;
  const attributes = Object.entries(node.attributes)
    .flatMap(([name, value]) => (value === undefined ? [] : ` ${name}="${attributeValue(value)}"`))
    .join('');
  const end = ENDS_LINE.has(node.name) ? '\n' : '';
  if (node.children.length === 0) return `<${node.name}${attributes}/>${end}`;
  const open = node.name === 'svg' || node.name === 'g' ? '\n' : '';
  return `<${node.name}${attributes}>${open}${node.children.map(render).join('')}</${node.name}>${end}`;
}

const ENDS_LINE = new Set(['svg', 'g', 'path', 'circle', 'rect', 'ellipse', 'text', 'title', 'desc']);

function attributeValue(value: string | number): string {
  return typeof value === 'number'
    ? coordinate(value)
    : escapeText(value).replaceAll('"', '&quot;').replaceAll("'", '&#39;');
}

/**
 * Text that cannot leave its element nor deceive its reader: markup is escaped; line breaks and tabs become spaces; control
 * characters, marks that turn the writing direction, invisible characters and halves of surrogate pairs are written out, `[U+202E]`.
 */
export function escapeText(text: string): string {
  return text
    .replace(/[\t\n\r]+/g, ' ')
    .replace(HARMFUL_ONES, (character) => `[U+${hex(character)}]`)
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;');
}

const HARMFUL_ONES = new RegExp(HARMFUL, 'gu');

function hex(character: string): string {
  return (character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0');
}
