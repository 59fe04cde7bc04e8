/** Inductance of one coil: in air, with its poles, and with what lies beneath them. */

import type { Coil } from '../model/coil.ts';
import type { Pickup } from '../model/pickup.ts';
import { METALS } from '../physics/constants.ts';
import { demagnetisingFactor } from '../physics/demagnetising-factor.ts';
import { magneticPart } from '../physics/eddies/magnetic-parts.ts';
import { type CoilSection, inductancePerTurnSquaredH } from '../physics/inductance.ts';
import { POLE_MODEL_RELATIVE_SD } from '../physics/pole-pieces.ts';
import { type Estimate, estimateOf, functionOf, product } from '../quantities/estimate.ts';
import { causes, coilPath, pieceName } from './causes.ts';
import { gradeOf, isDistanceAssumed, metalOf, ORIGIN, polesOf } from './coil-places.ts';
import type { WindingEstimates } from './coil-winding.ts';
import {
  BENEATH_POLES,
  BLADE_RELATIVE_SD,
  DEFAULT_COILS_APART_M,
  OUTLINE_INDUCTANCE_RELATIVE_SD,
  SINTERED_SPREAD_FACTOR,
} from './common-practice.ts';
import { magneticParts } from './magnetic-parts.ts';
import { because } from './reasons.ts';

/**
 * The factor of what lies beneath the poles, of L and M alike, taken as even between its limits (JCGM 100:2008, 4.3.7): 1.125 with a
 * standard deviation of 0.25/√12. Two-coil pickups of 5,000 turns of 42 AWG measure some 4.4 H (common practice).
 */
export function steelBeneath(pickup: Pickup): Estimate {
  const steel = pickup.metal.some(
    ({ part, material }) => part === 'baseplate' && (metalOf(material)?.relativePermeability ?? 1) > 10,
  );
  if (!pickup.barMagnet && !steel) return estimateOf(1, { basis: 'computed' });
  return estimateOf((BENEATH_POLES.least + BENEATH_POLES.most) / 2, {
    sd: (BENEATH_POLES.most - BENEATH_POLES.least) / Math.sqrt(12),
    basis: 'assumed',
    restsOn: [
      because(
        pickup.barMagnet
          ? 'bar magnet and keeper beneath the poles add 0 to 25 %, assumed'
          : 'steel baseplate beneath the poles add 0 to 25 %, assumed',
      ),
    ],
    source: causes.beneath(pieceName(pickup)),
  });
}

/**
 * A steel cover closes the field's way round the coil: the factor of a closed round one (see magnetic-parts.ts), and half of what it
 * adds as its error, since a real one has holes for its poles and another shape.
 */
export function steelAround(pickup: Pickup): Estimate {
  const cover = magneticParts(pickup).find((part) => part === 'steel-cover' || part === 'steel-cover-over-steel');
  if (!cover) return estimateOf(1, { basis: 'computed' });
  const { stillFactor } = magneticPart(cover);
  return estimateOf(stillFactor, {
    sd: (stillFactor - 1) / 2,
    basis: 'assumed',
    restsOn: [because('a steel cover raises the inductance as a closed round one does, to half of it')],
    source: causes.metalwork(pieceName(pickup)),
  });
}

/**
 * N² · ℓ(build), ℓ the inductance per turn squared of the section (see physics/inductance.ts). Turns act twice, directly and through the
 * build; packing and wire through the build alone, with the slope d ln ℓ / d ln build taken from a section a twentieth deeper.
 */
export function airInductance(
  perTurnSquaredH: number,
  section: CoilSection,
  coil: Coil,
  { turns, buildM }: WindingEstimates,
  pickup: Pickup,
): Estimate {
  if (!turns || !buildM) return estimateOf(0, { basis: 'assumed' });
  const deeper = inductancePerTurnSquaredH({ ...section, buildM: section.buildM * DEEPER });
  const slope = Math.log(deeper / perTurnSquaredH) / Math.log(DEEPER);
  const outline = estimateOf(1, {
    sd: OUTLINE_INDUCTANCE_RELATIVE_SD,
    basis: 'assumed',
    source: causes.bobbin(coilPath(pickup, coil)),
  });
  return functionOf(
    [turns, buildM, outline],
    ([count, build, factor]) => perTurnSquaredH * count ** 2 * Math.max(0, build / buildM.value) ** slope * factor,
  );
}

const DEEPER = 1.05;

/** With its poles, as a factor of the coil in air, and with what lies beneath them. */
export function withPoles(airH: Estimate, factor: number, coil: Coil, pickup: Pickup, beneath: Estimate): Estimate {
  const pole = coil.bobbin?.pole?.value;
  const blade = pole !== undefined && pole !== 'none' && pole.form === 'blade';
  const added = 1 - 1 / factor;
  const model = estimateOf(factor, {
    sd:
      factor *
      Math.hypot(
        added > 0 ? POLE_MODEL_RELATIVE_SD : 0,
        blade ? BLADE_RELATIVE_SD * added : 0,
        permeabilityRelativeSd(coil) * added,
      ),
    basis: 'computed',
    restsOn: [
      ...(pole && pole !== 'none'
        ? [because('poles of {0}, flush with the upper flange, assumed', pole.material)]
        : []),
      ...(isDistanceAssumed(pickup) && !coil.below
        ? [because('coils {0} apart, assumed', `${DEFAULT_COILS_APART_M * 1000} mm`)]
        : []),
    ],
    source: causes.poles(pieceName(pickup)),
  });
  return product(product(airH, model), beneath);
}

/**
 * Relative standard deviation of what poles add, for what is not known of their permeability: χ/(1 + Nχ) moves by 1/(1 + Nχ) of
 * what χ moves, so slender steel hardly minds, magnets of low recoil permeability do. The spread is a limit either way, even in its
 * logarithm (JCGM 100:2008, 4.3.7).
 */
function permeabilityRelativeSd(coil: Coil): number {
  const pole = coil.bobbin?.pole?.value;
  const rod = polesOf(coil, ORIGIN)[0];
  if (!rod || !pole || pole === 'none' || !(rod.relativePermeability > 1)) return 0;
  const grade = gradeOf(pole.material);
  const spread = grade
    ? grade.cast
      ? METALS.alnico.permeabilitySpreadFactor
      : SINTERED_SPREAD_FACTOR
    : (metalOf(pole.material)?.permeabilitySpreadFactor ?? 1);
  const shape = { lengthM: rod.topM - rod.bottomM, diameterM: rod.diameterM };
  const susceptibility = rod.relativePermeability - 1;
  const factor = demagnetisingFactor(shape, rod.relativePermeability);
  return Math.log(spread) / Math.sqrt(3) / (1 + factor * susceptibility);
}
