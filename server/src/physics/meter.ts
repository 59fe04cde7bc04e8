/**
 * An ohmmeter as its data sheet states it: accuracy ± (percent of reading + digits of the last place). This is a limit,
 * not a standard deviation.
 */
export interface Meter {
  readonly accuracyPercent: number;
  readonly digits: number;
  /** Value of one step of the last digit, in Ω. */
  readonly resolutionOhm: number;
}

export interface ReadingLimits {
  readonly plusMinusOhm: number;
  readonly lowOhm: number;
  readonly highOhm: number;
}

/** Between which values the resistance behind a reading lies, in Ω. */
export function readingLimits(meter: Meter, readingOhm: number): ReadingLimits {
  const plusMinusOhm = (meter.accuracyPercent / 100) * readingOhm + lastDigitsOhm(meter);
  return { plusMinusOhm, lowOhm: readingOhm - plusMinusOhm, highOhm: readingOhm + plusMinusOhm };
}

/** What the display shows of a resistance, in Ω: rounded to its resolution. */
export function displayedOhm({ resolutionOhm }: Meter, ohm: number): number {
  return resolutionOhm > 0 ? Math.round(ohm / resolutionOhm) * resolutionOhm : ohm;
}

/** Two resistances side by side, in Ω: hands on both probes, a pot across a pickup. Infinite is open. */
export function parallelOhm(a: number, b: number): number {
  if (a === 0 || b === 0) return 0;
  return 1 / (1 / a + 1 / b);
}

/**
 * The resistance that, beside `otherOhm`, reads as `readingOhm`: the pickup behind its volume pot, in Ω. `null`
 * where no resistance does, because the reading is not below the other one.
 */
export function besideOhm(readingOhm: number, otherOhm: number): number | null {
  return readingOhm < otherOhm ? 1 / (1 / readingOhm - 1 / otherOhm) : null;
}

/**
 * Reading at the jack, in Ω, of a pickup behind a volume pot with `wiperFraction` of its track between wiper and
 * ground; the tone capacitor is open to direct current, and nothing is plugged in beside the meter.
 */
export function jackReadingOhm(pickupOhm: number, volumePotOhm: number, wiperFraction: number): number {
  return parallelOhm(pickupOhm + (1 - wiperFraction) * volumePotOhm, wiperFraction * volumePotOhm);
}

/**
 * Limit of the difference of two readings, in Ω. Two meters, or two ranges: both limits as independent, root of
 * the sum of squares. One meter on one range: the percentage is common to both and drops out of their ratio, only the
 * digits count, root of the sum of squares as well.
 */
export function differenceLimitOhm(meter: Meter, firstOhm: number, secondOhm: number, sameMeterAndRange: boolean) {
  const limit = (ohm: number) => (sameMeterAndRange ? lastDigitsOhm(meter) : readingLimits(meter, ohm).plusMinusOhm);
  return Math.hypot(limit(firstOhm), limit(secondOhm));
}

function lastDigitsOhm({ digits, resolutionOhm }: Meter): number {
  return digits * resolutionOhm;
}
