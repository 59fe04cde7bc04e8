/** Rows from the coils to the output: contacts with the positions that close them, joints of a series, earths, the bus. */
import type { Language } from '../../words/languages/language.ts';
import { part } from '../drawing-sheet.ts';
import { type Box, type Label, wherePossible, wordsAt } from '../labels.ts';
import { circle, d, path, rect, type SvgNode } from '../svg.ts';
import { fitText } from '../text-width.ts';
import {
  type CoilPlace,
  columnsRight,
  contactsIn,
  type Layout,
  type PickupPlace,
  type Row,
  SECOND_CONTACT,
} from './layout.ts';
import type { Metrics } from './metrics.ts';
import type { Exit, Schematic } from './schematic-picture.ts';
import { contactAt, earthAt, lyingResistor, weight } from './schematic-symbols.ts';

/** Straight wires; kept apart until all are known, so that live ones lie on top and crossings show as such. */
interface Wire {
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  readonly live: boolean;
}

export interface SelectorDrawn {
  readonly nodes: readonly SvgNode[];
  /** Where rows meet the bus. */
  readonly busRows: readonly { readonly y: number; readonly live: boolean }[];
  /** Upright wires, which no word may stand on. */
  readonly uprights: readonly Box[];
}

interface Drawing {
  readonly wires: Wire[];
  readonly nodes: SvgNode[];
  readonly busRows: { y: number; live: boolean }[];
  readonly contacts: { y: number; closed: boolean }[];
  readonly rails: Map<string, { y: number; live: boolean; x: number }[]>;
  readonly schematic: Schematic;
  readonly metrics: Metrics;
}

export function drawSelector(layout: Layout, schematic: Schematic, metrics: Metrics, t: Language): SelectorDrawn {
  const drawing: Drawing = { wires: [], nodes: [], busRows: [], contacts: [], rails: new Map(), schematic, metrics };
  for (const place of layout.pickups) {
    drawLinks(place, drawing);
    joinRows(place, drawing);
    for (const row of place.rows) if (row.main) leadOut(place, row, drawing);
  }
  [...drawing.rails.values()].forEach((ends, index) => {
    const x = metrics.rail + index * metrics.railStep;
    const ys = ends.map(({ y }) => y);
    const live = ends.some((each) => each.live);
    drawing.wires.push({ from: [x, Math.min(...ys)], to: [x, Math.max(...ys)], live });
    for (const end of ends) drawing.wires.push({ from: [end.x, end.y], to: [x, end.y], live: end.live });
    if (ends.length > 2) drawing.nodes.push(...ends.map(({ y }) => circle('solid', x, y, 4)));
  });
  const header = drawing.contacts.length === 0 ? [] : selectorHeader(drawing, t);
  const uprights = drawing.wires.flatMap(({ from, to }) =>
    from[0] === to[0]
      ? [{ x: from[0] - 4, y: Math.min(from[1], to[1]), width: 8, height: Math.abs(from[1] - to[1]) }]
      : [],
  );
  return { nodes: [...drawWires(drawing.wires), ...header, ...drawing.nodes], busRows: drawing.busRows, uprights };
}

/** The bus with the height at which it feeds the controls. */
export function drawBus(rows: SelectorDrawn['busRows'], line: number, x: number, sounds: boolean): readonly SvgNode[] {
  if (rows.length === 0) return [];
  const span = (heights: readonly number[]) => d`M${x} ${Math.min(...heights)}V${Math.max(...heights)}`;
  const live = rows.filter((row) => row.live).map(({ y }) => y);
  const heights = [...rows.map(({ y }) => y), line];
  const [top, bottom] = [Math.min(...heights), Math.max(...heights)];
  // Three lines meet where a row comes in between, and where one goes straight on to the controls.
  const joints = rows.map(({ y }) => y).filter((y) => (y > top && y < bottom) || (y === line && top < bottom));
  if (top === bottom) return [];
  return [
    path('off', span(heights)),
    ...(live.length > 0 && sounds ? [path('on', span([...live, line]))] : []),
    ...[...new Set(joints)].map((y) => circle('solid', x, y, 4)),
  ];
}

/** The coil that hangs on a row from above, where the row lies between two coils. */
function linkedBelow({ coils }: PickupPlace, row: Row): CoilPlace | undefined {
  const upper = coils.findIndex(
    ({ coil, top }) => coil.bottom === row.node && row.foot && top < row.y && row.y - top < 100,
  );
  const lower = upper < 0 ? undefined : coils[upper + 1];
  return lower?.coil.top === row.node ? lower : undefined;
}

