/**
 * Switches from the soldering side: lugs in the rows that the part declares, leads in from the left, what sounds thicker and its label in
 * the tone of links, closed contacts below their row. Nothing is drawn like any real part.
 */

import type { Language, PlainText } from '../../words/languages/language.ts';
import {
  type Block,
  type DrawingWidth,
  drawing,
  type FactTable,
  FRAMES,
  type Frame,
  part,
  rule,
  sheetHead,
} from '../drawing-sheet.ts';
import { textLine, wordsAt } from '../labels.ts';
import { plotCss } from '../plot-style.ts';
import { circle, d, group, path, rect, type SvgElement, type SvgNode } from '../svg.ts';
import { lead } from '../symbols.ts';
import { fitText, textWidth, wrapText } from '../text-width.ts';
import { colour, fill, stroke } from '../theme.ts';
import { type BodyLayout, entryY, layOutBody, type PlacedLug, type Run } from './layout.ts';
import type { ContactPicture, StateRow, SwitchBody, SwitchPicture } from './picture.ts';

/** The drawing: the same input gives the same bytes. */
export function switchDiagram(picture: SwitchPicture, size: DrawingWidth): string {
  const frame = FRAMES[size];
  const head = sheetHead(picture, frame);
  const nodes: SvgNode[] = [...head.nodes, rule(frame, head.bottom + 6)];
  let y = head.bottom + 34;
  for (const body of picture.bodies) {
    nodes.push(
      wordsAt(fitText(body.title, frame.right - frame.margin, { size: 14, bold: true }), frame.margin, y, { size: 14 }),
    );
    const drawn = drawBody(body, y + 14, size, picture.t);
    nodes.push(...drawn.nodes);
    y = drawn.bottom + 36;
  }
  const table = size === 'wide' ? wideTable(picture, y, frame) : narrowTable(picture, y, frame);
  return drawing(picture, size, Math.ceil(table.bottom + 20), [...nodes, ...table.nodes], plotCss() + css());
}

const css = (): string =>
  [
    '.pk .edge, .pk .core, .pk .w3 { stroke-linejoin: round; }',
    '.pk .thin .edge { stroke-width: 3.8; }',
    '.pk .thin .core { stroke-width: 2; }',
    '.pk .thin .halo { stroke-width: 8; }',
    '.pk .thin .w3 { stroke-width: 1.5; }',
    `.pk .lit { ${stroke('live')} stroke-width: 3; stroke-linejoin: round; }`,
    `.pk .livetext text { ${fill('live')} font-weight: 600; }`,
    `.pk .wrongtext text { ${fill('find')} font-weight: 600; text-decoration: underline; }`,
    `.pk .frame { fill: none; ${colour('stroke', 'live')} stroke-width: 2; }`,
    '',
  ].join('\n');

function drawBody(body: SwitchBody, top: number, size: DrawingWidth, t: Language): Block {
  const layout = layOutBody(body, top, size);
  const runs = [...layout.runs].sort((a, b) => Number(a.net.live) - Number(b.net.live));
  const homes = layout.runs.filter(({ isHome }) => isHome);
  const { left, right, bottom } = layout;
  const outline = part(body.part, body.title, path('w1', roundedOutline(left, top, right, bottom)));
  return {
    nodes: [
      outline,
      ...homes.flatMap((run) => drawFurther(run, layout)),
      ...runs.map((run) => drawRun(run, layout)),
      ...body.contacts.flatMap((contact) => drawContact(contact, layout)),
      ...[...layout.lugs.values()].map((lug) => drawLug(lug, layout, t)),
      ...homes.flatMap((run) => drawLabels(run, layout)),
    ],
    bottom,
  };
}

const roundedOutline = (left: number, top: number, right: number, bottom: number): string =>
  d`M${left + 8} ${top}H${right - 8}A8 8 0 0 1 ${right} ${top + 8}V${bottom - 8}A8 8 0 0 1 ${right - 8} ${bottom}H${left + 8}A8 8 0 0 1 ${left} ${bottom - 8}V${top + 8}A8 8 0 0 1 ${left + 8} ${top}Z`;

