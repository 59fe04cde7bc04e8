/** How a kick is taken, told alike on the card, in the bench view and beside a finding. Common practice, no published source. */

import type { PlainText } from './languages/language.ts';

/** 200 mV or 2 V, or a moving needle with its zero in the middle. */
export const KICK_METER: PlainText = 'lowest DC volts';
export const KICK_MOTION: PlainText = 'steel to the poles';
export const KICK_READ: PlainText = 'pull-off swings the other way; do it three times';
