/** A few lines of words that belong to a point: put where nothing lies, as near as may be, with a leader to the point. */
import { type Box, isInside, overlap, type Point, type Run, type Size, textBox, textLine } from '../labels.ts';
import { d, path, type SvgNode } from '../svg.ts';

export interface CalloutLine {
  readonly runs: readonly Run[];
  readonly size: Size;
}

export interface Callout {
  readonly nodes: readonly SvgNode[];
  /** What its words fill. */
  readonly boxes: readonly Box[];
}

interface Placed extends Callout {
  /** Points along its leader. */
  readonly leader: readonly Point[];
}

const LINE_HEIGHT = 18;
const AWAY = 22;
const CROSSING = 1000;

/**
 * `prefer` is the side that is tried first at each distance; a leader runs through `texts` only where there is no other place. `undefined` where there is no place at all.
 */
export function callout(
  at: Point,
  lines: readonly CalloutLine[],
  {
    prefer,
    within,
    obstacles,
    texts,
  }: { prefer: 'left' | 'right'; within: Box; obstacles: readonly Box[]; texts: readonly Box[] },
): Callout | undefined {
  const sides = prefer === 'left' ? (['left', 'right'] as const) : (['right', 'left'] as const);
  const candidates = sides
    .flatMap((side, order) =>
      offsets(within).flatMap(({ dx, dy }) => {
        const place = placed(at, lines, side, dx, at.y + dy);
        const isFree = place.boxes.every(
          (box) => isInside(box, within) && !obstacles.some((other) => overlap(box, other)),
        );
        const crosses = place.leader.some((point) =>
          texts.some((box) => isInside({ ...point, width: 0, height: 0 }, box)),
        );
        return isFree ? [{ place, cost: Math.hypot(dx, dy) + 18 * order + (crosses ? CROSSING : 0) }] : [];
      }),
    )
    .sort((a, b) => a.cost - b.cost);
  return candidates[0]?.place;
}

function offsets({ height }: Box): readonly { dx: number; dy: number }[] {
  const steps = Math.ceil(height / 8);
  return [AWAY, AWAY + 20, AWAY + 44, AWAY + 76, AWAY + 120].flatMap((dx) =>
    Array.from({ length: 2 * steps }, (_, index) => ({ dx, dy: 8 * (index - steps) })),
  );
}

function placed(at: Point, lines: readonly CalloutLine[], side: 'left' | 'right', dx: number, y: number): Placed {
  const way = side === 'left' ? -1 : 1;
  const anchor = side === 'left' ? 'end' : 'start';
  const x = at.x + way * dx;
  const spots = lines.map((_, index) => ({ x, y: y + LINE_HEIGHT * index, anchor }) as const);
  const texts = lines.map(({ runs, size }, index) => textBox(runs, spots[index] ?? { x, y, anchor }, size));
  const startY = y - 5;
  const length = Math.hypot(x - way * 4 - at.x, startY - at.y);
  const reach = { x: at.x + ((x - way * 14 - at.x) * 7) / length, y: at.y + ((startY - at.y) * 7) / length };
  return {
    nodes: [
      path('w1', d`M${x - way * 6} ${startY}h${-way * 8}L${reach.x} ${reach.y}`),
      ...lines.map(({ runs, size }, index) => textLine(runs, spots[index] ?? { x, y, anchor }, { size, rim: true })),
    ],
    boxes: texts,
    leader: LEADER_SHARES.map((share) => ({
      x: reach.x + share * (x - way * 14 - reach.x),
      y: reach.y + share * (startY - reach.y),
    })),
  };
}

const LEADER_SHARES = Array.from({ length: 13 }, (_, index) => index / 12);
