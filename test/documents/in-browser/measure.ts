/** Runs in the page: shows one drawing after the other and measures what the browser made of it. */

export interface Drawing {
  readonly name: string;
  readonly svg: string;
}

export interface Measured {
  readonly texts: number;
  readonly lines: number;
  readonly faults: readonly string[];
}

/** What a text or a mark is painted with, and what it may lie on. */
export interface Paint {
  readonly what: string;
  readonly colour: string;
  readonly grounds: readonly string[];
  readonly least: number;
}

export function measure({ name, svg }: Drawing): Measured {
  const parsed = new DOMParser().parseFromString(svg, 'image/svg+xml');
  if (parsed.querySelector('parsererror') !== null) return { texts: 0, lines: 0, faults: [`${name}: is no XML`] };
  const root = show(svg);
  const sheet = root.getBoundingClientRect();
  const texts = [...root.querySelectorAll('text')]
    .map((each) => inkOf(each, sheet))
    .filter(({ words }) => words !== '');
  const marks = [...root.querySelectorAll<SVGGeometryElement>('path, circle, rect, ellipse')].flatMap((each) =>
    markOf(each, sheet),
  );
  const faults = [
    ...texts.flatMap((text) => (isInside(text, sheet) ? [] : [`"${text.words}" leaves the sheet`])),
    ...texts.flatMap((text, index) =>
      texts
        .slice(index + 1)
        .flatMap((other) => (overlap(text, other) ? [`"${text.words}" lies on "${other.words}"`] : [])),
    ),
    ...texts.flatMap((text) =>
      marks.filter((mark) => crosses(mark, text)).map(({ kind }) => `${kind} runs through "${text.words}"`),
    ),
  ];
  root.remove();
  return { texts: texts.length, lines: marks.length, faults: faults.map((fault) => `${name}: ${fault}`) };
}

/** Every paint that stands for something in a drawing, once each. */
export function paints({ svg }: Drawing): readonly Paint[] {
  const root = show(svg);
  const token = (each: string) => colourOf(root, `var(--${each})`);
  const grounds = [token('paper'), token('body')];
  const found = new Map<string, Paint>();
  const add = (what: string, colour: string, on: readonly string[], least: number) =>
    found.set(`${what} ${colour}`, { what, colour, grounds: on, least });
  for (const text of root.querySelectorAll('text, tspan')) {
    const isOnTag = text.classList.contains('tagn');
    add(
      `text ${text.getAttribute('class') ?? ''}`,
      getComputedStyle(text).fill,
      isOnTag ? [token('find')] : grounds,
      4.5,
    );
  }
  for (const mark of root.querySelectorAll('path, circle, rect, ellipse')) {
    const kind = mark.classList[0] ?? '';
    const { stroke, fill } = getComputedStyle(mark);
    if (STROKES.has(kind)) add(`stroke ${kind}`, stroke, grounds, 3);
    if (FILLS.has(kind)) add(`fill ${kind}`, fill, grounds, 3);
  }
  root.remove();
  return [...found.values()];
}

/** Width in px of words as the page sets them. */
export function widthOf(words: string, className: string): number {
  const root = show(
    `<svg xmlns="http://www.w3.org/2000/svg" class="pk" width="10" height="10"><text class="${className}"/></svg>`,
  );
  const text = root.querySelector('text');
  if (text === null) return 0;
  text.textContent = words;
  const width = text.getComputedTextLength();
  root.remove();
  return width;
}

/**
 * Lines and shapes that no word may lie on. Left out: grid and strings (`hair`, without meaning), tints and areas (`body`, `tint`,
 * `band`, `row`, `plate`), rims in the colour of the paper (`halo`, `gap`, `barn`), and colours that lie within the edges of a lead.
 */
const STROKES = new Set([
  'w1',
  'w2',
  'w3',
  'hid',
  'edge',
  'ring',
  'fix',
  'leader',
  'on',
  'off',
  'now',
  'was',
  'spark',
  'limit',
  'open',
  'body',
  'cell',
]);
const FILLS = new Set(['solid', 'flow', 'tag', 'bar', 'celln', 'cellon']);

/** Thin lines that a word with a rim of paper may interrupt: outlines beneath, dimensions, hidden edges and leaders. */
const BENEATH_A_RIM = new Set(['hid', 'w1', 'leader', 'limit']);

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

interface Ink extends Box {
  readonly words: string;
  readonly hasRim: boolean;
  readonly isOnTag: boolean;
}

interface Mark extends Box {
  readonly kind: string;
  readonly half: number;
  readonly isFilled: boolean;
  readonly element: SVGGeometryElement;
}

/** Twice this much may two texts, or a text and a line, share before it counts: edges of letters are soft. */
const SOFT = 0.5;

