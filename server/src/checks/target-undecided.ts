import { type JudgedAim, judgedAims, quickAims } from '../estimates/aims.ts';
import { largestCause } from '../estimates/causes.ts';
import { aimName, oddsWords, reachedText } from '../words/aim-words.ts';
import { capital } from '../words/text.ts';
import type { Found } from './check.ts';
import { definePickupCheck } from './pickup-check.ts';

const TARGET_UNDECIDED = {
  code: 'target/undecided',
  severity: 'hint',
  yieldsTo: ['circuit/open', 'circuit/output-shorted', 'circuit/coil-shorted', 'winding/does-not-fit'],
} as const;

/** Resistance, and the turns of two coils. */
export const targetUndecided = definePickupCheck({
  ...TARGET_UNDECIDED,
  run: ({ quick, bench }) => quickAims(quick, bench).map(undecided),
});

/** All that asks for an inductance. */
export const targetSoundUndecided = definePickupCheck({
  ...TARGET_UNDECIDED,
  late: true,
  run: ({ quick, bench }) => {
    const told = new Set(quickAims(quick, bench).map(({ aim }) => aim));
    return judgedAims(quick, bench).flatMap((each) => (told.has(each.aim) ? [] : (undecided(each) ?? [])));
  },
});

function undecided(judged: JudgedAim): Found | undefined {
  const { aim, reached, odds, verdict } = judged;
  if (verdict !== 'not decidable' || !reached || odds === undefined) return undefined;
  const largest = largestCause(reached);
  return {
    what: (t) =>
      t(
        'Whether the target of {0} is reached is not decidable within the uncertainty: the {1} comes to {2}, within the tolerance with odds of {3}.',
        aim.written,
        aimName(judged, t).what,
        reachedText(judged, t),
        oddsWords(odds, t),
      ),
    action: (t) =>
      largest
        ? t('{0}: that settles it sooner than anything else.', capital(t(largest.measurement)))
        : t('Read it once it is wound.'),
    place: aim.place,
  };
}
