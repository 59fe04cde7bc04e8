/**
 * Stated ± against the scatter of pickups of which every uncertain fact was drawn together (JCGM 101:2008): wire, packing, cores, poles and
 * their permeability, sheets, resistivity, capacitance and its parts, pots, capacitors and cables. The draws are long, so their
 * scatter is stored (test/scripts/draw-pickups.ts); the first of them are drawn here again, so that it is of this model.
 */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import { pickupMagnetics } from '../../server/src/estimates/magnetics.ts';
import { pickupEstimates } from '../../server/src/estimates/pickup-estimates.ts';
import type { Estimate } from '../../server/src/quantities/estimate.ts';
import { analyse } from '../support/check-fixture.ts';
import { type DrawnFigures, drawnFigures, drawsOf, specOf } from '../support/drawn-pickup.ts';
import { CASES, LOAD_WORDS } from './drawn-cases.ts';
import { known, near } from './spec-text.ts';

/** `known`: share of the draws that have the number at all. */
interface Scatter {
  readonly mean?: number;
  readonly sd?: number;
  readonly known: number;
}
interface Stored {
  readonly seed: number;
  readonly first: readonly DrawnFigures[];
  readonly ohm: Scatter;
  readonly henry: Scatter;
  readonly farad: Scatter;
  readonly loads: readonly { readonly hz: Scatter; readonly db: Scatter }[];
}
const STORED = JSON.parse(readFileSync(path.join(import.meta.dirname, 'drawn-pickups.json'), 'utf8')) as {
  readonly cases: Readonly<Record<string, Stored>>;
};

/** Between 0.8 and 1.3 of the scatter. Where some draws have no peak at all, the stated one is within its ± of none. */
function covers(stated: Estimate | null | undefined, { sd = 0, known: share }: Scatter, what: string): void {
  if (share < 0.9) {
    assert.ok(
      !stated || what.endsWith('Hz') || stated.value < 2 * stated.sd,
      `${what}: ${stated?.value} ± ${stated?.sd}`,
    );
    return;
  }
  const ratio = known(stated, what).sd / sd;
  assert.ok(ratio > 0.8 && ratio < 1.3, `${what}: ± ${stated?.sd} where ${sd} is drawn, ${ratio.toFixed(2)}`);
}

describe('± of whole pickups against draws of everything that is not known of them', () => {
  for (const [name, drawn] of Object.entries(CASES)) {
    const stored = STORED.cases[name];
    it(`${name}: 0.8 to 1.3 of the scatter of R, L, C, resonance and peak`, () => {
      assert.ok(stored, name);
      const analysis = analyse(specOf(drawn));
      const [pickup] = analysis.pickups;
      assert.ok(pickup);
      const quick = quickOf(analysis.bench)(pickup.pickup);
      const position = analysis.instruments[0]?.positions()[0];
      if (position) {
        covers(position.resistanceOhm, stored.ohm, 'at the jack');
        covers(position.resonanceHz, stored.loads[0]?.hz ?? { known: 0 }, 'resonance in Hz');
        covers(position.peakDb, stored.loads[0]?.db ?? { known: 0 }, 'peak in dB');
        return;
      }
      const { inductanceH, capacitanceF } = pickupMagnetics(quick);
      covers(quick.resistance20COhm, stored.ohm, 'resistance');
      covers(inductanceH, stored.henry, 'inductance');
      covers(capacitanceF, stored.farad, 'capacitance');
      for (const [index, load] of drawn.loads.entries()) {
        const { resonanceHz, peakDb } = pickupEstimates(quick, undefined, load);
        const { hz, db } = stored.loads[index] ?? { hz: { known: 0 }, db: { known: 0 } };
        covers(resonanceHz, hz, `${LOAD_WORDS[index]}, resonance in Hz`);
        covers(peakDb, db, `${LOAD_WORDS[index]}, peak in dB`);
      }
    });

    it(`${name}: the stored scatter is of this model (else: npx tsx test/scripts/draw-pickups.ts)`, () => {
      assert.ok(stored, name);
      const draws = drawsOf(stored.seed);
      for (const before of stored.first) {
        const now = drawnFigures(drawn, draws);
        for (const key of ['ohm', 'henry', 'farad'] as const) near(now[key], before[key], 0.005, key);
        for (const [index, hz] of before.hz.entries())
          assert.ok(hz === null ? now.hz[index] === null : Math.abs((now.hz[index] ?? 0) / hz - 1) < 0.005, `${hz}`);
        for (const [index, db] of before.db.entries())
          assert.ok(db === null ? now.db[index] === null : Math.abs((now.db[index] ?? 0) - db) < 0.05, `${db}`);
      }
    });
  }
});
