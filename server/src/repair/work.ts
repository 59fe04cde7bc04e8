import type { Hazard } from '../words/cautions.ts';

/**
 * How much work each change is. Minutes of one person at a bench with the strings off, taking the pickup out and in
 * included: common practice, no published source. Only their order and rough size matter to the planner.
 */
export type Work =
  | 'other coil of a split'
  | 'dummy turned round'
  | 'shield by itself'
  | 'dummy at its hookup'
  | 'hot and ground'
  | 'leads outside'
  | 'leads inside'
  | 'shield off a coil'
  | 'bar magnet'
  | 'rods of a coil'
  | 'rods of all coils'
  | 'rewind';

export interface Effort {
  readonly minutes: number;
  readonly reason: string;
}

/** What is at hand for it. Whatever opens a pickup or makes a joint takes an iron. */
export function hazardsOf(work: Work): readonly Hazard[] {
  switch (work) {
    case 'bar magnet':
      return ['solder', 'magnets'];
    case 'rods of a coil':
    case 'rods of all coils':
      return ['magnets', 'magnetising'];
    case 'rewind':
      return ['winder', 'solder', 'enamel'];
    case 'leads inside':
    case 'shield off a coil':
      return ['solder', 'enamel'];
    default:
      return ['solder'];
  }
}

export const WORK: Readonly<Record<Work, Effort>> = {
  'shield by itself': { minutes: 8, reason: 'one wire comes off a joint and goes to ground by itself' },
  'other coil of a split': { minutes: 10, reason: 'one wire moves at the switch' },
  'dummy turned round': { minutes: 10, reason: 'two wires change places at the switch' },
  'dummy at its hookup': { minutes: 12, reason: 'two wires change places where it is soldered in' },
  'hot and ground': { minutes: 12, reason: 'two wires change places at the switch; the pickup stays closed' },
  'leads outside': { minutes: 15, reason: 'two wires change places in two joints; the pickup stays closed' },
  'bar magnet': { minutes: 30, reason: 'the pickup is opened underneath and the bar slid out, turned and put back' },
  'rods of a coil': {
    minutes: 35,
    reason: 'they stay where they are, between two strong magnets: pressed out, rods take the winding with them',
  },
  'rods of all coils': {
    minutes: 45,
    reason: 'all in one go where they are: pressed out, rods take the winding with them',
  },
  'leads inside': { minutes: 50, reason: 'the pickup is opened and two joints of thin wire are made anew' },
  'shield off a coil': {
    minutes: 55,
    reason: 'the pickup is opened, the coil gets a lead of its own, and the shield goes to ground by itself',
  },
  rewind: { minutes: 240, reason: 'the coil is cut off and wound again' },
};

/** Work inside a pickup that a cover is in the way of. */
export const OPENS: readonly Work[] = ['bar magnet', 'leads inside', 'shield off a coil', 'rewind'];

/** Once for a pickup, whatever is done inside. */
export const COVER: Effort = {
  minutes: 20,
  reason: 'its joints to the baseplate are unsoldered, and soldered again at the end',
};
