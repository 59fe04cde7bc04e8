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
  WIDEST_FACE,
} from '../drawing-sheet.ts';
import { textLine, wordsAt } from '../labels.ts';
import { plotCss } from '../plot-style.ts';
import { circle, d, group, path, rect, type SvgElement, type SvgNode } from '../svg.ts';
import { lead } from '../symbols.ts';
import { fitText, textWidth, wrapText } from '../text-width.ts';
import { fill, stroke } from '../theme.ts';
import { BESIDE, type BodyLayout, entryY, layOutBody, type PlacedContact, type PlacedLug, type Run } from './layout.ts';
import type { StateRow, SwitchBody, SwitchPicture } from './picture.ts';

/** The drawing: the same input gives the same bytes. */
export function switchDiagram(picture: SwitchPicture, size: DrawingWidth): string {
  const frame = FRAMES[size];
  const head = sheetHead(picture, frame);
  const nodes: SvgNode[] = [...head.nodes, rule(frame, head.bottom + 6)];
  const mending = mendingLine(picture, head.bottom + 28, frame);
  nodes.push(...mending.nodes);
  let y = mending.bottom + 34;
  for (const body of picture.bodies) {
    nodes.push(
      wordsAt(fitText(body.title, frame.right - frame.margin, { size: 14, bold: true }), frame.margin, y, { size: 14 }),
    );
    const drawn = drawBody(body, y + 14, size, picture.t);
    nodes.push(...drawn.nodes);
    y = drawn.bottom + 36;
  }
  const tableOf = size === 'wide' ? wideTable : narrowTable;
  const table = picture.states.length === 0 ? { nodes: [], bottom: y - 36 } : tableOf(picture, y, frame);
  return drawing(picture, size, Math.ceil(table.bottom + 20), [...nodes, ...table.nodes], plotCss() + css());
}

function mendingLine({ mending }: SwitchPicture, top: number, { margin, right }: Frame): Block {
  if (mending === undefined) return { nodes: [], bottom: top - 28 };
  const lines = wrapText(mending, (right - margin) / WIDEST_FACE, { size: 12, bold: true });
  const texts = lines.map((line, index) => wordsAt(line, margin, top + 16 * index, { bold: true }));
  return { nodes: [group({ class: 'mendtext' }, ...texts)], bottom: top + 16 * (lines.length - 1) };
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
    `.pk .mendtext text { ${fill('find')} }`,
    `.pk .mend { ${stroke('find')} stroke-width: 2; stroke-dasharray: 6 4; stroke-linejoin: round; }`,
    '',
  ].join('\n');

