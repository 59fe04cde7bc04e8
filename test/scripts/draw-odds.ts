/**
 * Draws the pickups of test/proposal/odds-cases.ts a thousand times each and writes the share that lands within each target, which takes
 * a minute and more: npx tsx test/scripts/draw-odds.ts && npx biome check --write test/proposal
 */
import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { CASES, lands } from '../proposal/odds-cases.ts';
import { aimsFor } from '../proposal/odds-spec.ts';
import { drawnFigures, drawsOf } from '../support/drawn-pickup.ts';

const DRAWS = 1000;

const cases = Object.fromEntries(
  Object.entries(CASES).map(([name, { drawn, targets }], index) => {
    const seed = 4100 + index;
    const draws = drawsOf(seed);
    const all = Array.from({ length: DRAWS }, () => drawnFigures(drawn, draws));
    const landed = targets.map((target) => {
      const aims = aimsFor(drawn, target).map(({ aim }) => aim);
      return all.filter((figures) => aims.every((aim) => lands(aim, figures))).length;
    });
    return [name, { seed, first: all.slice(0, 2), landed }];
  }),
);

const file = path.join(import.meta.dirname, '..', 'proposal', 'odds-drawn.json');
writeFileSync(file, `${JSON.stringify({ draws: DRAWS, cases }, undefined, 2)}\n`);
