/**
 * The odds that several numbers come out within their tolerances at once. What they share (one spool, one bobbin) moves them together, so
 * they are drawn together: each named cause once a draw, each number's own error beside it.
 */
import { type JudgedAim, limitsOf } from '../estimates/aims.ts';
import { ownDeviation } from '../quantities/estimate.ts';

const DRAWS = 4000;

/** 0 to 1. Of one number by its distribution; of those that are not known, nothing is said. */
export function jointOdds(judged: readonly JudgedAim[]): number {
  const known = judged.filter(({ odds }) => odds !== undefined);
  // Hum near a null is no normal number and shares nothing that is named.
  const alone = known.filter(({ aim, reached, odds }) => aim.kind === 'hum' || !reached || odds === 0);
  const together = known.filter((each) => !alone.includes(each));
  const product = alone.reduce((all, { odds = 1 }) => all * odds, 1);
  if (product === 0 || together.length === 0) return product;
  return product * (together.length === 1 ? (together[0]?.odds ?? 1) : drawnOdds(together));
}

function drawnOdds(judged: readonly JudgedAim[]): number {
  const numbers = judged.flatMap(({ aim, reached }) =>
    reached
      ? [{ value: reached.value, own: ownDeviation(reached), sources: reached.sources ?? {}, ...limitsOf(aim) }]
      : [],
  );
  const causes = [...new Set(numbers.flatMap(({ sources }) => Object.keys(sources)))];
  const shares = numbers.map(({ sources }) => causes.map((cause) => sources[cause] ?? 0));
  const normal = normals();
  let within = 0;
  for (let draw = 0; draw < DRAWS; draw++) {
    const drawn = causes.map(() => normal());
    const isWithin = numbers.every(({ value, own, least, most }, index) => {
      const moved = (shares[index] ?? []).reduce((sum, share, cause) => sum + share * (drawn[cause] ?? 0), value);
      const at = moved + own * normal();
      return least <= at && at <= most;
    });
    if (isWithin) within++;
  }
  return within / DRAWS;
}

/** Normal deviates by the polar method of Marsaglia and Bray (1964), from a generator that begins alike each time. */
function normals(): () => number {
  let state = 0x2545f491;
  const uniform = (): number => {
    // Xorshift of 32 bits, Marsaglia (2003).
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
  let spare: number | undefined;
  return () => {
    if (spare !== undefined) {
      const kept = spare;
      spare = undefined;
      return kept;
    }
    for (;;) {
      const [u, v] = [2 * uniform() - 1, 2 * uniform() - 1];
      const square = u * u + v * v;
      if (square === 0 || square >= 1) continue;
      const factor = Math.sqrt((-2 * Math.log(square)) / square);
      spare = v * factor;
      return u * factor;
    }
  };
}
