/** The cable that a pickup brings along. */

import type { Pickup } from '../model/pickup.ts';
import { CABLE_F_PER_M, type CableKind } from '../physics/capacitance.ts';
import { type Estimate, estimateOf } from '../quantities/estimate.ts';
import { causes, pieceName } from './causes.ts';
import { OWN_CABLE_M, OWN_CABLE_RELATIVE_SD, STATED_CABLE_RELATIVE_SD } from './common-practice.ts';
import { because, type Reason } from './reasons.ts';

/**
 * Capacitance of the pickup's own cable, across the output: as stated, else of a usual length and of the kind that its shield and
 * conductors say; the coils' own leads are a pair.
 */
export function ownCable(pickup: Pickup): Estimate {
  const { cable } = pickup;
  const kind = cable?.value.kind ?? usualKind(pickup);
  const { least, most } = CABLE_F_PER_M[kind];
  const stated = cable?.value.capacitancePerLength;
  const perM = stated?.si ?? (least + most) / 2;
  const perMRelativeSd = stated ? STATED_CABLE_RELATIVE_SD : (most - least) / Math.sqrt(12) / perM;
  const lengthM = cable?.value.length.si ?? OWN_CABLE_M;
  const lengthWords = cable ? cable.value.length.written : because('{0}, assumed', `${OWN_CABLE_M} m`);
  const perLengthWords = stated
    ? stated.written
    : because(KIND_WORDS[kind], `${Math.round(least * 1e12)} to ${Math.round(most * 1e12)} pF/m`);
  const farad = lengthM * perM;
  return estimateOf(farad, {
    sd: farad * Math.hypot(perMRelativeSd, cable ? 0 : OWN_CABLE_RELATIVE_SD),
    basis: cable ? 'stated' : 'assumed',
    restsOn: [because('its cable of {0}: {1}', lengthWords, perLengthWords)],
    source: causes.leadCapacitance(pieceName(pickup)),
  });
}

const KIND_WORDS: Readonly<Record<CableKind, Reason>> = {
  braid: 'one conductor in a braid, {0}',
  'four-conductor': 'conductors in a shield, {0}',
  pair: 'a pair of wires, {0}',
};

function usualKind({ shield, conductors }: Pickup): CableKind {
  if (!shield) return 'pair';
  return conductors.length > 2 ? 'four-conductor' : 'braid';
}

/** A cable's capacitance as the words of an estimate have it. */
export const farads = (farad: number): string => `${Number((farad * 1e12).toPrecision(4))} pF`;