/** The pieces between linked coils, with a joint where something leaves them. */
function drawLinks(place: PickupPlace, { wires, nodes, metrics }: Drawing): void {
  for (const row of place.rows) {
    const below = linkedBelow(place, row);
    if (below === undefined) continue;
    const above = place.coils[place.coils.indexOf(below) - 1];
    const live = below.coil.live && (above?.coil.live ?? false);
    wires.push({ from: [metrics.coil, row.y], to: [metrics.coil, below.top - 10], live });
    const exits = place.block.nodes.get(row.node)?.exits ?? [];
    if (exits.length > 0 || !row.main)
      nodes.push(circle('solid', metrics.coil, row.y, exits.some((exit) => exit.live) ? 4.5 : 3.5));
  }
}

/** Rows of one node besides the first are joined to it right of the coils; those under a coil may have an earth of their own. */
function joinRows(place: PickupPlace, { wires, nodes, metrics }: Drawing): void {
  const { block, rows } = place;
  const joined = new Set<Row>();
  for (const row of rows) {
    if (row.main) continue;
    const exits = block.nodes.get(row.node)?.exits ?? [];
    const main = rows.find((each) => each.main && each.node === row.node);
    const earthed = exits.find(({ to, contact }) => to === 'earth' && contact === undefined);
    if (earthed !== undefined)
      nodes.push(...earthOf(row, earthed.live, wires, metrics, row.foot && linkedBelow(place, row) === undefined));
    else if (main !== undefined) {
      const live = block.coils.some((coil) => coil.live && (coil.top === row.node || coil.bottom === row.node));
      wires.push({ from: [metrics.coil, main.y], to: [metrics.join, main.y], live });
      wires.push({ from: [metrics.join, main.y], to: [metrics.join, row.y], live });
      wires.push({ from: [metrics.join, row.y], to: [metrics.coil, row.y], live });
      if (exits.length > 0) joined.add(main);
    }
  }
  nodes.push(...[...joined].map(({ y }) => circle('solid', metrics.join, y, 4)));
}

function earthOf(
  row: Row,
  live: boolean,
  wires: Wire[],
  { coil, stub }: Metrics,
  beneath = row.foot,
): readonly SvgNode[] {
  if (beneath) return [earthAt(coil, row.y, live)];
  wires.push({ from: [coil, row.y], to: [stub, row.y], live });
  return [earthAt(stub, row.y, live)];
}

function leadOut(place: PickupPlace, row: Row, drawing: Drawing): void {
  const { block, ownLine } = place;
  const { wires, nodes, rails, metrics, busRows } = drawing;
  const exits = block.nodes.get(row.node)?.exits ?? [];
  const { own } = block;
  const isOwnEnd = own !== undefined && row.node === own.to;
  const startX = isOwnEnd ? metrics.own.end : metrics.coil;
  if (own !== undefined && row.node === own.from && ownLine !== undefined) {
    wires.push({ from: [startX, row.y], to: [metrics.second, row.y], live: own.live });
    wires.push({ from: [metrics.second, row.y], to: [metrics.second, ownLine], live: own.live });
  }
  const isLink = linkedBelow(place, row) !== undefined;
  // A bare earth comes last: it would stand on the value of a resistor below it.
  const isBareEarth = ({ to, through }: Exit) => Number(to === 'earth' && through === undefined);
  const switched = [...contactsIn(exits)].sort((a, b) => isBareEarth(a) - isBareEarth(b));
  switched.forEach((exit, index) => {
    const y = row.y + SECOND_CONTACT * index;
    const live = exit.live || (index === 0 && switched.some((each) => each.live));
    if (index === 0)
      wires.push(
        { from: [startX, y], to: [metrics.contact[0] - 4, y], live: exit.live },
        ...(live && !exit.live ? [{ from: [startX, y], to: [metrics.second, y], live } as const] : []),
      );
    else {
      nodes.push(circle('solid', metrics.second, row.y, 3.5));
      wires.push({ from: [metrics.second, row.y], to: [metrics.second, y], live: exit.live });
      wires.push({ from: [metrics.second, y], to: [metrics.contact[0] - 4, y], live: exit.live });
    }
    drawContact(exit, y, drawing, `${block.slot}.${row.node}.${typeof exit.to === 'string' ? exit.to : ''}`);
  });
  for (const exit of exits) {
    if (exit.contact !== undefined) continue;
    if (exit.to === 'bus') {
      wires.push({ from: [startX, row.y], to: [metrics.bus, row.y], live: exit.live });
      busRows.push({ y: row.y, live: exit.live });
    } else if (exit.to === 'earth' && exit.through !== undefined) {
      // Right of the joints of a series, so that none of them runs through it.
      const left = metrics.bus - 100;
      wires.push({ from: [startX, row.y], to: [left, row.y], live: exit.live });
      nodes.push(...throughEarth(exit.through, left, left + 76, row.y, exit.live));
    } else if (exit.to === 'earth') nodes.push(...earthOf(row, exit.live, wires, metrics, row.foot && !isLink));
    else {
      const ends = rails.get(exit.to.rail) ?? [];
      ends.push({ y: row.y, live: exit.live, x: startX });
      rails.set(exit.to.rail, ends);
    }
  }
}

