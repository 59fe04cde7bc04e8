/** How a reading is taken, told alike wherever one is asked for: an order, which points and in what way. */
import { KICK_METER, KICK_MOTION, KICK_READ } from './kick.ts';
import type { Language } from './languages/language.ts';

/** The two leads that the probes go to. */
export interface ProbedLeads {
  readonly red: string;
  readonly black: string;
}

export const kickOrder = (coil: string, { red, black }: ProbedLeads, t: Language): string =>
  [
    t('Meter at its {0}, red on {1}, black on {2}:', t(KICK_METER), t.word(red), t.word(black)),
    t('bring {0} of the {1} coil; {2}.', t(KICK_MOTION), coil, t(KICK_READ)),
  ].join(' ');

export const compassOrder = (coil: string, t: Language): string =>
  t('Hold a compass over the poles of the {0} coil: the end that turns to them has the other pole.', coil);

export const coilOhmOrder = ({ red, black }: ProbedLeads, t: Language): string =>
  t('Meter in ohms from {0} to {1}, before the two are joined to anything else.', t.word(red), t.word(black));

export const outputOhmOrder = (t: Language): string =>
  t('Meter in ohms from hot to ground, joined and not plugged in.');

export const inductanceOrder = (t: Language): string =>
  t('Inductance meter at 1 kHz, series values, from hot to ground, joined and not plugged in.');
