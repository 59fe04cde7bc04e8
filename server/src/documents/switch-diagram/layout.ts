/** Where lugs, lanes and labels of one switch stand. Each net runs in a lane of its own above its row and drops straight into its lugs. */
import type { DrawingWidth } from '../drawing-sheet.ts';
import type { ContactPicture, LugPicture, NetPicture, SwitchBody } from './picture.ts';

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
  readonly contacts: readonly PlacedContact[];
}

/** Closed contacts below the lugs, on each row at a level of their own; between rows left of all lugs, so that they pass none. */
export interface PlacedContact {
  readonly joins: boolean;
  readonly rows: readonly { readonly lugs: readonly PlacedLug[]; readonly low: number }[];
  readonly upright: number | undefined;
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
  narrow: { margin: 16, labels: 116, left: 144, right: 472, inset: 34, widest: 58 },
  tight: { margin: 10, labels: 108, left: 134, right: 414, inset: 32, widest: 54 },
} as const;

const LANE = 18;
const ROW_GAP = 26;
/** From the lowest lane to the lugs, and from the lugs to what is below their contacts. */
const TO_LUGS = 32;
const BELOW_LUGS = 48;
const TO_CONTACTS = 30;
const CONTACT_STEP = 7;
const JUMPER_STEP = 14;
/** A dashed end comes down beside what is soldered there. */
export const BESIDE = 6;

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
  const placing = contactsPlaced(body, rowOf, firstLug);
  const runs: Run[] = [];
  let y = top;
  body.rows.forEach((row, index) => {
    const here = body.nets.filter((net) => rowsOf(net).includes(index));
    const onRow = (net: NetPicture) => row.filter(({ terminal }) => net.lugs.includes(terminal));
    const isHome = (net: NetPicture) => rowsOf(net)[0] === index;
    const height = (net: NetPicture) => LANE * Math.max(1, isHome(net) ? net.entries.length : 1);
    // What would be mended has a lane of its own even where something comes straight in.
    const isStraight = (net: NetPicture) => !net.mended && onRow(net).length === 1 && onRow(net)[0] === row[0];
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
      const beside = net.mended ? BESIDE : 0;
      const placed = onRow(net)
        .flatMap(({ terminal }) => lugs.get(terminal) ?? [])
        .map((lug) => ({ ...lug, x: lug.x - beside }));
      runs.push({ net, y: laneAt.get(net) ?? lugY, lugs: placed, isHome: isHome(net), jumper: jumperOf.get(net) });
    }
    const straight = here.filter((net) => isStraight(net) && isHome(net));
    const labelled = Math.max(0, ...straight.map((net) => lugY + LANE * net.entries.length));
    y = Math.max(lugY + BELOW_LUGS + placing.depthOf(index), labelled + 8) + ROW_GAP;
  });
  const contacts = placing.placed(lugs);
  return { margin, left, right, top, bottom: y - ROW_GAP + 8, labels, pitch, lugs, runs, contacts };
}

/** Levels of the closed contacts on each row: those that would lie on each other stand below each other. */
function contactsPlaced({ rows, contacts }: SwitchBody, rowOf: ReadonlyMap<string, number>, firstLug: number) {
  const rowsOf = ({ lugs }: ContactPicture) => [...new Set(lugs.flatMap((lug) => rowOf.get(lug) ?? []))];
  const across = contacts.filter((contact) => rowsOf(contact).length > 1);
  const spanOn = (contact: ContactPicture, row: number) => {
    const columns = contact.lugs.flatMap((lug) => {
      const column = rows[row]?.findIndex(({ terminal }) => terminal === lug) ?? -1;
      return column < 0 ? [] : [column];
    });
    return { from: across.includes(contact) ? -1 : Math.min(...columns), to: Math.max(...columns) };
  };
  const levels = rows.map((_, row) => {
    const levelOf = new Map<ContactPicture, number>();
    for (const contact of contacts.filter((each) => rowsOf(each).includes(row))) {
      const own = spanOn(contact, row);
      const taken = [...levelOf].flatMap(([other, level]) => {
        const { from, to } = spanOn(other, row);
        return from <= own.to && own.from <= to ? [level] : [];
      });
      levelOf.set(contact, [...taken.keys(), taken.length].find((level) => !taken.includes(level)) ?? 0);
    }
    return levelOf;
  });
  return {
    depthOf: (row: number) => CONTACT_STEP * Math.max(0, ...(levels[row]?.values() ?? [])),
    placed: (lugs: ReadonlyMap<string, PlacedLug>): readonly PlacedContact[] =>
      contacts.map((contact) => ({
        joins: contact.joins,
        upright: across.includes(contact) ? firstLug - 14 - 6 * across.indexOf(contact) : undefined,
        rows: rowsOf(contact).map((row) => {
          const own = contact.lugs.flatMap((lug) => (rowOf.get(lug) === row ? (lugs.get(lug) ?? []) : []));
          const level = levels[row]?.get(contact) ?? 0;
          return { lugs: own, low: Math.max(...own.map(({ y }) => y)) + TO_CONTACTS + CONTACT_STEP * level };
        }),
      })),
  };
}

/** Where the n-th entry of a run stands. */
export const entryY = ({ y }: Run, index: number): number => y + LANE * index;
