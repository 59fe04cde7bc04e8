/** Words beside leads, at terminals and on links. */
import { type Label, RANK, type Spot } from '../labels.ts';
import { textWidth } from '../text-width.ts';
import type { LeadPicture, NetPicture } from './picture.ts';
import type { Rail } from './rails.ts';
import type { Metrics, Sheet } from './sheet.ts';

/** IEC 60757 letters bold, then the name; letters alone where the name does not fit. */
export function leadWordings(
  { code, name }: Pick<LeadPicture, 'code' | 'name'>,
  width = Number.POSITIVE_INFINITY,
): Label['wordings'] {
  if (code === undefined) return [[{ text: name, bold: true }]];
  const letters = { text: code, bold: true };
  const fits = textWidth(code, { size: 12, bold: true }) + textWidth(` ${name}`, { size: 12 }) <= width;
  return fits ? [[letters, { text: ` ${name}` }], [letters]] : [[letters]];
}

interface LeadLabelPlace {
  readonly x: number;
  readonly y: number;
  readonly above: boolean;
  /** Letters alone where the name needs more. */
  readonly width?: number;
}

export function labelLead(sheet: Sheet, lead: LeadPicture, { x, y, above, width }: LeadLabelPlace): void {
  const heights = above ? [y - 9, y + 18] : [y + 18, y - 9];
  sheet.labels.push({
    wordings: leadWordings(lead, sheet.lettersOnly ? 0 : width),
    spots: heights.flatMap((each) =>
      [0, 8, -8, 20, 28].map((shift): Spot => ({ x: x + shift, y: each, anchor: 'start' })),
    ),
    rank: RANK.letters,
  });
}

export function labelWord(sheet: Sheet, text: string, x: number, y: number, below: boolean): void {
  const heights = below ? [y + 17, y - 9] : [y - 9, y + 17];
  sheet.labels.push({
    wordings: [[{ text, quiet: true }]],
    spots: heights.flatMap((each) => [0, 8, -7].map((shift): Spot => ({ x: x + shift, y: each, anchor: 'start' }))),
    rank: RANK.end,
  });
}

export function labelTerminal(net: NetPicture, y: number, sheet: Sheet, metrics: Metrics, quiet = false): void {
  sheet.labels.push({
    wordings: quiet
      ? [[{ text: net.label, quiet }], [{ text: sheet.t(net.kind === 'free' ? 'free' : 'open'), quiet }]]
      : [[{ text: net.label }]],
    spots: quiet
      ? besideOpenEnd(metrics.terminals - metrics.railStep, y)
      : [
          { x: metrics.terminalLabel, y: y + 5, anchor: 'start' },
          // Beside a ring round the terminal.
          { x: metrics.terminalLabel + 6, y: y + 5, anchor: 'start' },
          { x: metrics.terminalLabel, y: y + 24, anchor: 'start' },
        ],
    size: quiet ? 12 : 14,
    rank: quiet ? RANK.name : RANK.terminal,
    rim: quiet,
  });
}

/** At a short bar, beside a ring round it, or off the row. */
export function besideOpenEnd(x: number, y: number): readonly Spot[] {
  return [
    { x: x + 10, y: y + 4, anchor: 'start' },
    { x: x + 21, y: y + 4, anchor: 'start' },
    { x: x + 26, y: y + 4, anchor: 'start' },
    { x: x - 6, y: y + 18, anchor: 'end' },
    { x: x - 20, y: y + 18, anchor: 'end' },
    { x: x - 6, y: y - 10, anchor: 'end' },
    { x: x - 20, y: y - 10, anchor: 'end' },
    { x: x + 10, y: y + 26, anchor: 'start' },
  ];
}

export function labelLink(net: NetPicture, { column, rows }: Rail, sheet: Sheet, metrics: Metrics): void {
  const [first, last] = [rows.at(0), rows.at(-1)];
  if (first === undefined || last === undefined) return;
  const middle = (first.y + last.y) / 2;
  const x = column - 13;
  const far = metrics.cableShield - 24;
  sheet.labels.push({
    wordings: [[{ text: net.label, bold: true }]],
    spots: [0, 7, 30, 44]
      .flatMap((aside) =>
        [-2, 5, 12, -10, -20, 24].map((shift): Spot => ({ x: x - aside, y: middle + shift, anchor: 'end' })),
      )
      .concat(column < metrics.terminals ? [{ x: column + 12, y: middle + 5, anchor: 'start' }] : []),
    size: 14,
    rank: RANK.terminal,
  });
  if (net.detail === undefined || last.y - first.y < 44) return;
  sheet.labels.push({
    wordings: [[{ text: net.detail, quiet: true }]],
    spots: [14, 21, 28, -20]
      .map((shift): Spot => ({ x, y: middle + shift, anchor: 'end' }))
      .concat({ x: far, y: middle, anchor: 'end' }),
    rank: RANK.caption,
    mayDrop: true,
  });
}
