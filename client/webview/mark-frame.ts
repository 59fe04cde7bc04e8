const SVG = 'http://www.w3.org/2000/svg';
/** Between what is marked and its frame, in the drawing's units; further out where words stand in the way. */
const NEAR = 4;
const FAR = 11;
/** Kept free on both sides of a word that the frame cannot pass. */
const ROOM = 3;
/** A shorter piece of a side says nothing. */
const LEAST = 5;

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** A dashed frame around each of the pieces, in place of the one before. It runs through no word: it gives way, or is open there. */
export function frameParts(drawn: SVGSVGElement, pieces: readonly SVGElement[]): void {
  for (const frame of drawn.querySelectorAll('.frame')) frame.remove();
  if (pieces.length === 0) return;
  const sheet = drawn.getBoundingClientRect();
  const scale = drawn.viewBox.baseVal.width / sheet.width;
  // What is not laid out has no boxes.
  if (!Number.isFinite(scale)) return;
  const boxOf = (each: Element): Box => {
    const { left, right, top, bottom } = each.getBoundingClientRect();
    const [x, y] = [sheet.left, sheet.top];
    return {
      left: (left - x) * scale,
      right: (right - x) * scale,
      top: (top - y) * scale,
      bottom: (bottom - y) * scale,
    };
  };
  const words = [...drawn.querySelectorAll('text')].map(boxOf);
  for (const piece of pieces) {
    const frame = document.createElementNS(SVG, 'path');
    frame.setAttribute('class', 'frame');
    frame.setAttribute('d', framePath(boxOf(piece), words));
    drawn.append(frame);
  }
}

/** Four sides, each as near as words allow. */
function framePath(box: Box, words: readonly Box[]): string {
  const down = words.map((word) => ({ from: word.left, to: word.right, at: word.top, end: word.bottom }));
  const across = words.map((word) => ({ from: word.top, to: word.bottom, at: word.left, end: word.right }));
  const wide = { from: box.left - NEAR, to: box.right + NEAR };
  const high = { from: box.top - NEAR, to: box.bottom + NEAR };
  const top = level(box.top, -1, wide, down);
  const bottom = level(box.bottom, 1, wide, down);
  const left = level(box.left, -1, high, across);
  const right = level(box.right, 1, high, across);
  const flat = (y: number) =>
    pieces(y, { from: left, to: right }, down).map(({ from, to }) => `M${fixed(from)} ${fixed(y)}H${fixed(to)}`);
  const upright = (x: number) =>
    pieces(x, { from: top, to: bottom }, across).map(({ from, to }) => `M${fixed(x)} ${fixed(from)}V${fixed(to)}`);
  return [...flat(top), ...flat(bottom), ...upright(left), ...upright(right)].join('');
}

interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** A word as a side sees it: its stretch along the side, and from where to where it lies across. */
interface Word extends Stretch {
  readonly at: number;
  readonly end: number;
}

/** The nearest place outside `edge` at which the side meets no word; `NEAR` where there is none. */
function level(edge: number, outward: 1 | -1, along: Stretch, words: readonly Word[]): number {
  for (let away = NEAR; away <= FAR; away += 1) {
    const at = edge + outward * away;
    if (!words.some((word) => isMet(word, at) && word.from < along.to && along.from < word.to)) return at;
  }
  return edge + outward * NEAR;
}

const isMet = ({ at, end }: Word, level: number): boolean => at - 1 < level && level < end + 1;

/** What is left of a side where words are in its way. */
function pieces(at: number, side: Stretch, words: readonly Word[]): readonly Stretch[] {
  return words
    .filter((word) => isMet(word, at))
    .reduce<readonly Stretch[]>(
      (left, word) =>
        left.flatMap(({ from, to }) => [
          { from, to: Math.min(to, word.from - ROOM) },
          { from: Math.max(from, word.to + ROOM), to },
        ]),
      [side],
    )
    .filter(({ from, to }) => to - from >= LEAST);
}

const fixed = (value: number): string => value.toFixed(1);
