import type { Language } from '../../words/languages/language.ts';
import { part } from '../drawing-sheet.ts';
import { type Point, RANK } from '../labels.ts';
import { d, path, type SvgNode } from '../svg.ts';
import { flow, joint, lead, terminal } from '../symbols.ts';
import { drawCableShield, drawMetal } from './draw-metal.ts';
import type { LeadContext } from './lead-context.ts';
import { besideOpenEnd, labelLead, labelLink, labelTerminal, labelWord } from './lead-labels.ts';
import type { EndPicture, LeadPicture, PickupPicture } from './picture.ts';
import { planRails, type Rail, staysInside } from './rails.ts';
import type { CoilPlace, Layout, Row } from './rows.ts';
import { blockLine, type Metrics, type Sheet } from './sheet.ts';

/** Where a ring may have to be drawn. */
export interface JointPlaces {
  readonly joint: ReadonlyMap<string, Point>;
  readonly net: ReadonlyMap<string, Point>;
  readonly metal: ReadonlyMap<string, Point>;
  /** The ends of leads that no coil is soldered to, by part. */
  readonly loose: ReadonlyMap<string, Point>;
}

export interface LeadDrawing {
  readonly places: JointPlaces;
  readonly rails: ReadonlyMap<string, Rail>;
}

type EndRow = Row & { readonly kind: 'end' };
const CORNER = 8;

/** Leads, joints, terminals and the drain wire. */
export function drawLeads(picture: PickupPicture, layout: Layout, metrics: Metrics, sheet: Sheet): LeadDrawing {
  const rails = planRails(picture.nets, layout, metrics);
  const over: SvgNode[] = [];
  const context: LeadContext = { picture, layout, metrics, sheet, rails, over };
  for (const rail of rails.values()) sheet.nodes.push(...drawRail(rail, metrics));
  for (const row of layout.rows) drawRow(row, context);
  const metal = drawMetal(context);
  drawCableShield(picture, layout, metrics, sheet);
  for (const rail of rails.values()) drawRailEnds(rail, context);
  sheet.nodes.push(...over);
  return { places: jointPlaces(context, metal), rails };
}

/** The rail that a row leads to, and where its column stands. */
interface Way {
  readonly rail: Rail | undefined;
  readonly column: number;
}

function wayOf({ net }: Row, { rails, metrics }: Pick<LeadContext, 'rails' | 'metrics'>): Way {
  const rail = net === undefined ? undefined : rails.get(net);
  return { rail, column: rail?.column ?? metrics.terminals - metrics.railStep };
}

function drawRail({ net, column, rows, form, terminal: out }: Rail, metrics: Metrics): readonly SvgNode[] {
  const [first, last] = [rows.at(0), rows.at(-1)];
  if (form !== 'rail' || first === undefined || last === undefined) return [];
  const route = d`M${column} ${first.y}V${last.y}`;
  const on = out === undefined || column === metrics.terminals ? '' : d`M${column} ${out.y}H${metrics.terminals}`;
  return [part(`net:${net.id}`, net.label, path('halo', route + on), path('w3', route + on))];
}

function drawRow(row: Row, context: LeadContext): void {
  const { metrics, sheet } = context;
  const way = wayOf(row, context);
  const { column } = way;
  blockLine(sheet, row.from, row.y, column, row.y, 4.5);
  if (row.kind === 'loose') {
    drawLoose(row, way, context);
    return;
  }
  if (row.kind === 'tap') {
    pushLead(sheet, row.tap.lead, routeOn(row, row.from, way));
    const below = row.place.finishAt === 'top';
    labelLead(sheet, row.tap.lead, { x: metrics.ownLabel, y: row.y, above: !below });
    labelWord(sheet, row.tap.turns, metrics.ownLabel, row.y, below);
    return;
  }
  drawEnd(row, way, context);
}

