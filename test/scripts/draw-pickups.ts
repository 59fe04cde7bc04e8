/**
 * Draws the pickups of test/estimates/drawn-cases.ts and writes the scatter of their numbers, which takes half a minute and more:
 * npx tsx test/scripts/draw-pickups.ts && npx biome check --write test/estimates
 */
import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { CASES } from '../estimates/drawn-cases.ts';
import { type DrawnFigures, drawnFigures, drawsOf } from '../support/drawn-pickup.ts';

const SAMPLES = 300;

const statistics = (values: readonly (number | null)[]) => {
  const known = values.flatMap((each) => (each === null || !Number.isFinite(each) ? [] : [each]));
  if (known.length < 2) return { known: known.length / values.length };
  const mean = known.reduce((sum, each) => sum + each, 0) / known.length;
  const variance = known.reduce((sum, each) => sum + (each - mean) ** 2, 0) / (known.length - 1);
  return { mean: rounded(mean), sd: rounded(Math.sqrt(variance)), known: known.length / values.length };
};

const rounded = (value: number) => Number(value.toPrecision(6));

const cases = Object.fromEntries(
  Object.entries(CASES).map(([name, drawn], index) => {
    const draws = drawsOf(2026 + index);
    const all = Array.from({ length: SAMPLES }, () => drawnFigures(drawn, draws));
    const loads = drawn.loads.map((_, load) => ({
      hz: statistics(all.map(({ hz }) => hz[load] ?? null)),
      db: statistics(all.map(({ db }) => db[load] ?? null)),
    }));
    const of = (pick: (each: DrawnFigures) => number) => statistics(all.map(pick));
    const result = {
      ohm: of(({ ohm }) => ohm),
      henry: of(({ henry }) => henry),
      farad: of(({ farad }) => farad),
      loads,
    };
    return [name, { seed: 2026 + index, first: all.slice(0, 2), ...result }];
  }),
);

const file = path.join(import.meta.dirname, '..', 'estimates', 'drawn-pickups.json');
writeFileSync(file, `${JSON.stringify({ samples: SAMPLES, cases }, undefined, 2)}\n`);
