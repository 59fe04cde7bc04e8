/** Builds whose odds are held against draws of everything that is not known of them, each with the targets that it may meet. */
import type { Aim } from '../../server/src/estimates/aims.ts';
import { DEFAULT_LOAD } from '../../server/src/estimates/pickup-estimates.ts';
import type { Build, DrawnCase, DrawnFigures } from '../support/drawn-pickup.ts';

const tall = { coreMm: [60, 5.8], heightMm: 11, coils: 'one', turns: 7600 } as const;
const rods: Build = { ...tall, pole: 'rod alnico-5 4.8 x 16 mm' };
const pair: Build = {
  coreMm: [62, 5.8],
  heightMm: 7,
  coils: 'side by side',
  turns: 5000,
  pole: 'slug steel 4.8 x 12.5 mm',
  bar: true,
};

export interface OddsCase {
  readonly drawn: DrawnCase;
  /** Lines of a target, of numbers near what the build comes to: one, two and three at once, some on the edge. */
  readonly targets: readonly string[];
}

const of = (build: Build): DrawnCase => ({ awg: 42, builds: { p: build }, loads: [DEFAULT_LOAD] });

export const CASES: Readonly<Record<string, OddsCase>> = {
  'one coil on rods': {
    drawn: of(rods),
    targets: [
      'resistance 6.1 kohm ± 5 %',
      'resonance 4.4 kHz ± 0.15 kHz loaded',
      'resistance 5.9 kohm ± 5 %; inductance 2.25 H ± 5 %',
      'resistance 5.8 kohm ± 5 %; inductance 2.3 H ± 5 %; resonance 4.4 kHz ± 0.2 kHz loaded',
    ],
  },
  'two coils over a bar': {
    drawn: of(pair),
    targets: [
      'inductance 4.4 H ± 8 %',
      'resonance 3.1 kHz ± 0.2 kHz loaded',
      'resistance 8.1 kohm ± 5 %; resonance 3.0 kHz ± 0.25 kHz loaded',
      'resistance 8.0 kohm ± 4 %; inductance 4.3 H ± 10 %; resonance 3.1 kHz ± 0.3 kHz loaded',
    ],
  },
};

/** Whether a drawn pickup lies within the tolerance of one of the targets. */
export function lands({ kind, wanted, tolerance }: Aim, { ohm, henry, hz }: DrawnFigures): boolean {
  const value = kind === 'resistance' ? ohm : kind === 'inductance' ? henry : (hz[0] ?? Number.NaN);
  return Math.abs(value - wanted) <= tolerance;
}