/** From its labels, or from its jumper, over its lane and down into its lugs; a dot where it branches. */
function drawRun(run: Run, layout: BodyLayout): SvgElement {
  const { net, y, lugs, isHome, jumper } = run;
  const xs = lugs.map(({ x }) => x);
  const [from, to] = [Math.min(...xs), Math.max(...xs)];
  const hasEntry = isHome && net.entries.length > 0;
  const start = hasEntry ? layout.labels + 8 : (jumper ?? from);
  const last = lugs.find(({ x }) => x === to);
  const drops = lugs.flatMap((lug) => (lug.y === y || lug === last ? [] : [d`M${lug.x} ${y}V${lug.y}`]));
  const others = layout.runs.filter((each) => each.net === net && each !== run);
  const down = isHome && jumper !== undefined ? d`M${jumper} ${y}V${Math.max(...others.map((each) => each.y))}` : '';
  const route = [d`M${start} ${y}H${to}${last && last.y !== y ? d`V${last.y}` : ''}`, ...drops, down].join('');
  const branches = lugs.filter((lug) => lug.y !== y && (lug.x < to || start > lug.x));
  const joints = [
    ...(hasEntry && net.entries.length > 1 ? [circle('solid', layout.labels + 24, y, 3.4)] : []),
    ...branches.map(({ x }) => circle('solid', x, y, 3.4)),
    ...(isHome && jumper !== undefined ? [circle('solid', jumper, y, 3.4)] : []),
  ];
  const wires = [...lead(route, net.look), ...joints];
  return part(net.part, net.title, net.live ? group({}, ...wires) : group({ class: 'thin' }, ...wires));
}

/** What comes in at the left, in words. */
function drawLabels(run: Run, { labels, margin }: BodyLayout): readonly SvgNode[] {
  const { entries, live } = run.net;
  return entries.map(({ words, letters, toMove }, index) => {
    const lettersRoom = letters === undefined ? 0 : textWidth(` ${letters}`, { size: 12, bold: true });
    const bold = letters === undefined ? [] : [{ text: ` ${letters}`, bold: true }];
    const shown = fitText(words, labels - margin - lettersRoom, { size: 12, bold: live || toMove });
    const text = textLine([{ text: shown }, ...bold], { x: labels, y: entryY(run, index) + 4, anchor: 'end' });
    if (toMove) return group({ class: 'wrongtext' }, text);
    return live ? group({ class: 'livetext' }, text) : text;
  });
}

/** Whatever comes in below the first joins it, under its lane. */
function drawFurther(run: Run, { labels }: BodyLayout): readonly SvgNode[] {
  const { entries, live } = run.net;
  const merge = labels + 24;
  return entries.slice(1).map(({ look }, index) => {
    const stub = lead(d`M${labels + 8} ${entryY(run, index + 1)}H${merge}V${run.y}`, look);
    return live ? group({}, ...stub) : group({ class: 'thin' }, ...stub);
  });
}

/** Below the row from lug to lug; dashed where it closes onto nothing. */
function drawContact({ lugs, joins }: ContactPicture, { lugs: places }: BodyLayout): readonly SvgNode[] {
  const placed = lugs.flatMap((lug) => places.get(lug) ?? []);
  const [first] = placed;
  if (!first) return [];
  const low = Math.max(...placed.map(({ y }) => y)) + 26;
  const xs = placed.map(({ x }) => x);
  const stems = placed.map(({ x, y }) => d`M${x} ${y + 6}V${low}`).join('');
  const route = stems + d`M${Math.min(...xs)} ${low}H${Math.max(...xs)}`;
  return [path(joins ? 'lit' : 'hid', route)];
}

