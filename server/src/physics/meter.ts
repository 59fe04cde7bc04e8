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

/** The ± of a reading, in Ω: the resistance behind it lies within. */
export function readingLimitOhm({ accuracyPercent, digits, resolutionOhm }: Meter, readingOhm: number): number {
  return (accuracyPercent / 100) * readingOhm + digits * resolutionOhm;
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
