import assert from 'node:assert/strict';
import { type CoilOutline, outerHalfHeight, outermostTurn, spiral } from '../../server/src/documents/coil-spiral.ts';

const outlineOf = (turns: 2 | 3): CoilOutline => ({
  left: 276,
  right: 532,
  centre: 200,
  inner: 21,
  outer: outerHalfHeight(21, turns, 10),
  turns,
  pitch: 10,
});

describe('the coil spiral', () => {
  for (const turns of [2, 3] as const) {
    for (const rotation of ['clockwise', 'counterclockwise'] as const) {
      for (const finishAt of ['top', 'bottom'] as const) {
        const outline = outlineOf(turns);
        const { path, finish } = spiral(outline, {
          clockwise: rotation === 'clockwise',
          finishAt,
          startX: 599,
          finishX: 600,
          finishRow: 60,
        });
        const points = pointsOf(path);

        it(`${turns} turns ${rotation}, finish at the ${finishAt}: turns that way from start to finish`, () => {
          // Angle swept round the middle of the coil, y pointing down as on paper: positive is clockwise.
          const swept = sweptTurns(points, 404, 200);
          assert.ok(Math.abs(swept) > turns - 0.3 && Math.abs(swept) < turns + 0.6, String(swept));
          assert.equal(Math.sign(swept), rotation === 'clockwise' ? 1 : -1);
        });

        it(`${turns} turns ${rotation}, finish at the ${finishAt}: starts on the centre line, leaves at its edge heading right`, () => {
          assert.deepEqual(points[0], { x: 599, y: 200 });
          const [before, last] = [points.at(-2), points.at(-1)];
          assert.ok(before !== undefined && last !== undefined && last.x > before.x && last.y === before.y);
          assert.deepEqual(last, finish);
          assert.equal(Math.sign(finish.y - 200), finishAt === 'top' ? -1 : 1);
        });

        it(`${turns} turns ${rotation}, finish at the ${finishAt}: never crosses its own turns`, () => {
          const heights = points.filter(({ x }) => x === outline.left).map(({ y }) => Math.abs(y - 200));
          assert.deepEqual(
            heights,
            [...heights].sort((a, b) => a - b),
          );
          assert.equal(outermostTurn(outline), Math.max(...heights));
          assert.ok(outermostTurn(outline) < outline.outer);
        });
      }
    }
  }
});

/** Corners of the path: the end points of its straights and arcs, arcs with a point at their middle. */
function pointsOf(path: string): readonly { x: number; y: number }[] {
  const points: { x: number; y: number }[] = [];
  for (const [, command = '', list = ''] of path.matchAll(/([MHVA])([^MHVA]*)/g)) {
    const numbers = list.trim().split(/[ ,]+/).map(Number);
    const from = points.at(-1) ?? { x: 0, y: 0 };
    const [a = 0, b = 0, , , sweep = 0, x = 0, y = 0] = numbers;
    if (command === 'M') points.push({ x: a, y: b });
    else if (command === 'H') points.push({ x: a, y: from.y });
    else if (command === 'V') points.push({ x: from.x, y: a });
    else {
      const half = { x: (x - from.x) / 2, y: (y - from.y) / 2 };
      const chord = Math.hypot(half.x, half.y);
      const rise = a - Math.sqrt(Math.max(0, a * a - chord * chord));
      const way = sweep === 1 ? 1 : -1;
      points.push(
        { x: from.x + half.x + (way * half.y * rise) / chord, y: from.y + half.y - (way * half.x * rise) / chord },
        { x, y },
      );
    }
  }
  return points;
}

function sweptTurns(points: readonly { x: number; y: number }[], x: number, y: number): number {
  const angles = points.map((point) => Math.atan2(point.y - y, point.x - x));
  const steps = angles.slice(1).map((angle, index) => {
    const step = angle - (angles[index] ?? 0);
    return step - 2 * Math.PI * Math.round(step / (2 * Math.PI));
  });
  return steps.reduce((sum, step) => sum + step, 0) / (2 * Math.PI);
}
