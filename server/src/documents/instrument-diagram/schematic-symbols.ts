/** Circuit symbols after IEC 60617 (shapes recalled) in the two weights of a schematic: live 3 px, the rest 1 px. */
import { circle, d, group, path, rect, type SvgNode } from '../svg.ts';

export const weight = (live: boolean): string => (live ? 'on' : 'off');

export const COIL_LENGTH = 72;

/** Inductor of four arcs with a core line, standing, its upper end at the point; a dot at its start. */
export function standingCoil(
  x: number,
  top: number,
  live: boolean,
  startAt: 'top' | 'bottom' | undefined,
): readonly SvgNode[] {
  const arcs = 'a9 9 0 0 1 0 18'.repeat(4);
  return [
    path(weight(live), d`M${x} ${top}` + arcs),
    path(weight(live), d`M${x - 8} ${top}v${COIL_LENGTH}`),
    ...(startAt === undefined
      ? []
      : [circle('solid', x + 15, startAt === 'top' ? top + 3 : top + COIL_LENGTH - 3, 2.6)]),
  ];
}

/** A resistor or a capacitor in the room of a coil. */
export const standingPart = (symbol: 'resistor' | 'capacitor', x: number, top: number, live: boolean) => {
  const gap = symbol === 'resistor' ? 28 : 4.5;
  const middle = top + COIL_LENGTH / 2;
  return [
    path(weight(live), d`M${x} ${top}V${middle - gap}M${x} ${middle + gap}V${top + COIL_LENGTH}`),
    symbol === 'resistor' ? standingResistor(x, middle - gap, live) : plates(x, middle, live),
  ];
};

/** Earth; 22 high from the point. */
export function earthAt(x: number, y: number, live: boolean): SvgNode {
  return path(weight(live), d`M${x} ${y}v10M${x - 11} ${y + 10}h22M${x - 7} ${y + 16}h14M${x - 3} ${y + 22}h6`);
}

export const standingResistor = (x: number, top: number, live: boolean): SvgNode =>
  rect(weight(live), x - 9, top, 18, 56);

/** Where the track of a no-load control is cut: the wiper that has come past it lies on nothing. */
export const trackEnd = (x: number, middle: number, live: boolean): readonly SvgNode[] => [
  path('gap', d`M${x - 12} ${middle}h24`),
  path(weight(live), d`M${x - 9} ${middle - 4}h18M${x - 9} ${middle + 4}h18`),
];

export const lyingResistor = (left: number, y: number, live: boolean): SvgNode =>
  rect(weight(live), left, y - 9, 56, 18);

/** Plates of a capacitor across a standing lead, 9 apart. */
export function plates(x: number, middle: number, live: boolean): SvgNode {
  return path(weight(live), d`M${x - 15} ${middle - 4.5}h30M${x - 15} ${middle + 4.5}h30`);
}

/** Arrow of an adjustable resistor, aslant over it. */
export function adjustment(x: number, middle: number): readonly SvgNode[] {
  return [
    path('w2', d`M${x - 22} ${middle + 20}L${x + 20} ${middle - 22}`),
    path('solid', d`M${x + 24} ${middle - 26}l-11 4l7 7Z`),
  ];
}

/** Arrowhead of a wiper that comes from the right. */
export const wiperHead = (x: number, y: number): SvgNode => path('solid', d`M${x} ${y}l11 -5v10Z`);

export const wiperHeadFromLeft = (x: number, y: number): SvgNode => path('solid', d`M${x} ${y}l-11 -5v10Z`);

/** Make contact between two points of one row. */
export function contactAt(
  [left, right]: readonly [number, number],
  y: number,
  closed: boolean,
  live: boolean,
): SvgNode {
  const blade = closed ? d`M${left} ${y}H${right}` : d`M${left} ${y}L${right - 6} ${y - 15}`;
  return group({}, path(weight(live), blade), circle('open', left, y, 4), circle('open', right, y, 4));
}

/** Jack: the spring of the tip ends at the point's right, the sleeve stands beside it and goes to ground. */
export function jackAt(x: number, y: number, live: boolean): readonly SvgNode[] {
  return [
    path(weight(live), d`M${x} ${y}h14l8 9l8 -9`),
    path(weight(live), d`M${x + 40} ${y - 12}v44`),
    earthAt(x + 40, y + 32, live),
  ];
}
