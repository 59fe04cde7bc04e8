/** The marks that drawings share: poles, arrows, joints, leads; the earth after IEC 60617 (shape recalled). */

import type { ColourCode } from '../../../grammar/values/iec60757.ts';
import type { PoleUp } from '../model/coil.ts';
import { circle, d, path, rect, type SvgElement, type SvgNode } from './svg.ts';

export type Polarity = PoleUp | undefined;
export type PoleForm = 'slug' | 'screw' | 'rod' | 'blade';

/** A pole seen from the strings: dot = field toward you (north up), cross = field away (south up), empty = unknown. */
export function pole(
  x: number,
  y: number,
  r: number,
  polarity: Polarity,
  form: PoleForm = 'slug',
): readonly SvgElement[] {
  return [
    circle('open', x, y, r),
    ...(form === 'screw' ? [circle('w1', x, y, r * 0.72)] : []),
    ...(form === 'rod' && r > 6 ? [circle('tint', x, y, r - 2.5), circle('w1', x, y, r - 4.2)] : []),
    ...fieldMark(x, y, r, polarity),
  ];
}

/** A blade: one bar with three field marks. */
export function blade(left: number, right: number, y: number, half: number, polarity: Polarity): readonly SvgElement[] {
  const middle = (left + right) / 2;
  const inset = Math.min(24, (right - left) / 4);
  return [
    rect('open', left, y - half, right - left, 2 * half, 2),
    ...[left + inset, middle, right - inset].flatMap((x) => fieldMark(x, y, half + 1, polarity)),
  ];
}

/** Filled arrowhead on a line: the path from ground to hot. */
export function flow(x: number, y: number, direction: 'right' | 'left', scale = 1): SvgElement {
  const way = direction === 'right' ? scale : -scale;
  return path('flow', d`M${x - 6 * way} ${y - 5 * scale}L${x + 7 * way} ${y}L${x - 6 * way} ${y + 5 * scale}Z`);
}

/** Open arrow round the left end of a coil: wound, start to finish. */
export function woundArrow(
  centreX: number,
  centreY: number,
  radius: number,
  clockwise: boolean,
): readonly SvgElement[] {
  const angle = 0.594;
  const [dx, dy] = [radius * Math.cos(angle), radius * Math.sin(angle)];
  const x = centreX - dx;
  const [from, to] = clockwise ? [centreY + dy, centreY - dy] : [centreY - dy, centreY + dy];
  const heading = clockwise ? -Math.PI / 2 + angle : Math.PI / 2 - angle;
  const tip = (turn: number) => ({ x: x - 10 * Math.cos(heading + turn), y: to - 10 * Math.sin(heading + turn) });
  const [one, other] = [tip(0.5), tip(-0.5)];
  return [
    path('w2', d`M${x} ${from}A${radius} ${radius} 0 0 ${clockwise ? 1 : 0} ${x} ${to}`),
    path('w2', d`M${one.x} ${one.y}L${x} ${to}L${other.x} ${other.y}`),
  ];
}

export const joint = (x: number, y: number): SvgElement => circle('solid', x, y, 5);
export const terminal = (x: number, y: number): SvgElement => circle('open', x, y, 6);

/** A lead: two edges of ink keep every colour legible on every ground. */
export interface LeadLook {
  readonly base?: ColourCode;
  readonly stripe?: ColourCode | undefined;
  readonly bare?: boolean;
  readonly unseen?: boolean;
}

export function lead(route: string, look: LeadLook): readonly SvgElement[] {
  if (look.bare) return [path('halo', route), path('edge', route), path('core bare', route), path('lay', route)];
  if (look.unseen) return [path('halo', route), path('hid', route)];
  if (look.base === undefined) return [path('halo', route), path('w3', route)];
  const stripes = look.stripe === undefined ? [] : [path(`core second ${look.stripe}`, route), path('seam', route)];
  return [path('halo', route), path('edge', route), path(`core ${look.base}`, route), ...stripes];
}

/** Dimension line between two heights, its arrowheads touching them, open for `gap` px round `middle`. */
export function dimension(x: number, top: number, bottom: number, gap: number, middle: number): readonly SvgElement[] {
  const [upper, lower] = [middle - gap / 2, middle + gap / 2];
  if (upper - top < 9 || bottom - lower < 9) return [];
  return [
    path('w1', d`M${x} ${top + 6}V${upper}M${x} ${lower}V${bottom - 6}`),
    path('solid', d`M${x} ${top}l-3 9h6ZM${x} ${bottom}l-3 -9h6Z`),
  ];
}

/** A vector in a verdict: a bold line with a filled head, from `from` to `to` (either way). */
export function vector(from: number, to: number, y: number): readonly SvgElement[] {
  const way = Math.sign(to - from);
  if (Math.abs(to - from) < 3) return [path('w3', d`M${from} ${y - 5}V${y + 5}`)];
  const head = Math.min(12, Math.abs(to - from));
  return [
    path('w3', d`M${from} ${y}H${to - way * (head - 2)}`),
    path('solid', d`M${to} ${y}L${to - way * head} ${y - 5}V${y + 5}Z`),
  ];
}

/** Earth, its stem beginning at the point. */
export function earth(x: number, y: number): SvgElement {
  return path(
    'w3',
    d`M${x} ${y}V${y + 14}M${x - 13} ${y + 14}H${x + 13}M${x - 8} ${y + 20}H${x + 8}M${x - 3} ${y + 26}H${x + 3}`,
  );
}

/** Numbered balloon of a finding. */
export function balloon(x: number, y: number, number: number, r = 13): readonly SvgNode[] {
  return [
    circle('tag', x, y, r),
    { name: 'text', attributes: { class: 'tagn', x, y: y + 4.5 }, children: [String(number)] },
  ];
}

function fieldMark(x: number, y: number, r: number, polarity: Polarity): readonly SvgElement[] {
  const arm = r * 0.53;
  if (polarity === 'north-up') return [circle('solid', x, y, Math.max(2, r * 0.28))];
  if (polarity === 'south-up')
    return [path('w2', d`M${x - arm} ${y - arm}L${x + arm} ${y + arm}M${x + arm} ${y - arm}L${x - arm} ${y + arm}`)];
  return [];
}
