/**
 * One verdict on hum: what findings, the drawings, the schematic and a plan of repairs say in words of a random pickup or position is
 * the same, and is what its level says.
 */
import assert from 'node:assert/strict';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import type { Finding } from '../../server/src/checks/finding.ts';
import { instrumentPicture } from '../../server/src/documents/instrument-diagram/from-model.ts';
import { positionsPicture } from '../../server/src/documents/positions-picture.ts';
import { pickupPicture } from '../../server/src/documents/wiring-diagram/from-model.ts';
import { humVerdict } from '../../server/src/estimates/phase.ts';
import { positionLevels } from '../../server/src/estimates/positions.ts';
import { outlookOf } from '../../server/src/repair/outlook.ts';
import { HUM_WORDS } from '../../server/src/words/heard.ts';
import { capital } from '../../server/src/words/text.ts';
import { analyse } from '../support/check-fixture.ts';
import { instrumentText, pickupText, randomInstrument, randomPickup } from './structure.ts';

/** The words that stand for no other verdict than that one. */
const SAID: readonly (readonly [RegExp, string])[] = [
  [/hum cancels (only )?in part/i, HUM_WORDS['in part']],
  [/hum does not cancel|is not cancelled/i, HUM_WORDS.hums],
  [/hum adds|hum of .* adds/i, HUM_WORDS.adds],
  [/hum cancels\b(?! (only )?in part)/i, HUM_WORDS.gone],
];

const verdictsIn = (words: string): readonly string[] =>
  SAID.flatMap(([pattern, verdict]) => (pattern.test(words) ? [verdict] : []));

/** Of what a finding says is the case, not of what a change would leave. */
const humFindings = (findings: readonly Finding[]): readonly string[] =>
  findings.flatMap(({ code, what }) => (/^hum\//.test(code) ? [what] : []));

describe('what is said of hum', () => {
  it('is one verdict in every position of random instruments', () => {
    const seen = new Set<string>();
    for (let seed = 20; seed < 33; seed += 1) {
      const analysis = analyse(instrumentText(randomInstrument(seed)));
      const [analysed] = analysis.instruments;
      assert.ok(analysed);
      const { instrument } = analysed;
      const findings = [...analysed.findings, ...analysed.lateFindings()];
      const rows = positionsPicture(analysis, analysed)?.rows ?? [];
      instrument.positions.forEach((position, index) => {
        const key = position.key.value;
        const estimates = analysed.positions()[index];
        const row = rows[index];
        assert.ok(estimates && row);
        const drawn = row.verdict.sentences.map(({ text }) => text).join(' ');
        const expected = verdictsIn(drawn);
        if (expected.length === 0) return;
        const about = `seed ${seed}, position ${key}, ${estimates.humDb?.value} dB: ${drawn}`;
        assert.deepEqual(expected, [HUM_WORDS[humVerdict(estimates.humDb?.value ?? 0)]], about);
        const planned = positionLevels(
          { instrument, quickOf: quickOf(analysis.bench), bench: analysis.bench },
          position,
        );
        if (planned.hum) assert.deepEqual([HUM_WORDS[planned.hum]], expected, `${about} in a plan`);
        const facts = JSON.stringify(instrumentPicture(analysis, analysed, { live: key }));
        assert.ok(facts.includes(JSON.stringify(drawn).slice(1, -1)), `${about} in the schematic: ${facts}`);
        for (const what of humFindings(findings.filter(({ subject }) => subject.position === key))) {
          const said = verdictsIn(what);
          assert.deepEqual(
            said.length > 0 ? said : /\bhums\b/.test(what),
            said.length > 0 ? expected : true,
            `${about} ${what}`,
          );
          if (said.length === 0) assert.doesNotMatch(expected.join(), /cancels/, `${about} ${what}`);
          seen.add(what.replace(/position \d+.*$/, ''));
        }
        for (const verdict of expected) seen.add(verdict);
      });
    }
    assert.ok(seen.size >= 5, [...seen].join('; '));
  });

  it('is one verdict of random pickups', () => {
    const seen = new Set<string>();
    for (let seed = 0; seed < 40; seed += 1) {
      const analysis = analyse(pickupText(randomPickup(seed)));
      const [analysed] = analysis.pickups;
      assert.ok(analysed);
      const heading = pickupPicture(analysis, analysed).verdict?.hum.heading;
      const humDb = analysed.quick.humDb?.value;
      if (heading === undefined || humDb === undefined || heading === 'Hum') continue;
      const about = `seed ${seed}, ${humDb} dB: ${heading}`;
      assert.equal(heading, capital(HUM_WORDS[humVerdict(humDb)]), about);
      const [heard] = outlookOf(analysis, { pickups: [analysed.pickup], instrument: undefined });
      if (heard?.hum) assert.equal(capital(HUM_WORDS[heard.hum]), heading, about);
      for (const what of humFindings([...analysed.findings, ...analysed.lateFindings()])) {
        assert.deepEqual(verdictsIn(what).map(capital), [heading], `${about} ${what}`);
        seen.add(heading);
      }
    }
    assert.ok(seen.has('Hum adds') && seen.has('Hum cancels in part'), [...seen].join('; '));
  });
});