function drawLug({ terminal, name, used, toMove, x, y }: PlacedLug, { pitch }: BodyLayout, t: Language): SvgElement {
  return part(
    `terminal:${terminal}`,
    [
      t('lug {0}', terminal),
      ...(used ? [] : [t('nothing soldered to it')]),
      ...(toMove ? [t('to be moved')] : []),
    ].join(', '),
    rect('open', x - 9, y - 6, 18, 12, 3),
    ...(used ? [circle('solid', x, y, 2.8)] : []),
    ...(toMove ? [circle('ring', x, y, 12), circle('ring', x, y, 16)] : []),
    wordsAt(fitText(name, pitch - 24, { size: 12 }), x + (toMove ? 17 : 5), y + 19, { quiet: !used }),
  );
}

const COLUMNS: readonly PlainText[] = ['position', 'state', 'contacts', 'heard', 'silent coils'];

/** The same as rows. */
export const switchTable = ({ name, states, t }: SwitchPicture): FactTable => ({
  caption: name,
  columns: COLUMNS.map((each) => t(each)),
  rows: states.map((each) => cellsOf(each, t)),
});

const cellsOf = ({ position, state, contacts, heard, silent }: StateRow, t: Language): readonly string[] => [
  position || t('none'),
  state,
  contacts,
  heard,
  silent || t('none'),
];

function wideTable({ states, t }: SwitchPicture, top: number, { margin, right }: Frame): Block {
  const x = [margin, margin + 186, margin + 312, margin + 512, margin + 672];
  const ends = [...x.slice(1), right + 12];
  const width = (column: number) => (ends[column] ?? right) - (x[column] ?? margin) - 12;
  const nodes: SvgNode[] = COLUMNS.map((title, column) => wordsAt(t(title), x[column] ?? margin, top, { bold: true }));
  let y = top + 22;
  for (const row of states) {
    const cells = cellsOf(row, t).map((text, column) =>
      wrapText(text, width(column) / ROOM, { size: 12, bold: row.live }),
    );
    const height = 16 * Math.max(...cells.map((lines) => lines.length));
    const texts = cells.flatMap((lines, column) =>
      lines.map((line, index) => wordsAt(line, x[column] ?? margin, y + 16 * index, { bold: row.live })),
    );
    nodes.push(...framed(row, [margin - 8, y - 16, right - margin + 16, height + 8], texts));
    y += height + 8;
  }
  return { nodes, bottom: y - 8 };
}

/** The editor's own face may be wider than the one that widths are known of. */
const ROOM = 1.1;

function narrowTable({ states, t }: SwitchPicture, top: number, { margin, right }: Frame): Block {
  const nodes: SvgNode[] = [];
  let y = top;
  for (const row of states) {
    const lines = [
      ...wrapText(headOf(row), (right - margin) / ROOM, { size: 12, bold: true }),
      ...wrapText(t('{0}, contacts {1}', row.state, row.contacts), (right - margin) / ROOM, { size: 12 }),
      ...(row.silent === '' ? [] : wrapText(row.silent, (right - margin) / ROOM, { size: 12 })),
    ];
    const texts = lines.map((line, index) =>
      wordsAt(line, margin, y + 16 * index, { bold: index === 0, quiet: index > 0 }),
    );
    nodes.push(...framed(row, [margin - 8, y - 16, right - margin + 16, 16 * lines.length + 8], texts));
    y += 16 * lines.length + 14;
  }
  return { nodes, bottom: y - 14 };
}

/** What is heard is said once where the position is called by it. */
const headOf = ({ position, state, heard }: StateRow): string => {
  const called = position === '' ? state : position;
  return called.endsWith(` ${heard}`) ? called : `${called}: ${heard}`;
};

function framed(
  { part: name, state, live }: StateRow,
  box: readonly [number, number, number, number],
  texts: readonly SvgNode[],
): readonly SvgNode[] {
  const [x, y, width, height] = box;
  const all = [...(live ? [rect('frame', x, y, width, height, 6)] : []), ...texts];
  return name === undefined ? all : [part(name, state, ...all)];
}
