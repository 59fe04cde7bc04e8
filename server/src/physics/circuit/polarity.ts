/** Rotation of a winding from its start (inner end) to its finish, seen from the strings down onto the pickup. */
export type Wound = 'clockwise' | 'counterclockwise';

/** The pole that faces the strings. */
export type Poles = 'north-up' | 'south-up';

/** What moves steel does near the poles: comes toward them, as a string swinging down, or leaves them. */
export type Motion = 'approach' | 'pull-off';

export function windSign(wound: Wound): 1 | -1 {
  return wound === 'counterclockwise' ? 1 : -1;
}

export function poleSign(poles: Poles): 1 | -1 {
  return poles === 'north-up' ? 1 : -1;
}

/**
 * Sign of the e.m.f. from start to finish that a moving string or piece of steel makes. Steel coming closer to a north
 * pole strengthens the flux toward the strings; by Lenz's rule the current it drives runs clockwise seen from
 * there (Faraday 1831, Lenz 1834).
 */
export function stringEmfSign(wound: Wound, poles: Poles, motion: Motion = 'approach'): 1 | -1 {
  const approaching = windSign(wound) * poleSign(poles) < 0;
  return approaching === (motion === 'approach') ? 1 : -1;
}

/** Sign of the e.m.f. from start to finish while a uniform field's flux toward the strings falls: the poles play no part. */
export function humEmfSign(wound: Wound): 1 | -1 {
  return windSign(wound);
}