function show(svg: string): SVGSVGElement {
  const frame = document.querySelector('main') ?? document.body;
  frame.innerHTML = svg;
  const root = frame.querySelector('svg');
  if (root === null) throw new Error('no drawing');
  return root;
}

/** The space that the letters themselves fill: the advance along the line, the ink of the very letters across it. */
function inkOf(text: SVGTextElement, sheet: DOMRect): Ink {
  const words = text.textContent ?? '';
  const box = text.getBoundingClientRect();
  const style = getComputedStyle(text);
  context.font = `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
  const { actualBoundingBoxAscent: up, actualBoundingBoxDescent: down } = context.measureText(words);
  const baseline = Number(text.getAttribute('y')) + (text.getCTM()?.f ?? 0);
  return {
    words,
    left: box.left - sheet.left,
    right: box.right - sheet.left,
    top: baseline - up,
    bottom: baseline + down,
    hasRim: text.classList.contains('knock'),
    isOnTag: text.classList.contains('tagn'),
  };
}

const canvas = document.createElement('canvas').getContext('2d');
if (canvas === null) throw new Error('no canvas');
const context = canvas;

function markOf(element: SVGGeometryElement, sheet: DOMRect): readonly Mark[] {
  const kind = element.classList[0] ?? '';
  if (!STROKES.has(kind) && !FILLS.has(kind)) return [];
  const { strokeWidth, stroke } = getComputedStyle(element);
  const half = stroke === 'none' ? 0 : Number.parseFloat(strokeWidth) / 2;
  const { left, right, top, bottom } = element.getBoundingClientRect();
  return [
    {
      kind: `${element.tagName} ${kind}`,
      half,
      element,
      // Poles and terminals hold paper, joints ink; a word belongs on neither.
      isFilled: FILLS.has(kind) || (kind === 'open' && element.tagName !== 'path'),
      left: left - sheet.left - half,
      right: right - sheet.left + half,
      top: top - sheet.top - half,
      bottom: bottom - sheet.top + half,
    },
  ];
}

function isInside(text: Ink, { width, height }: DOMRect): boolean {
  return text.left >= 0 && text.right <= width && text.top >= 0 && text.bottom <= height;
}

function overlap(a: Box, b: Box): boolean {
  const [across, along] = [
    Math.min(a.right, b.right) - Math.max(a.left, b.left),
    Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top),
  ];
  return across > 2 * SOFT && along > 2 * SOFT;
}

/** Steps along a line in px, smaller than any letter. */
const STEP = 2;

/**
 * Does one of the points along the line lie in the box? Halves the line, and leaves out what cannot reach the box: no point lies
 * further from the middle of a stretch than the line between them is long. Only a pen that is lifted jumps.
 */
function passes(element: SVGGeometryElement, box: Box): boolean {
  const at = element.getCTM();
  if (at === null) return false;
  const jumps = (element.getAttribute('d')?.match(/m/gi)?.length ?? 1) > 1;
  const step = STEP * Math.max(Math.hypot(at.a, at.b), Math.hypot(at.c, at.d));
  const anyOf = (first: number, last: number): boolean => {
    if (first > last) return false;
    const middle = Math.floor((first + last) / 2);
    const { x, y } = element.getPointAtLength(STEP * middle).matrixTransform(at);
    if (x > box.left && x < box.right && y > box.top && y < box.bottom) return true;
    const away = Math.hypot(Math.max(box.left - x, x - box.right, 0), Math.max(box.top - y, y - box.bottom, 0));
    if (!jumps && away > step * (last - middle + 1)) return false;
    return anyOf(first, middle - 1) || anyOf(middle + 1, last);
  };
  return anyOf(0, Math.floor(element.getTotalLength() / STEP));
}

/** Does the line come into the letters? */
function crosses(mark: Mark, text: Ink): boolean {
  if (!overlap(mark, text)) return false;
  const [, kind = ''] = mark.kind.split(' ');
  if (text.hasRim && BENEATH_A_RIM.has(kind)) return false;
  if (text.isOnTag && kind === 'tag') return false;
  const { element, half } = mark;
  const reach = Math.max(half - SOFT, 0);
  const letters = {
    left: text.left - reach + SOFT,
    right: text.right + reach - SOFT,
    top: text.top - reach + SOFT,
    bottom: text.bottom + reach - SOFT,
  };
  if (passes(element, letters)) return true;
  if (!mark.isFilled) return false;
  const at = element.getCTM();
  if (at === null) return false;
  const middle = new DOMPoint((text.left + text.right) / 2, (text.top + text.bottom) / 2).matrixTransform(at.inverse());
  return element.isPointInFill(middle);
}

function colourOf(root: SVGSVGElement, value: string): string {
  const probe = root.querySelector('rect.sheet');
  if (!(probe instanceof SVGElement)) return '';
  probe.style.fill = value;
  const { fill } = getComputedStyle(probe);
  probe.style.fill = '';
  return fill;
}