function drawEnd(row: EndRow, way: Way, context: LeadContext): void {
  const { metrics, sheet, layout, over } = context;
  const { end, place } = row;
  const upper = isUpper(row);
  if (place.coil.endsTraced) labelWord(sheet, sheet.t(row.which), metrics.ownLabel, row.y, upper);
  if (end.conductor === undefined) {
    const away = netAway(row, context);
    const own = end.own ?? plainLead(end, place, sheet.t);
    if (end.own === undefined && end.net === undefined) {
      pushLead(sheet, own, d`M${row.from} ${row.y}H${metrics.joints - 20}`);
      over.push(terminal(metrics.joints - 20, row.y));
      labelLead(sheet, { ...own, name: sheet.t('unknown') }, { x: metrics.ownLabel, y: row.y, above: upper });
      return;
    }
    drawTowardNet({ row, wire: own, from: row.from, away }, way, context);
    if (end.own !== undefined) labelLead(sheet, end.own, { x: metrics.ownLabel, y: row.y, above: upper });
    pathArrow(row, way.column, away !== undefined, context);
    return;
  }
  const onRow = end.mistakenJoint === undefined ? undefined : rowOfEnd(layout, end.mistakenJoint);
  const own = end.own ?? plainLead(end, place, sheet.t);
  if (onRow === undefined) {
    pushLead(sheet, own, d`M${row.from} ${row.y}H${metrics.joints}`);
  } else {
    const from = metrics.joints - metrics.crossing;
    pushLead(sheet, own, d`M${row.from} ${row.y}` + crossOver(from, row.y, metrics.joints, onRow.y, sheet));
    over.push(path('fix', d`M${from + 4} ${row.y}H${metrics.joints - 18}`));
    const exits = place.coil.entered !== undefined && place.coil.entered !== row.which;
    if (place.coil.entered !== undefined)
      over.push(flow(metrics.plateRight - 16, row.y, exits ? 'right' : 'left', metrics.flowScale));
  }
  if (end.own !== undefined)
    labelLead(sheet, end.own, {
      x: metrics.ownLabel,
      y: row.y,
      above: upper,
      width: metrics.conductorLabel - metrics.ownLabel - 4,
    });
  const away = netAway(row, context);
  drawTowardNet({ row, wire: end.conductor, from: metrics.joints, away }, way, context);
  labelLead(sheet, end.conductor, {
    x: metrics.conductorLabel,
    y: row.y,
    above: upper,
    width: metrics.total - 30 - metrics.conductorLabel,
  });
  over.push(joint(metrics.joints, row.y));
  pathArrow(row, way.column, away !== undefined, context);
}

/** Where a conductor goes instead of its own place among the joints. */
type Away = { readonly row: Row; readonly column: number } | 'nowhere' | undefined;

function netAway({ end }: EndRow, { layout, rails, metrics }: LeadContext): Away {
  if (end.mistakenNet === undefined) return undefined;
  if (end.mistakenNet === 'nowhere') return 'nowhere';
  const row = rowOfEnd(layout, end.mistakenNet);
  if (row === undefined) return 'nowhere';
  const rail = row.net === undefined ? undefined : rails.get(row.net);
  return { row, column: rail?.column ?? metrics.terminals };
}

/** A wire on its row, from where it comes. */
interface Run {
  readonly row: Row;
  readonly wire: LeadPicture;
  readonly from: number;
  readonly away: Away;
}

function drawTowardNet({ row, wire, from, away }: Run, way: Way, { sheet, metrics, over }: LeadContext): void {
  const { rail, column } = way;
  if (away === undefined) {
    pushLead(sheet, wire, routeOn(row, from, way));
    if (rail?.net.kind === 'free' || rail?.net.kind === 'open') over.push(...shortBar(column, row.y, sheet));
    return;
  }
  const stop = column - metrics.railStep;
  if (away === 'nowhere') {
    pushLead(sheet, wire, d`M${from} ${row.y}H${stop}`);
    over.push(...shortBar(stop, row.y, sheet), path('fix', routeOn(row, stop + 6, way)));
    return;
  }
  const target = away.column - metrics.railStep;
  const start = Math.min(stop, target) - metrics.crossing;
  sheet.nodes.push(path('w3', routeOn(row, stop, way)));
  pushLead(sheet, wire, d`M${from} ${row.y}` + crossOver(start, row.y, target, away.row.y, sheet));
  over.push(path('fix', d`M${start + 4} ${row.y}H${stop - 8}`), joint(target, away.row.y));
}

