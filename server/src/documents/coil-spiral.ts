/**
 * The winding as it is drawn: a spiral of two or three turns that stands for all, from the inner end (start) on the centre line
 * to the outer end (finish). A clockwise spiral turns clockwise on paper; the counterclockwise one is its mirror image.
 */
import type { Point } from './labels.ts';
import { d } from './svg.ts';

export interface CoilOutline {
  /** Centres of the round ends. */
  readonly left: number;
  readonly right: number;
  readonly centre: number;
  /** Half height of the hole, and of the whole body. */
  readonly inner: number;
  readonly outer: number;
  readonly turns: 2 | 3;
  /** Distance from turn to turn. */
  readonly pitch: number;
}

export type Edge = 'top' | 'bottom';

export interface Spiral {
  /** From the start lead to where the finish lead begins. */
  readonly path: string;
  /** Where the finish leaves. */
  readonly finish: Point;
  /** Heights of the straights on which the path is marked: one above, one below the centre, both on the second turn. */
  readonly marks: { readonly above: number; readonly below: number };
  /** Half width of the little arc at the inner end, and its leftmost point. */
  readonly innerEnd: { readonly radius: number; readonly left: number };
}

/** Between body and hole the first and last turns keep this distance to the edges. */
const MARGIN = 5;
const FILLET = 8;

/** Half height of the outermost straight. */
export function outermostTurn({ inner, turns, pitch }: CoilOutline): number {
  return inner + MARGIN + turns * pitch;
}

/** Height of the body that holds these turns. */
export function outerHalfHeight(inner: number, turns: number, pitch: number): number {
  return inner + turns * pitch + 2 * MARGIN;
}

/**
 * The spiral, leaving to the right: the start at `startX`, the finish at `finishX`. `finishRow` is the distance from the centre
 * line to the row the finish runs in where the turn has to bend into it; a turn that already heads right leaves straight.
 */
export function spiral(
  outline: CoilOutline,
  {
    clockwise,
    finishAt,
    startX,
    finishX,
    finishRow,
  }: {
    readonly clockwise: boolean;
    readonly finishAt: Edge;
    readonly startX: number;
    readonly finishX: number;
    readonly finishRow: number;
  },
): Spiral {
  const { left, right, centre, inner, turns, pitch } = outline;
  // In the coil's own picture the turn is clockwise; `y` mirrors it for the other rotation.
  const side = clockwise ? 1 : -1;
  const sweep = clockwise ? 1 : 0;
  const y = (offset: number) => centre + side * offset;
  const first = inner + MARGIN;
  const innerRadius = first / 2;
  const steps = [
    d`M${startX} ${centre}H${right + 5}A${innerRadius} ${innerRadius} 0 0 ${sweep} ${right + 5} ${y(-first)}H${right}`,
  ];
  let height = first;
  for (let turn = 0; turn < turns; turn += 1) {
    const under = height + pitch / 2;
    const next = height + pitch;
    steps.push(arc((height + under) / 2, sweep, right, y(under)), d`H${left}`);
    steps.push(arc((under + next) / 2, sweep, left, y(-next)), d`H${right}`);
    height = next;
  }
  const headsRightAt: Edge = clockwise ? 'top' : 'bottom';
  const [onStartSide, onOtherSide] = [first + pitch, first + 1.5 * pitch];
  const marks = {
    above: centre - (clockwise ? onStartSide : onOtherSide),
    below: centre + (clockwise ? onOtherSide : onStartSide),
  };
  const innerEnd = { radius: innerRadius, left: right + 5 - innerRadius };
  if (finishAt === headsRightAt) {
    steps.push(d`H${finishX}`);
    return { path: steps.join(''), finish: { x: finishX, y: y(-height) }, marks, innerEnd };
  }
  const row = y(finishRow);
  steps.push(arc(height, sweep, right + height, centre));
  steps.push(d`V${row - side * FILLET}`);
  steps.push(d`A${FILLET} ${FILLET} 0 0 ${1 - sweep} ${right + height + FILLET} ${row}H${finishX}`);
  return { path: steps.join(''), finish: { x: finishX, y: row }, marks, innerEnd };
}

/** Closed turns without a direction, for a coil whose winding nobody saw: start from the innermost, finish from the outermost. */
export function closedTurns(
  outline: CoilOutline,
  { finishAt, startX, finishX }: { readonly finishAt: Edge; readonly startX: number; readonly finishX: number },
): Pick<Spiral, 'path' | 'finish' | 'marks'> {
  const { left, right, centre, inner, turns, pitch } = outline;
  const first = inner + MARGIN;
  const rings: string[] = [];
  for (let turn = 0; turn <= turns; turn += 1) rings.push(stadium(left, right, centre, first + turn * pitch));
  const edge = centre + (finishAt === 'top' ? -1 : 1) * outermostTurn(outline);
  const ends = d`M${startX} ${centre}H${right + first}M${right} ${edge}H${finishX}`;
  const marks = { above: centre - first - pitch, below: centre + first + pitch };
  return { path: rings.join('') + ends, finish: { x: finishX, y: edge }, marks };
}

/** A closed outline with round ends. */
export function stadium(left: number, right: number, centre: number, half: number): string {
  return d`M${left} ${centre - half}H${right}A${half} ${half} 0 0 1 ${right} ${centre + half}H${left}A${half} ${half} 0 0 1 ${left} ${centre - half}Z`;
}

/** Body of the coil with its hole. */
export function coilBody({ left, right, centre, inner, outer }: CoilOutline): string {
  return stadium(left, right, centre, outer) + stadium(left, right, centre, inner);
}

/** Height of the middle turn's straight at an edge, where a tap leaves. */
export function middleTurn({ inner, turns, pitch, centre }: CoilOutline, edge: Edge, clockwise: boolean): number {
  const whole = inner + MARGIN + Math.floor(turns / 2) * pitch;
  const startsAt: Edge = clockwise ? 'top' : 'bottom';
  return centre + (edge === 'top' ? -1 : 1) * (edge === startsAt ? whole : whole + pitch / 2);
}

function arc(radius: number, sweep: number, x: number, y: number): string {
  return d`A${radius} ${radius} 0 0 ${sweep} ${x} ${y}`;
}
