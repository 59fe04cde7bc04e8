import { overlap, RANK, type Spot, textBox } from '../labels.ts';
import { dimension } from '../symbols.ts';
import type { PickupPicture } from './picture.ts';
import type { Rail } from './rails.ts';
import type { Layout, Row } from './rows.ts';
import type { Metrics, Sheet } from './sheet.ts';

/** Each resistance between the two leads it is read on; hot to ground at the right edge. */
export function drawResistances(
  picture: PickupPicture,
  layout: Layout,
  rails: ReadonlyMap<string, Rail>,
  metrics: Metrics,
  sheet: Sheet,
): void {
  const single = layout.places.length === 1;
  for (const place of layout.places) {
    const rows = layout.rows.filter((row): row is Row & { kind: 'end' } => row.kind === 'end' && row.place === place);
    const [first, last] = [rows.at(0), rows.at(-1)];
    const text = place.coil.resistance ?? (single ? picture.total?.value : undefined);
    if (first === undefined || last === undefined || text === undefined) continue;
    // Leads that nobody has found cannot be measured between.
    if (rows.some(({ end, net }) => net === undefined && end.own === undefined && end.conductor === undefined))
      continue;
    const between = { x: metrics.resistance, top: first.y + 6, bottom: last.y - 6 };
    // On a narrow sheet the leads go first: the value also stands in the table of joints.
    resistanceBetween(sheet, between, { value: text }, !metrics.captions);
  }
  const { total } = picture;
  const [hot, ground] = [terminalY(rails, 'hot'), terminalY(rails, 'ground')];
  if (total === undefined || single || hot === undefined || ground === undefined) return;
  const between = { x: metrics.total, top: Math.min(hot, ground) + 10, bottom: Math.max(hot, ground) - 10 };
  // Terminals of one coil lie too close together; its own value says the same.
  if (between.bottom - between.top >= heightOf(total)) resistanceBetween(sheet, between, total, false);
}

type Total = NonNullable<PickupPicture['total']>;

const heightOf = ({ uncertainty }: Total): number => (uncertainty === undefined ? 20 : 35);

/** Length of the arrowheads of a dimension line, px. */
const ARROWHEAD = 9;

/** The value in a gap of its dimension line; where the middle is taken, by a ring say, the gap moves along the line. */
function resistanceBetween(
  sheet: Sheet,
  { x, top, bottom }: { readonly x: number; readonly top: number; readonly bottom: number },
  total: Total,
  mayDrop: boolean,
): void {
  const height = heightOf(total);
  const runs = [{ text: total.value, bold: true }];
  const middle = (top + bottom) / 2;
  const width = Math.max(textBox(runs, { x, y: 0, anchor: 'middle' }, 14).width, 40);
  const isFree = (at: number) => {
    const box = { x: x - width / 2, y: at - height / 2, width, height };
    return at - height / 2 >= top && at + height / 2 <= bottom && !sheet.obstacles.some((other) => overlap(box, other));
  };
  const centre = [0, 34, -34, 52, -52, 80, -80].map((shift) => middle + shift).find(isFree) ?? middle;
  const line = dimension(x, top, bottom, height, centre);
  sheet.nodes.push(...line);
  // A rim interrupts the line, but a word on an arrowhead would take what it points to.
  for (const y of line.length === 0 ? [] : [top, bottom - ARROWHEAD])
    sheet.obstacles.push({ x: x - 4, y, width: 8, height: ARROWHEAD });
  const first = centre - height / 2 + 14.5;
  sheet.labels.push({
    wordings: [runs],
    spots: [0, 8, 16, 28, -14].flatMap((aside) =>
      [0, -3, 3].map((shift): Spot => ({ x: x + aside, y: first + shift, anchor: 'middle' })),
    ),
    size: 14,
    rank: RANK.resistance,
    mayDrop,
  });
  if (total.uncertainty === undefined) return;
  sheet.labels.push({
    wordings: [[{ text: `± ${total.uncertainty}`, quiet: true }]],
    spots: [{ x, y: first + 15, anchor: 'middle' }],
    rank: RANK.resistance,
  });
}

function terminalY(rails: ReadonlyMap<string, Rail>, kind: 'hot' | 'ground'): number | undefined {
  return [...rails.values()].find((rail) => rail.net.kind === kind)?.terminal?.y;
}
