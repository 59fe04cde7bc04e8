import { part, WIDEST_FACE } from '../drawing-sheet.ts';
import { type Box, boxAround, overlap, type Point, wordsAt } from '../labels.ts';
import { circle, d, group, path, type SvgNode } from '../svg.ts';
import { balloon } from '../symbols.ts';
import { textWidth, wrapText } from '../text-width.ts';
import type { JointPlaces } from './draw-leads.ts';
import type { FindingPicture, Ring } from './picture.ts';
import type { Metrics, Sheet } from './sheet.ts';

export interface FindingsHead {
  readonly nodes: readonly SvgNode[];
  readonly bottom: number;
  /** Below which a leader may start, one for each finding. */
  readonly balloons: readonly Point[];
}

/** Above the drawing, each finding with a number: its cause, the remedy as an order, what no meter shows; the code last. */
export function findingsHead(findings: readonly FindingPicture[], top: number, metrics: Metrics): FindingsHead {
  const nodes: SvgNode[] = [];
  const balloons: Point[] = [];
  const left = metrics.margin + 40;
  const width = metrics.width - metrics.margin - left;
  const wrapAt = width / WIDEST_FACE;
  let y = top;
  findings.forEach((finding, index) => {
    const x = metrics.margin + 12;
    const lines: SvgNode[] = [...balloon(x, y + 1, index + 1)];
    balloons.push({ x, y: y + 14 });
    for (const text of wrapText(plain(finding.cause), wrapAt, { size: 14, bold: true })) {
      lines.push(wordsAt(text, left, y, { size: 14 }));
      y += 20;
    }
    const remedy = wrapText(plain(finding.remedy ?? ''), wrapAt, { size: 12 }).map((text) => ({ text, quiet: false }));
    const notes = wrapText(plain(finding.note ?? ''), wrapAt, { size: 12 }).map((text) => ({ text, quiet: true }));
    for (const { text, quiet } of [...remedy, ...notes]) {
      lines.push(wordsAt(text, left, y, { quiet }));
      y += 18;
    }
    const last = [...remedy, ...notes].at(-1)?.text;
    // The code ends the last line where it leaves room, else it has a line of its own.
    const room = last !== undefined && textWidth(`${last} ${finding.code}`, { size: 12 }) + 24 < wrapAt;
    lines.push(wordsAt(finding.code, left + width, room ? y - 18 : y, { quiet: true, anchor: 'end' }));
    if (!room) y += 18;
    nodes.push(
      part(
        `finding:${index + 1}`,
        finding.cause,
        ...(finding.foreign ? [group({ lang: finding.foreign }, ...lines)] : lines),
      ),
    );
    y += 14;
  });
  return { nodes, bottom: findings.length === 0 ? top - 24 : y - 8, balloons };
}

/** A double ring on each joint of a finding, joined to its balloon by a leader where the way down is free, else numbered there. */
export function drawRings(
  findings: readonly FindingPicture[],
  head: FindingsHead,
  { places, topRow }: { readonly places: JointPlaces; readonly topRow: number },
  metrics: Metrics,
  sheet: Sheet,
): void {
  const balloons: Box[] = [];
  findings.forEach((finding, index) => {
    const points = finding.rings.flatMap((ring) => placeOf(ring, places) ?? []).sort((a, b) => a.y - b.y);
    const [first] = points;
    const start = head.balloons[index];
    if (first === undefined || start === undefined) return;
    const nodes: SvgNode[] = points.flatMap(({ x, y }) => [circle('ring', x, y, 12), circle('leader', x, y, 17)]);
    for (const point of points) sheet.obstacles.push(boxRound(point, 17));
    if (index === 0 && first.y <= topRow && metrics.captions) {
      const across = head.bottom + 2;
      nodes.push(path('leader', leader(start, findings.length, across, first)));
      sheet.obstacles.push({ x: first.x - 1, y: across, width: 2, height: Math.max(0, first.y - 17 - across) });
    } else {
      const corner = freeCorner(first, sheet.obstacles, balloons);
      nodes.push(...balloon(corner.x, corner.y, index + 1, 9));
      balloons.push(boxRound(corner, 9));
      sheet.obstacles.push(boxRound(corner, 9));
    }
    points.slice(1).forEach((point, at) => {
      const before = points[at];
      if (before !== undefined && before.x === point.x && point.y - before.y > 34) {
        nodes.push(path('leader', d`M${point.x} ${before.y + 17}V${point.y - 17}`));
        sheet.obstacles.push({ x: point.x - 1, y: before.y, width: 2, height: point.y - before.y });
      }
    });
    sheet.nodes.push(part(`finding:${index + 1}`, finding.cause, ...nodes));
  });
}

/** Down from the balloon, or beside it where another balloon stands below, then across and down to the first ring. */
function leader(start: Point, count: number, across: number, first: Point): string {
  const down = count === 1 ? d`M${start.x} ${start.y}` : d`M${start.x - 13} ${start.y - 13}H${start.x - 20}`;
  return `${down}${d`V${across}H${first.x}V${first.y - 17}`}`;
}

/** Beside the ring, where nothing lies, least of all the balloon of another finding at the same joint. */
function freeCorner({ x, y }: Point, obstacles: readonly Box[], balloons: readonly Box[]): Point {
  const corners = [
    { x: x + 20, y: y - 20 },
    { x: x - 20, y: y - 20 },
    { x: x - 20, y: y + 20 },
    { x: x + 20, y: y + 20 },
    { x: x + 28, y },
    { x, y: y - 28 },
    { x, y: y + 28 },
    { x: x - 28, y },
  ];
  const ring = boxRound({ x, y }, 17);
  const others = obstacles.filter((box) => !overlap(box, ring) || box.height > 34 || box.width > 34);
  const area = (boxes: readonly Box[], corner: Point) =>
    boxes.reduce((sum, box) => sum + sharedArea(box, boxRound(corner, 9)), 0);
  const covered = (corner: Point) => area(others, corner) + 100 * area(balloons, corner);
  return corners.reduce((best, corner) => (covered(corner) < covered(best) ? corner : best));
}

function sharedArea(a: Box, b: Box): number {
  const width = Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x);
  const height = Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y);
  return width > 0 && height > 0 ? width * height : 0;
}

/** Messages mark what is typed with backticks, which a drawing has no use for. */
const plain = (message: string): string => message.replaceAll('`', '');

const boxRound = (at: Point, r: number): Box => boxAround(at, at, r);

function placeOf(ring: Ring, places: JointPlaces): Point | undefined {
  if ('metal' in ring) return places.metal.get(ring.metal);
  return 'lead' in ring ? places.loose.get(ring.lead) : places[ring.at].get(ring.end);
}
