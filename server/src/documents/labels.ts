/**
 * Placing of labels: in the order of their importance each takes the first of its places that is free of what was drawn and
 * placed before. What finds no place is dropped if it may be, else put at its first place and reported as an overlap.
 */
import { type Attributes, element, type SvgElement, type SvgNode } from './svg.ts';
import { textWidth } from './text-width.ts';

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface Run {
  readonly text: string;
  readonly bold?: boolean;
  readonly quiet?: boolean;
}

export type Size = 12 | 14 | 19;

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** Where the base line of a text begins, ends or has its middle. */
export interface Spot extends Point {
  readonly anchor: 'start' | 'middle' | 'end';
}

export interface Label {
  /** Lines differ only in wording, the fullest first: letters and name, then letters alone. */
  readonly wordings: readonly (readonly Run[])[];
  readonly spots: readonly Spot[];
  /** 12 unless given. */
  readonly size?: Size;
  /** Smaller is placed earlier. */
  readonly rank: number;
  /** Not unless said so. */
  readonly mayDrop?: boolean;
  /** A paper rim keeps a label legible over thin lines: it has one unless said otherwise. */
  readonly rim?: boolean;
}

export interface PlacedLabel {
  readonly label: Label;
  readonly runs: readonly Run[];
  readonly spot: Spot;
  readonly box: Box;
}

export interface Placement {
  readonly placed: readonly PlacedLabel[];
  readonly dropped: readonly Label[];
  /** Labels that found no free place; a good layout has none. */
  readonly overlapping: readonly PlacedLabel[];
}

export const RANK = {
  finding: 0,
  terminal: 1,
  letters: 2,
  resistance: 3,
  end: 4,
  name: 5,
  caption: 6,
  rest: 7,
} as const;

export function placeLabels(labels: readonly Label[], obstacles: readonly Box[], sheet: Box): Placement {
  const taken = [...obstacles];
  const placed: PlacedLabel[] = [];
  const dropped: Label[] = [];
  const overlapping: PlacedLabel[] = [];
  const inOrder = labels
    .map((label, index) => ({ label, index }))
    .sort((a, b) => a.label.rank - b.label.rank || a.index - b.index);
  for (const { label } of inOrder) {
    const choices = label.wordings.flatMap((runs) => label.spots.map((spot) => choice(label, runs, spot)));
    const free = choices.find(({ box }) => isInside(box, sheet) && !taken.some((other) => overlap(box, other)));
    const chosen = free ?? choices[0];
    if (chosen === undefined || (free === undefined && label.mayDrop)) {
      dropped.push(label);
      continue;
    }
    if (free === undefined) overlapping.push(chosen);
    placed.push(chosen);
    taken.push(chosen.box);
  }
  return { placed, dropped, overlapping };
}

const ANYWHERE: Box = { x: -1e6, y: -1e6, width: 2e6, height: 2e6 };

/** Those of the labels that find a free place, without a rim. */
export const wherePossible = (
  labels: readonly Label[],
  obstacles: readonly Box[],
  sheet: Box = ANYWHERE,
): readonly SvgElement[] =>
  placeLabels(
    labels.map((label) => ({ ...label, mayDrop: true, rim: false })),
    obstacles,
    sheet,
  ).placed.map(drawLabel);

/** The space that a line of text fills: ascenders above the base line, a little below it. */
export function textBox(runs: readonly Run[], { x, y, anchor }: Spot, size: Size): Box {
  const width = runs.reduce(
    (total, run) => total + textWidth(run.text, { size, bold: (run.bold ?? false) || size > 12 }),
    0,
  );
  const left = anchor === 'start' ? x : anchor === 'end' ? x - width : x - width / 2;
  return { x: left, y: y - size * 0.78, width, height: size };
}

export function overlap(a: Box, b: Box): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

/** Around the straight line from one point to another, so far to all sides. */
export function boxAround(a: Point, b: Point, half: number): Box {
  const [x, y] = [Math.min(a.x, b.x) - half, Math.min(a.y, b.y) - half];
  return { x, y, width: Math.abs(b.x - a.x) + 2 * half, height: Math.abs(b.y - a.y) + 2 * half };
}

export function drawLabel({ label: { size = 12, rim = true }, runs, spot }: PlacedLabel): SvgElement {
  return textLine(runs, spot, { size, rim });
}

/** One line of text. */
export function textLine(
  runs: readonly Run[],
  { x, y, anchor }: Spot,
  { size = 12, rim = false }: { size?: Size; rim?: boolean } = {},
): SvgElement {
  const anchorClass = anchor === 'start' ? undefined : anchor === 'end' ? 'e' : 'm';
  const sizeClass = size === 19 ? 't1' : size === 14 ? 't2' : undefined;
  const [only] = runs;
  const whole = runs.length === 1 ? only : undefined;
  const attributes: Attributes = {
    class: classes(sizeClass, anchorClass, rim ? 'knock' : undefined, ...runClasses(whole)),
    x,
    y,
  };
  if (whole !== undefined) return element('text', attributes, whole.text);
  return element('text', attributes, ...runs.flatMap(runNodes));
}

/** One line in one look, beginning at the point unless it is anchored otherwise. */
export function wordsAt(
  text: string,
  x: number,
  y: number,
  { anchor = 'start', size = 12, ...look }: { anchor?: Spot['anchor']; size?: Size } & Omit<Run, 'text'> = {},
): SvgElement {
  return textLine([{ text, ...look }], { x, y, anchor }, { size });
}

function choice(label: Label, runs: readonly Run[], spot: Spot): PlacedLabel {
  return { label, runs, spot, box: textBox(runs, spot, label.size ?? 12) };
}

/** Of a box in a larger one. */
export function isInside(box: Box, sheet: Box): boolean {
  return (
    box.x >= sheet.x &&
    box.y >= sheet.y &&
    box.x + box.width <= sheet.x + sheet.width &&
    box.y + box.height <= sheet.y + sheet.height
  );
}

/** Plain words stand in the text itself, and so does a space before marked ones: some viewers drop it inside a `tspan`. */
function runNodes(run: Run): readonly SvgNode[] {
  const className = classes(...runClasses(run));
  if (className === undefined) return [run.text];
  const words = run.text.trimStart();
  const space = words.length < run.text.length ? [' '] : [];
  return [...space, element('tspan', { class: className }, words)];
}

function runClasses(run: Run | undefined): readonly (string | undefined)[] {
  return [run?.bold ? 'b' : undefined, run?.quiet ? 'q' : undefined];
}

function classes(...names: readonly (string | undefined)[]): string | undefined {
  const present = names.filter((name) => name !== undefined);
  return present.length === 0 ? undefined : present.join(' ');
}
