/** The frame of a drawing: its title block, its two widths, its names for those who do not see it. */
import type { Language } from '../words/languages/language.ts';
import { wordsAt } from './labels.ts';
import { plotCss } from './plot-style.ts';
import { d, element, group, path, picture, rect, render, type SvgElement, type SvgNode } from './svg.ts';
import { fitText, textWidth, wrapText } from './text-width.ts';
import { drawingCss } from './theme.ts';

/** `wide` is laid out for 960 px, `narrow` for 488, `tight` for 424: words stay 11 px high in a pane that has no room for the others. */
export type DrawingWidth = 'wide' | 'narrow' | 'tight';

/** Plots can do with less than drawings: `slim` is laid out for 368 px. */
export type PlotWidth = 'wide' | 'narrow' | 'slim';

export interface Frame {
  readonly width: number;
  readonly margin: number;
  readonly right: number;
}

export const FRAMES: Readonly<Record<DrawingWidth | PlotWidth, Frame>> = {
  wide: { width: 960, margin: 32, right: 928 },
  narrow: { width: 488, margin: 16, right: 472 },
  tight: { width: 424, margin: 10, right: 414 },
  slim: { width: 368, margin: 10, right: 358 },
};

export interface SheetHead {
  readonly title: string;
  readonly subtitle: string;
  /** At most two lines at the right of the title. */
  readonly aside?: readonly string[];
}

export interface SheetWords extends SheetHead {
  /** The language of all its words. */
  readonly t: Language;
  /** Part of the drawing's ids. */
  readonly id: string;
  /** What the drawing is, and what it tells, for those who do not see it. */
  readonly name: string;
  readonly description: string;
}

export interface Block {
  readonly nodes: readonly SvgNode[];
  readonly bottom: number;
}

/** Title, in two lines at most, and circumstances, each line beside its aside; the subtitle takes as many lines as it needs, `most` at most. */
export function sheetHead({ title, subtitle, aside = [] }: SheetHead, { margin, right }: Frame, most = 5): Block {
  const room = (line: number): number => {
    const beside = aside[line] ? textWidth(aside[line], { size: 12 }) + 16 : 0;
    return Math.max(right - margin - beside, (right - margin) * 0.5);
  };
  const lines =
    most === 1
      ? [fitText(subtitle, room(1), { size: 12 })]
      : wrapText(subtitle, room(1) / WIDEST_FACE, { size: 12 }).slice(0, most);
  const asides = aside.slice(0, 2).flatMap((text, line) => {
    if (text === '') return [];
    const shown = fitText(text, (right - margin) * 0.5 - 8, { size: 12 });
    return wordsAt(shown, right, 44 + 20 * line, { quiet: true, anchor: 'end' });
  });
  const titles = titleLines(title, room(0), room(1));
  const top = 64 + 22 * (titles.length - 1);
  const nodes: SvgNode[] = [
    ...titles.map((text, line) => wordsAt(text, margin, 44 + 22 * line, { size: 19 })),
    ...lines.map((text, line) => wordsAt(text, margin, top + 16 * line, { quiet: true })),
    ...asides,
  ];
  return { nodes, bottom: top + 16 * (Math.max(lines.length, 1) - 1) + 8 };
}

function titleLines(title: string, width: number, widthBelow: number): readonly string[] {
  const face = { size: 19, bold: true };
  if (textWidth(title, face) <= width) return [title];
  const least = Math.min(width, widthBelow);
  const [first = '', ...more] = wrapText(title, least, face);
  return [first, ...(more.length === 0 ? [] : [fitText(more.join(' '), least, face)])];
}

/** Sentences run in the editor's own face, which may be this much wider than the one that widths are known of. */
export const WIDEST_FACE = 1.18;

/** Paragraphs of small text, wrapped. */
export function paragraphs(
  texts: readonly string[],
  { x, y, width, quiet = true }: { x: number; y: number; width: number; quiet?: boolean },
): Block {
  const nodes: SvgNode[] = [];
  let at = y;
  for (const text of texts) {
    for (const line of wrapText(text, width / WIDEST_FACE, { size: 12 })) {
      nodes.push(wordsAt(line, x, at, { quiet }));
      at += 16;
    }
    at += 4;
  }
  return { nodes, bottom: texts.length === 0 ? y - 16 : at - 12 };
}

/** The finished drawing; `css` is what it needs beside the rules of every drawing. */
export function drawing(
  { t, ...words }: Pick<SheetWords, 't' | 'id' | 'name' | 'description'>,
  size: DrawingWidth | PlotWidth,
  height: number,
  nodes: readonly SvgNode[],
  css = plotCss(),
): string {
  const id = `${words.id.replace(/[^A-Za-z0-9-]/g, '-')}-${size}`;
  const { width } = FRAMES[size];
  return render(
    picture(
      { name: words.name, description: words.description, id, lang: t.code === 'en' ? undefined : t.code },
      { width, height },
      { css: drawingCss() + css },
      rect('sheet', 0, 0, width, height),
      ...nodes,
    ),
  );
}

/** A part that can be pointed at: its own title, and the name by which its line in the text is found. */
export function part(name: string, title: string, ...children: readonly SvgNode[]): SvgElement {
  return group({ 'data-part': name }, element('title', {}, title), ...children);
}

export const rule = (frame: Frame, y: number): SvgElement => path('w1', d`M${frame.margin} ${y}H${frame.right}`);

/** The same facts as a drawing shows, in rows; the first cell of a row names it. */
export interface FactTable {
  readonly caption: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
}
