/**
 * Where coils and leads lie. The solved path is walked from ground to hot and the coils are stacked in that order, hot on top;
 * each coil has the row of its start on its centre line and the row of its finish at the edge toward which the path leaves it.
 */
import { type CoilOutline, type Edge, outerHalfHeight, outermostTurn } from '../coil-spiral.ts';
import type { CoilPicture, EndPicture, LooseLeadPicture, MetalPicture, PickupPicture, TapPicture } from './picture.ts';
import type { Metrics } from './sheet.ts';

export interface CoilPlace {
  readonly coil: CoilPicture;
  readonly outline: CoilOutline;
  readonly finishAt: Edge;
  readonly firstPole: number;
  readonly lastPole: number;
  /** From a string to either pole of its pair, where it has two to each; else 0. */
  readonly pairAside: number;
}

export type Row = {
  readonly y: number;
  /** Where the lead begins to show its own colour. */
  readonly from: number;
  readonly net: string | undefined;
} & (
  | { readonly kind: 'end'; readonly place: CoilPlace; readonly which: 'start' | 'finish'; readonly end: EndPicture }
  | { readonly kind: 'tap'; readonly place: CoilPlace; readonly tap: TapPicture; readonly dotX: number }
  | { readonly kind: 'loose'; readonly loose: LooseLeadPicture }
);

export interface Layout {
  readonly places: readonly CoilPlace[];
  readonly rows: readonly Row[];
  readonly plate: { readonly top: number; readonly bottom: number };
  /** Row of drain wire and metalwork, where there is any. */
  readonly metalRow: number | undefined;
  readonly strings: readonly { readonly number: number; readonly x: number }[];
}

const PADDING = 20;
const TAP_ROW = 14;

export function layOut(picture: PickupPicture, metrics: Metrics, top: number): Layout {
  const strings = stringPositions(picture, metrics);
  const stack = [...picture.coils].reverse();
  const places: CoilPlace[] = [];
  for (const [index, coil] of stack.entries()) {
    const finishAt = finishEdge(coil, index, stack.length);
    const above = places.at(-1);
    const centre =
      above === undefined
        ? top + PADDING + extent({ coil, finishAt }, metrics, halfHeight(metrics)).above
        : above.outline.centre + centreDistance(above, { coil, finishAt }, picture, metrics);
    places.push(placeCoil(coil, finishAt, centre, strings, metrics));
  }
  const rows: Row[] = places.flatMap((place) => rowsOf(place, metrics)).sort((a, b) => a.y - b.y);
  const lowestBody = Math.max(top, ...places.map((place) => place.outline.centre + place.outline.outer));
  let lowest = rows.at(-1)?.y ?? lowestBody;
  for (const loose of picture.looseLeads) {
    lowest += 44;
    rows.push({ kind: 'loose', loose, y: lowest, from: metrics.joints, net: loose.net });
  }
  const metalRow = hasMetalRow(picture.metal) ? Math.max(lowest + metrics.rowGap, lowestBody + 6) : undefined;
  const bottom = Math.max(lowestBody + PADDING + 4, metalRow === undefined ? 0 : metalRow + PADDING);
  return { places, rows, plate: { top, bottom }, metalRow, strings };
}

/** A finish row lies at the turn itself where the turn already heads right on that side, else a bend below or above it. */
export function finishOffset({ coil, finishAt }: Pick<CoilPlace, 'coil' | 'finishAt'>, metrics: Metrics): number {
  const straight = coil.wound === undefined || (coil.wound === 'clockwise') === (finishAt === 'top');
  const turn = metrics.hole + 5 + metrics.turns * metrics.pitch;
  return (finishAt === 'top' ? -1 : 1) * (straight ? turn : metrics.bentRow);
}

function finishEdge(coil: CoilPicture, index: number, count: number): Edge {
  const entered = coil.enteredAsLaidOut ?? coil.entered;
  if (entered !== undefined) return entered === 'start' ? 'top' : 'bottom';
  // Nothing says which way the path runs: finishes face each other, as they do where two coils are linked.
  return index === 0 && count > 1 ? 'bottom' : 'top';
}

