/** Builds whose ± are held against draws of everything that is not known of them. */
import { DEFAULT_LOAD, type Load, NO_LOAD } from '../../server/src/estimates/pickup-estimates.ts';
import type { Build, DrawnCase } from '../support/drawn-pickup.ts';

export const LOAD_WORDS = ['bare', '500 kohm', '250 kohm'] as const;
const HALF: Load = { ...DEFAULT_LOAD, volumeOhm: 250e3, toneOhm: 250e3 };
const LOADS = [NO_LOAD, DEFAULT_LOAD, HALF];

const tall = { coreMm: [60, 5.8], heightMm: 11, coils: 'one', turns: 7600 } as const;
const steel: Build = { ...tall, pole: 'screw steel 4.8 x 16 mm' };
const alnico: Build = { ...tall, pole: 'rod alnico-5 4.8 x 16 mm' };
const pair: Build = {
  coreMm: [62, 5.8],
  heightMm: 7,
  coils: 'side by side',
  turns: 5000,
  pole: 'slug steel 4.8 x 12.5 mm',
  bar: true,
};

/** Played through one volume and one tone; a meter at the jack reads them with no amplifier. */
const instrument = (ohm: string) => `instrument i {
  pickup neck p at 160 mm
  pickup bridge q at 40 mm
  controls {
    volume ${ohm} audio
    tone ${ohm} audio with 22 nF
  }
  selector {
    1 "both" neck parallel bridge
  }
}
`;
const played = (ohm: number): Load => ({ ...DEFAULT_LOAD, volumeOhm: ohm, toneOhm: ohm });

export const CASES: Readonly<Record<string, DrawnCase>> = {
  'two coils under a cover': {
    awg: 42,
    builds: {
      p: {
        ...pair,
        metal: '  cover nickel-silver THICK tied to a1\n  baseplate nickel-silver THICK tied to a1\n',
        potted: true,
      },
    },
    loads: LOADS,
  },
  'two coils': { awg: 42, builds: { p: pair }, loads: LOADS },
  'one coil, steel poles': { awg: 42, builds: { p: steel }, loads: LOADS },
  'one coil, alnico rods': { awg: 42, builds: { p: alnico }, loads: LOADS },
  'one coil without poles under a cover': {
    awg: 42,
    builds: { p: { ...tall, pole: 'none', metal: '  cover nickel-silver THICK tied to a1\n' } },
    loads: LOADS,
  },
  'a tapped coil': { awg: 43, builds: { p: { ...steel, turns: 9000, tap: 6300 } }, loads: LOADS },
  'a stack': {
    awg: 44,
    builds: { p: { ...alnico, heightMm: 5, coils: 'stacked', turns: 8000 } },
    loads: LOADS,
  },
  'two pickups at 500 kohm': {
    awg: 42,
    builds: { p: alnico, q: { ...steel, turns: 8000 } },
    loads: [played(500e3)],
    after: instrument('500 kohm'),
  },
  'two pickups at 250 kohm': {
    awg: 42,
    builds: { p: alnico, q: alnico },
    loads: [played(250e3)],
    after: instrument('250 kohm'),
  },
};
