/** What every card says whether or not it is wanted. Common practice, no published source, but where one is named. */

/** Closes every card. */
export const GUIDANCE =
  'Common-practice guidance, not legal, medical or electrical certification. Follow the safety data sheet and local rules; use a licensed or competent person where required.';

export const WINDER_CAUTIONS: readonly string[] = [
  'Guard the spindle; hair and sleeves tied back; no gloves near rotation; stop switch within reach. Mains work by a competent person.',
];

export const SOLDER_CAUTIONS: readonly string[] = [
  'Extract the rosin fume; eye protection. Lead: wash hands, no food at the bench, local rules on leaded solder.',
];

/** Static field limit for implants, 0.5 mT: ICNIRP guidelines of 2009 (recalled). */
export const MAGNET_CAUTIONS: readonly string[] = ['Magnets pinch and chip; implants stay below 0.5 mT.'];

/** 85 dB for 8 h, halved for every 3 dB: 8 h at 85 dB is 15 min at 100 dB (NIOSH 98-126, recalled). */
export const HEARING_CAUTIONS: readonly string[] = ['At the amplifier: 85 dB for 8 h is the dose of 15 min at 100 dB.'];
