/**
 * What the work can do to a person, said wherever that work is proposed: on cards, beside plans and fixes, on the pages of findings.
 * Common practice, no published source, but where one is named. It never says that anything is without danger.
 */

import type { PlainText } from './languages/language.ts';

/** Closes every card. */
export const GUIDANCE: PlainText =
  'Common-practice guidance, not legal, medical or electrical certification. Follow the safety data sheet and local rules; use a licensed or competent person where required.';

/** What is at hand when the work is done. */
export type Hazard = 'solder' | 'enamel' | 'magnets' | 'magnetising' | 'winder' | 'wax' | 'hearing' | 'sweep';

const CAUTIONS: Readonly<Record<Hazard, readonly PlainText[]>> = {
  solder: [
    'Solder and iron burn: eye protection, rosin fume extracted. Leaded solder is poisonous: hands washed, no food at the bench, local rules first.',
  ],
  // Isocyanates from heated polyurethane: guidance of health and safety authorities, recalled.
  enamel: [
    'Enamel under the iron gives off harmful fume, polyurethane isocyanates among it: extract it at the joint or strip the wire cold.',
  ],
  // 15 cm is where the dipole field of a usual bar has fallen well below the 0.5 mT of ICNIRP's guidelines of 2009 (recalled).
  magnets: ['Magnets pinch and chip; keep them 15\u202Fcm or more from pacemakers and other implants.'],
  magnetising: [
    'Magnetising: strong magnets snap together over fingers, and the charged capacitors of a magnetiser can kill; nobody with an implant near.',
  ],
  winder: [
    'Guard the spindle; hair and sleeves tied back; no gloves near rotation; stop switch within reach. Mains work by a competent person.',
  ],
  wax: [
    'Read the safety data sheet of the wax; local rules come first.',
    'Melt it in a pot that stands in hot water, clear of the bottom, on an electric plate: no flame, someone always beside it, and a thermometer that is not the thermostat.',
    'A lid and a dry-powder or carbon-dioxide extinguisher within reach; water on burning wax throws it about.',
    'Only dry parts; fresh air; gloves and eye protection.',
    'A burn: cool running water for 20 minutes, leave the wax on, seek help.',
  ],
  sweep: [
    'Before the test signal plays: loudspeakers off, headphones off the head and unplugged, direct monitoring off. It is loud, and it ends at 22\u202FkHz.',
    'Line level only: never from a loudspeaker output, never into an amplifier that is open or switched on. Phantom power off: its 48\u202FV would go through coil and fingers.',
  ],
  // Half the time for every 3 dB: 8 h at 85 dB is 15 min at 100 dB (NIOSH 98-126, recalled).
  hearing: ['At the amplifier: 15 min at 100 dB is as much for an ear as 8 h at 85 dB.'],
};

/** Each once, in the order of the hazards. */
export const cautionsOf = (...hazards: readonly Hazard[]): readonly PlainText[] =>
  [...new Set(hazards)].flatMap((each) => CAUTIONS[each]);