/** How far its rows reach above and below the centre line; both at least as far as `least`. */
function extent(place: Pick<CoilPlace, 'coil' | 'finishAt'>, metrics: Metrics, least = 0) {
  const { taps } = place.coil;
  const lowestTap = taps.length === 0 ? 0 : halfHeight(metrics) + TAP_ROW + (taps.length - 1) * metrics.rowGap;
  const onFinishSide = Math.max(least, Math.abs(finishOffset(place, metrics)));
  const onOtherSide = Math.max(least, lowestTap);
  return place.finishAt === 'top'
    ? { above: onFinishSide, below: onOtherSide }
    : { above: onOtherSide, below: onFinishSide };
}

const halfHeight = ({ hole, turns, pitch }: Metrics): number => outerHalfHeight(hole, turns, pitch);

function centreDistance(
  above: CoilPlace,
  below: Pick<CoilPlace, 'coil' | 'finishAt'>,
  picture: PickupPicture,
  metrics: Metrics,
): number {
  const outer = halfHeight(metrics);
  const bar = picture.bar === undefined ? 0 : 2 * outer + (metrics.captions ? 102 : 86);
  const beneath = below.coil.beneath || above.coil.beneath ? 2 * outer + 40 : 0;
  const captions = metrics.captions ? (above.coil.captions.length + 1) * 18 + 14 : 0;
  const rows = extent(above, metrics).below + metrics.rowGap + extent(below, metrics).above;
  const bodies = extent(above, metrics, outer).below + extent(below, metrics, outer).above + 28;
  return Math.max(bar, beneath, captions, rows, bodies);
}

/** Of the distance of two strings. */
const PAIR_ASIDE = 0.24;

function placeCoil(
  coil: CoilPicture,
  finishAt: Edge,
  centre: number,
  strings: Layout['strings'],
  metrics: Metrics,
): CoilPlace {
  const { hole: inner, turns, pitch } = metrics;
  const served = strings.filter(
    ({ number }) => coil.serves === undefined || (number >= coil.serves.from && number <= coil.serves.to),
  );
  const [firstString, lastString] = [served.at(0)?.x ?? metrics.firstPole, served.at(-1)?.x ?? metrics.lastPole];
  const isPaired = served.length > 1 && coil.poles.count === 2 * served.length;
  const aside = isPaired ? (PAIR_ASIDE * (lastString - firstString)) / (served.length - 1) : 0;
  const [firstPole, lastPole] = [firstString - aside, lastString + aside];
  const outline: CoilOutline = {
    left: firstPole - metrics.poleToLeftEnd,
    right: lastPole + metrics.poleToRightEnd,
    centre,
    inner,
    outer: halfHeight(metrics),
    turns,
    pitch,
  };
  return { coil, outline, finishAt, firstPole, lastPole, pairAside: aside };
}

function rowsOf(place: CoilPlace, metrics: Metrics): readonly Row[] {
  const { coil, outline, finishAt } = place;
  const finishFrom = outline.right + outermostTurn(outline) + 12;
  const end = (which: 'start' | 'finish', y: number, from: number): Row => {
    return { kind: 'end', place, which, end: coil[which], y, from, net: coil[which].net };
  };
  const side = finishAt === 'top' ? 1 : -1;
  const taps = coil.taps.map(
    (tap, index): Row => ({
      kind: 'tap',
      place,
      tap,
      y: outline.centre + side * (outline.outer + TAP_ROW + index * metrics.rowGap),
      from: finishFrom,
      net: tap.net,
      dotX: outline.right - index * 28,
    }),
  );
  return [
    end('start', outline.centre, outline.right + 8),
    end('finish', outline.centre + finishOffset(place, metrics), finishFrom),
    ...taps,
  ];
}

function stringPositions({ strings, coils }: PickupPicture, { firstPole, lastPole }: Metrics): Layout['strings'] {
  const count = Math.min(
    Math.max(strings ?? Math.max(...coils.map(({ poles }) => (poles.form === 'blade' ? 0 : poles.count)), 0), 0),
    24,
  );
  const step = count > 1 ? (lastPole - firstPole) / (count - 1) : 0;
  // The lowest string has the highest number and stands at the left.
  return Array.from({ length: count }, (_, index) => ({ number: count - index, x: firstPole + index * step }));
}

function hasMetalRow(metal: readonly MetalPicture[]): boolean {
  return metal.some(({ net, lead }) => net !== undefined || lead !== undefined);
}