function drawBody(body: SwitchBody, top: number, size: DrawingWidth, t: Language): Block {
  const layout = layOutBody(body, top, size);
  // Those with a jumper's upright last among their like: it lies over the ends that hang on it.
  const rank = ({ net, isHome }: Run) => (net.mended ? 4 : net.live ? 2 : 0) + Number(isHome);
  const runs = [...layout.runs].sort((a, b) => rank(a) - rank(b));
  const homes = layout.runs.filter(({ isHome }) => isHome);
  const { left, right, bottom } = layout;
  const outline = part(body.part, body.title, path('w1', roundedOutline(left, top, right, bottom)));
  return {
    nodes: [
      outline,
      ...homes.flatMap((run) => drawFurther(run, layout)),
      ...runs.map((run) => drawRun(run, layout)),
      ...layout.contacts.map(drawContact),
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
  const down =
    isHome && jumper !== undefined
      ? [
          d`M${jumper} ${y}V${Math.max(...others.map((each) => each.y))}`,
          // The beginnings of the ends that hang on it, which it would part otherwise.
          ...others.map((each) => d`M${jumper} ${each.y}h8`),
        ].join('')
      : '';
  const route = [d`M${start} ${y}H${to}${last && last.y !== y ? d`V${last.y}` : ''}`, ...drops, down].join('');
  const branches = lugs.filter((lug) => lug.y !== y && (lug.x < to || start > lug.x));
  const joints = [
    ...(hasEntry && net.entries.length > 1 ? [circle('solid', layout.labels + 16, y, 3.4)] : []),
    ...branches.map(({ x }) => circle('solid', x, y, 3.4)),
    ...(isHome && jumper !== undefined ? [circle('solid', jumper, y, 3.4)] : []),
  ];
  if (net.mended) return part(net.part, net.title, path('mend', route), ...ends(lugs));
  const wires = [...lead(route, net.look), ...joints];
  return part(net.part, net.title, net.live ? group({}, ...wires) : group({ class: 'thin' }, ...wires));
}

/** Where a dashed end would be soldered. */
const ends = (lugs: readonly PlacedLug[]): readonly SvgNode[] =>
  lugs.map(({ x, y }) => circle('ring', x + BESIDE, y, 12));

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
  const merge = labels + 16;
  return entries.slice(1).map(({ look }, index) => {
    const stub = lead(d`M${labels + 8} ${entryY(run, index + 1)}H${merge}V${run.y}`, look);
    return live ? group({}, ...stub) : group({ class: 'thin' }, ...stub);
  });
}

/** Below the row from lug to lug; dashed where it closes onto nothing. */
function drawContact({ rows, joins, upright }: PlacedContact): SvgNode {
  const own = rows.map(({ lugs, low }) => {
    const xs = [...lugs.map(({ x }) => x), ...(upright === undefined ? [] : [upright])];
    const stems = lugs.map(({ x, y }) => d`M${x} ${y + 6}V${low}`).join('');
    return stems + d`M${Math.min(...xs)} ${low}H${Math.max(...xs)}`;
  });
  const lows = rows.map(({ low }) => low);
  const between = upright === undefined ? '' : d`M${upright} ${Math.min(...lows)}V${Math.max(...lows)}`;
  return path(joins ? 'lit' : 'hid', own.join('') + between);
}

function drawLug(
  { terminal, name, used, toMove, takenOff, x, y }: PlacedLug,
  { pitch, right }: BodyLayout,
  t: Language,
): SvgElement {
  return part(
    `terminal:${terminal}`,
    [
      t('lug {0}', terminal),
      ...(used ? [] : [t('nothing soldered to it')]),
      ...(toMove ? [t('to be moved')] : []),
    ].join(', '),
    rect('open', x - 9, y - 6, 18, 12, 3),
    ...(used ? [circle('solid', x, y, 2.8)] : []),
    ...(toMove ? [circle('ring', x, y, 12)] : []),
    ...(takenOff ? [path('ring', d`M${x - 7} ${y - 23}l14 14m0 -14l-14 14`)] : []),
    wordsAt(endOf(name, Math.min(pitch, right - x) - 9), x + 5, y + 23, { quiet: !used }),
  );
}

/** Of a name that is too long its end: lugs of one switch mostly begin alike. */
function endOf(name: string, room: number): string {
  const fits = (text: string) => textWidth(text, { size: 12 }) <= room;
  if (fits(name)) return name;
  const ends = [...name].map((_, index, all) => `…${all.slice(index + 1).join('')}`);
  return ends.find(fits) ?? '…';
}

const COLUMNS: readonly PlainText[] = ['position', 'state', 'contacts', 'heard', 'silent coils'];

/** The same as rows. */
export const switchTable = ({ name, mending, states, t }: SwitchPicture): FactTable => ({
  caption: name,
  columns: COLUMNS.map((each) => t(each)),
  rows: [...(mending === undefined ? [] : [['', '', '', mending, '']]), ...states.map((each) => cellsOf(each, t))],
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
      wrapText(breakable(text, width(column) / ROOM), width(column) / ROOM, { size: 12, bold: row.live }),
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

/** A group of lugs that is wider than its column may go on in the next line. */
const breakable = (text: string, room: number): string =>
  text
    .split(' ')
    .map((word) => (textWidth(word, { size: 12, bold: true }) > room ? word.replaceAll('–', '– ') : word))
    .join(' ');

/** The editor's own face may be wider than the one that widths are known of. */
const ROOM = 1.1;

function narrowTable({ states, t }: SwitchPicture, top: number, { margin, right }: Frame): Block {
  const nodes: SvgNode[] = [];
  let y = top;
  for (const row of states) {
    const lines = [
      ...wrapText(headOf(row), (right - margin) / ROOM, { size: 12, bold: true }),
      ...wrapText(
        breakable(t('{0}, contacts {1}', row.state, row.contacts), (right - margin) / ROOM),
        (right - margin) / ROOM,
        { size: 12 },
      ),
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
  const all = live ? [rect('row', x, y, width, height), rect('solid', x, y, 3, height), ...texts] : texts;
  return name === undefined ? all : [part(name, state, ...all)];
}
