/** Where lugs, lanes and labels of one switch stand. Each net runs in a lane of its own above its row and drops straight into its lugs. */
import type { DrawingWidth } from '../drawing-sheet.ts';
import type { LugPicture, NetPicture, SwitchBody } from './picture.ts';

export interface BodyLayout {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly margin: number;
  /** Where labels end; leads begin 8 px behind. */
  readonly labels: number;
  readonly pitch: number;
  readonly lugs: ReadonlyMap<string, PlacedLug>;
  readonly runs: readonly Run[];
}

export interface PlacedLug extends LugPicture {
  readonly x: number;
  readonly y: number;
}

/** The part of a net that lies on one row. */
export interface Run {
  readonly net: NetPicture;
  readonly y: number;
  readonly lugs: readonly PlacedLug[];
  /** Its labels stand here. */
  readonly isHome: boolean;
  /** Where it meets its other rows; `undefined` where it has none. */
  readonly jumper: number | undefined;
}

const METRICS = {
  wide: { margin: 32, labels: 196, left: 232, right: 928, inset: 44, widest: 96 },
  narrow: { margin: 16, labels: 116, left: 144, right: 472, inset: 26, widest: 58 },
} as const;

const LANE = 18;
const ROW_GAP = 26;
/** From the lowest lane to the lugs, and from the lugs to what is below their contacts. */
const TO_LUGS = 32;
const BELOW_LUGS = 44;
const JUMPER_STEP = 14;

export function layOutBody(body: SwitchBody, top: number, size: DrawingWidth): BodyLayout {
  const { margin, labels, left, right: farthest, inset, widest } = METRICS[size];
  const rowOf = new Map(body.rows.flatMap((row, index) => row.map(({ terminal }) => [terminal, index] as const)));
  const rowsOf = (net: NetPicture) =>
    [...new Set(net.lugs.flatMap((lug) => rowOf.get(lug) ?? []))].sort((a, b) => a - b);
  const crossing = body.nets.filter((net) => rowsOf(net).length > 1);
  const jumperOf = new Map(crossing.map((net, index) => [net, left + 16 + JUMPER_STEP * index]));
  const firstLug = left + inset + JUMPER_STEP * crossing.length;
  const columns = Math.max(2, ...body.rows.map((row) => row.length));
  const pitch = Math.min(widest, (farthest - inset - firstLug) / (columns - 1));
  const right = Math.min(farthest, firstLug + (columns - 1) * pitch + inset);
  const lugs = new Map<string, PlacedLug>();
  const runs: Run[] = [];
  let y = top;
  body.rows.forEach((row, index) => {
    const here = body.nets.filter((net) => rowsOf(net).includes(index));
    const onRow = (net: NetPicture) => row.filter(({ terminal }) => net.lugs.includes(terminal));
    const isHome = (net: NetPicture) => rowsOf(net)[0] === index;
    const height = (net: NetPicture) => LANE * Math.max(1, isHome(net) ? net.entries.length : 1);
    const isStraight = (net: NetPicture) => onRow(net).length === 1 && onRow(net)[0] === row[0];
    const reach = (net: NetPicture) => Math.max(...onRow(net).map((lug) => row.indexOf(lug)));
    const lanes = here.filter((net) => !isStraight(net)).sort((a, b) => reach(b) - reach(a));
    const laneAt = new Map<NetPicture, number>();
    let at = y + 14;
    for (const net of lanes) {
      laneAt.set(net, at);
      at += height(net);
    }
    const lugY = at - (lanes.length > 0 ? LANE : 0) + (lanes.length > 0 ? TO_LUGS : 10);
    row.forEach((lug, column) => {
      lugs.set(lug.terminal, { ...lug, x: firstLug + column * pitch, y: lugY });
    });
    for (const net of here) {
      const placed = onRow(net).flatMap(({ terminal }) => lugs.get(terminal) ?? []);
      runs.push({ net, y: laneAt.get(net) ?? lugY, lugs: placed, isHome: isHome(net), jumper: jumperOf.get(net) });
    }
    const straight = here.filter((net) => isStraight(net) && isHome(net));
    const labelled = Math.max(0, ...straight.map((net) => lugY + LANE * net.entries.length));
    y = Math.max(lugY + BELOW_LUGS, labelled + 8) + ROW_GAP;
  });
  return { margin, left, right, top, bottom: y - ROW_GAP + 8, labels, pitch, lugs, runs };
}

/** Where the n-th entry of a run stands. */
export const entryY = ({ y }: Run, index: number): number => y + LANE * index;