/** On along the row, then over to another one: as leads lie that change places. */
function crossOver(from: number, y: number, to: number, otherY: number, sheet: Sheet): string {
  const length = to - from;
  blockLine(sheet, from + length * 0.3, y, to - length * 0.3, otherY, 0);
  return d`H${from}C${from + length * 0.58} ${y} ${to - length * 0.65} ${otherY} ${to} ${otherY}`;
}

/** Along the row to its column, and round the corner to the middle where two neighbours meet. */
function routeOn(row: Row, from: number, { rail, column }: Way): string {
  const [first, last] = [rail?.rows.at(0), rail?.rows.at(-1)];
  if (rail?.form !== 'corner' || first === undefined || last === undefined) return d`M${from} ${row.y}H${column}`;
  const middle = (first.y + last.y) / 2;
  const way = row.y < middle ? 1 : -1;
  return d`M${from} ${row.y}H${column - CORNER}Q${column} ${row.y} ${column} ${row.y + way * CORNER}V${middle}`;
}

function drawLoose(row: Row & { kind: 'loose' }, way: Way, { sheet, metrics, over }: LeadContext): void {
  const { column } = way;
  pushLead(sheet, row.loose.lead, routeOn(row, row.from, way));
  const { inside } = row.loose;
  over.push(...(inside === undefined ? shortBar(row.from, row.y, sheet) : [joint(row.from, row.y)]));
  if (inside !== undefined)
    sheet.labels.push({
      wordings: [[{ text: inside, quiet: true }]],
      spots: [{ x: row.from - 10, y: row.y + 4, anchor: 'end' }],
      rank: RANK.rest,
      mayDrop: true,
    });
  labelLead(sheet, row.loose.lead, { x: metrics.conductorLabel, y: row.y, above: true });
  if (row.net !== undefined) return;
  over.push(...shortBar(column, row.y, sheet));
  sheet.labels.push({
    wordings: [[{ text: row.loose.remark, quiet: true }], [{ text: sheet.t('open'), quiet: true }]],
    spots: besideOpenEnd(column, row.y),
    rank: RANK.name,
  });
}

function drawRailEnds(rail: Rail, { metrics, sheet, over }: LeadContext): void {
  const { net, rows, column, form, terminal: out } = rail;
  const [first, last] = [rows.at(0), rows.at(-1)];
  if (first === undefined || last === undefined) return;
  if (form !== 'end') {
    blockLine(sheet, column, first.y, column, last.y, 5);
    const forgotten = rows.some((row) => row.kind === 'end' && row.end.mistakenNet === 'nowhere');
    const corner = forgotten || net.kind === 'unseen' ? [] : [(first.y + last.y) / 2];
    const dots = form === 'rail' ? rows.map(({ y }) => y) : corner;
    for (const y of dots) over.push(joint(column, y));
  }
  if (net.kind === 'link' || net.kind === 'unseen') labelLink(net, rail, sheet, metrics);
  const end = out ?? (net.kind === 'out' ? first : undefined);
  if (end !== undefined) {
    over.push(net.kind === 'ground' ? joint(metrics.terminals, end.y) : terminal(metrics.terminals, end.y));
    labelTerminal(net, end.y, sheet, metrics);
    if (net.kind === 'hot' && net.detail !== undefined && last !== end) {
      labelTerminal({ ...net, label: net.detail }, last.y, sheet, metrics);
    }
  } else if ((net.kind === 'free' || net.kind === 'open') && !staysInside(first)) {
    labelTerminal(net, first.y, sheet, metrics, true);
  }
}

