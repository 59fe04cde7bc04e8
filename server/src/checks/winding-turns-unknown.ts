import type { Coil } from '../model/coil.ts';
import { coilWords } from '../words/parts.ts';
import { capital } from '../words/text.ts';
import { definePickupCheck } from './pickup-check.ts';
import { say } from './say.ts';

export const windingTurnsUnknown = definePickupCheck({
  code: 'winding/turns-unknown',
  severity: 'information',
  yieldsTo: [],
  run: ({ pickup, quick }) =>
    pickup.coils
      .filter((coil) => !coil.turns && !coil.counted && !quick.readings.has(coil) && !isUnread(coil))
      .map((coil) => ({
        what: say`${capital(coilWords(coil))} has neither turns nor a reading of it.`,
        action: say`Read its resistance with the temperature (\`${coil.name} 4.02 kohm at 21 degC\` in a readings block), and the turns follow from wire and bobbin.`,
        place: coil.place,
        subject: { coils: [coil.name] },
      })),
});

/** A line of turns that could not be read is told for itself. */
const isUnread = ({ unread }: Coil): boolean => unread.includes('turns') || unread.includes('counted');
