/** A finished drawing as part of a page: its own sheet moves into the page's, which admits only one. */
import { type HtmlNode, h } from '../html.ts';

export interface PlacedDrawing {
  readonly node: HtmlNode;
  readonly css: readonly string[];
}

export function placedDrawing(svg: string): PlacedDrawing {
  // Text of a drawing is escaped, so only the writer's own sheet can begin with this tag.
  const css = [...svg.matchAll(SHEET)].map(([, sheet = '']) => sheet);
  return { node: h('div', { class: 'drawing' }, { drawing: svg.replaceAll(SHEET, '') }), css };
}

const SHEET = /<style>\n([^<]*)<\/style>\n/g;