/** One arrow on each conductor: the way the path goes through it, as it is joined now. */
function pathArrow(
  row: EndRow,
  column: number,
  crossing: boolean,
  { layout, metrics, sheet, rails, over }: LeadContext,
): void {
  const soldered = solderedTo(row, layout);
  const { entered, idle } = soldered.place.coil;
  if (entered === undefined || idle || soldered.end.net === undefined || row.end.mistakenNet === 'nowhere') return;
  const step = 26 * metrics.flowScale;
  let x = column - (crossing ? metrics.railStep + metrics.crossing + 10 : step);
  // An arrowhead on a crossing rail would read as an arrow of that rail.
  while ([...rails.values()].some((rail) => rail.form === 'rail' && liesAt(rail, x, row.y))) x -= step;
  over.push(flow(x, row.y, entered === soldered.which ? 'left' : 'right', metrics.flowScale));
  blockLine(sheet, x - 8, row.y, x + 8, row.y, 6);
}

function liesAt({ column, rows }: Rail, x: number, y: number): boolean {
  const heights = rows.map((row) => row.y);
  return Math.abs(column - x) < 14 && y > Math.min(...heights) && y < Math.max(...heights);
}

/** The end whose lead really is on this row's conductor. */
function solderedTo(row: EndRow, layout: Layout): EndRow {
  const other = layout.rows.find(
    (each): each is EndRow => each.kind === 'end' && each.end.mistakenJoint === row.end.id,
  );
  return other ?? row;
}

function rowOfEnd(layout: Layout, id: string): EndRow | undefined {
  return layout.rows.find((row): row is EndRow => row.kind === 'end' && row.end.id === id);
}

/** The upper of a coil's two rows: its letters stand above it and its word below. */
function isUpper(row: EndRow): boolean {
  return (row.which === 'finish') === (row.place.finishAt === 'top');
}

function plainLead(end: EndPicture, place: CoilPlace, t: Language): LeadPicture {
  const [, which = ''] = end.id.split('.');
  const { unseen } = place.coil;
  return {
    part: `coil:${end.id}`,
    name: '',
    look: { unseen },
    description: `${place.coil.caption.name}, ${t.word(which)}`,
  };
}

function pushLead(sheet: Sheet, { part: name, description, look }: LeadPicture, route: string): void {
  sheet.nodes.push(part(name, description, ...lead(route, look)));
}

function shortBar(x: number, y: number, sheet: Sheet): readonly SvgNode[] {
  blockLine(sheet, x, y - 8, x, y + 8, 2);
  return [path('w3', d`M${x} ${y - 8}V${y + 8}`)];
}

function jointPlaces({ layout, rails, metrics }: LeadContext, metal: JointPlaces['metal']): JointPlaces {
  const joints = new Map<string, Point>();
  const nets = new Map<string, Point>();
  const loose = new Map<string, Point>();
  for (const row of layout.rows) {
    if (row.kind === 'loose') loose.set(row.loose.lead.part, { x: metrics.terminals - metrics.railStep, y: row.y });
    if (row.kind !== 'end') continue;
    joints.set(row.end.id, { x: metrics.joints, y: row.y });
    const { rail, column } = wayOf(row, { rails, metrics });
    if (row.end.mistakenNet !== undefined) {
      nets.set(row.end.id, { x: column - metrics.railStep, y: row.y });
      continue;
    }
    const [first, last] = [rail?.rows.at(0), rail?.rows.at(-1)];
    const corner = rail?.form === 'corner' && first !== undefined && last !== undefined;
    nets.set(row.end.id, { x: column, y: corner ? (first.y + last.y) / 2 : row.y });
  }
  return { joint: joints, net: nets, metal, loose };
}