function throughEarth(words: string, left: number, earthX: number, y: number, live: boolean): readonly SvgNode[] {
  return [
    lyingResistor(left + 6, y, live),
    path(weight(live), d`M${left} ${y}h6M${left + 62} ${y}H${earthX}V${y + 4}`),
    earthAt(earthX, y + 4, live),
    wordsAt(words, left + 34, y - 14, { bold: true, anchor: 'middle' }),
  ];
}

function drawContact(
  exit: Exit,
  y: number,
  { nodes, wires, busRows, contacts, schematic, metrics }: Drawing,
  id: string,
): void {
  const { contact } = exit;
  if (contact === undefined) return;
  const right = metrics.contact[1] + 4;
  contacts.push({ y, closed: contact.closedNow });
  const { left, pitch } = columnsRight(metrics, contact.closed.length);
  const size = Math.min(12, pitch - 2);
  const cells = contact.closed.map((closed, index) => {
    const isLive = schematic.keys[index] === schematic.liveKey;
    return rect(closed ? (isLive ? 'cellon' : 'celln') : 'cell', left + pitch * index, y - 21, size, 12);
  });
  nodes.push(
    part(`contact:${id}`, contact.title, ...cells, contactAt(metrics.contact, y, contact.closedNow, exit.live)),
  );
  if (exit.to === 'bus') {
    wires.push({ from: [right, y], to: [metrics.bus, y], live: exit.live });
    busRows.push({ y, live: exit.live });
  } else if (exit.through !== undefined) {
    nodes.push(...throughEarth(exit.through, right, Math.min(right + 66, metrics.bus - 16), y, exit.live));
  } else {
    wires.push({ from: [right, y], to: [metrics.earth, y], live: exit.live });
    nodes.push(path(weight(exit.live), d`M${metrics.earth} ${y}v6`), earthAt(metrics.earth, y + 6, exit.live));
  }
}

/** Numbers of the positions over the first row of cells, and the linkage that moves all contacts together. */
function selectorHeader({ contacts, schematic: { keys, liveKey }, metrics }: Drawing, t: Language): readonly SvgNode[] {
  const ordered = [...contacts].sort((a, b) => a.y - b.y);
  const top = (ordered[0]?.y ?? 0) - 40;
  const x = (metrics.contact[0] + metrics.contact[1]) / 2;
  const { left, pitch } = columnsRight(metrics, keys.length);
  const size = Math.min(12, pitch - 2);
  const pieces: string[] = [];
  let from = top;
  for (const { y, closed } of ordered) {
    pieces.push(d`M${x} ${from}V${y - (closed ? 4 : 13)}`);
    from = y + 5;
  }
  return [
    part(
      'selector',
      t('Selector: all contacts move together'),
      path('hid', pieces.join('')),
      path('w2', d`M${x - 8} ${top}h16`),
      wordsAt(t('selector'), x + 14, top + 4, { quiet: true }),
      ...headerKeys(keys, liveKey, (index) => left + pitch * index + size / 2, top + 11),
    ),
  ];
}

/** The live key first; of the others those that find room beside their neighbours. */
function headerKeys(
  keys: readonly string[],
  liveKey: string | undefined,
  xOf: (index: number) => number,
  y: number,
): readonly SvgNode[] {
  const labels = keys.map((key, index): Label => {
    const isLive = key === liveKey;
    const run = { text: fitText(key, 40, { size: 12 }), bold: isLive, quiet: !isLive };
    return { wordings: [[run]], spots: [{ x: xOf(index), y, anchor: 'middle' }], rank: isLive ? 0 : 1 };
  });
  return wherePossible(labels, []);
}

/** Idle wires first; a level wire that crosses an upright one lies over it, with a gap left in the other. */
function drawWires(wires: readonly Wire[]): readonly SvgNode[] {
  const upright = wires.filter(({ from, to }) => from[0] === to[0]);
  const level = wires.filter(({ from, to }) => from[0] !== to[0]);
  const gaps = level.flatMap(({ from, to }) =>
    upright
      .filter((other) => isBetween(other.from[0], from[0], to[0]) && isBetween(from[1], other.from[1], other.to[1]))
      .map((other) => path('gap', d`M${other.from[0] - 7} ${from[1]}h14`)),
  );
  const draw = (some: readonly Wire[]) =>
    [...some]
      .sort((a, b) => Number(a.live) - Number(b.live))
      .map(({ from, to, live }) => path(weight(live), d`M${from[0]} ${from[1]}L${to[0]} ${to[1]}`));
  return [...draw(upright), ...gaps, ...draw(level)];
}

const isBetween = (at: number, a: number, b: number): boolean => at > Math.min(a, b) + 0.5 && at < Math.max(a, b) - 0.5;
