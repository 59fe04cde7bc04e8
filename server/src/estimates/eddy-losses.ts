/** How well the losses in a pickup's metal are known, and what they rest on. */

import type { MetalFitting, Pickup } from '../model/pickup.ts';
import { type Estimate, estimateOf, linear } from '../quantities/estimate.ts';
import { causes, pieceName } from './causes.ts';
import { metalOf } from './coil-places.ts';
import {
  COVER_CLEARANCE_M,
  METAL_SHAPE_RELATIVE_SD,
  METAL_TABLE_RELATIVE_SD,
  SHEET_M,
  SHEET_RELATIVE_LIMIT,
} from './common-practice.ts';
import { isSteel } from './magnetic-parts.ts';
import { because } from './reasons.ts';

export interface LossyMetal {
  /** Cover or plate of metal that is not magnetic. */
  readonly sheets: boolean;
  /** Parts that are known by table. */
  readonly tabulated: boolean;
  /** Which part of the losses is the poles' own, 0 to 1. */
  readonly polesShare: number;
}

/** Limits are taken as an even distribution (JCGM 100:2008, 4.3.7). */
const ofLimits = (limit: number) => limit / Math.sqrt(3);

/**
 * What is not known of the poles' permeability and resistivity, as one factor of their time constants: so that the peak moves as it does
 * where both are drawn themselves (test/estimates/drawn-pickups.test.ts). A loss in steel poles goes with about the third root of a time
 * constant (1 to 5 kHz, μr 100 to 500), with a higher one where a bare pickup peaks, so the time constants must move several times as
 * far as it does; a magnet's recoil permeability is known far better.
 */
const POLE_LOSS_RELATIVE_SD = { steel: 0.55, alnico: 0.16 } as const;

/** The time constants of a pickup's eddy currents as a factor about 1. A sheet's follow resistivity and thickness exactly. */
export function lossesOf(pickup: Pickup, { sheets, tabulated, polesShare }: LossyMetal): Estimate {
  const ofMetal = Math.hypot(Math.max(0, ...pickup.metal.map(sheetRelativeSd)), METAL_SHAPE_RELATIVE_SD);
  const metalwork = estimateOf(1, {
    sd: tabulated ? METAL_TABLE_RELATIVE_SD : ofMetal,
    basis: 'assumed',
    restsOn: sheets || tabulated ? assumptionsOf(pickup) : [],
    source: causes.metalwork(pieceName(pickup)),
  });
  const poleKind = pickup.coils.some(({ bobbin }) => {
    const pole = bobbin?.pole?.value;
    return pole && pole !== 'none' && isSteel(pole.material);
  })
    ? 'steel'
    : 'alnico';
  const poles = estimateOf(1, {
    sd: POLE_LOSS_RELATIVE_SD[poleKind],
    basis: 'assumed',
    restsOn: polesShare > 0 ? [because(`eddy currents in ${poleKind} poles`)] : [],
    source: causes.poleLosses(pieceName(pickup)),
  });
  return linear([metalwork, poles], [1 - polesShare, polesShare]);
}

/** A sheet's resistivity and thickness, in which its time constants go. */
function sheetRelativeSd({ material, thickness }: MetalFitting): number {
  const resistivity = ofLimits(metalOf(material)?.resistivityRelativeSpread ?? 0);
  if (thickness?.sd !== undefined) return Math.hypot(resistivity, thickness.sd / thickness.si);
  return Math.hypot(resistivity, ofLimits(SHEET_RELATIVE_LIMIT[thickness ? 'stated' : 'assumed']));
}

function assumptionsOf({ metal, barMagnet }: Pickup): readonly string[] {
  if (metal.length === 0) return [because('alnico bar under steel poles, as a round case has it')];
  return metal.map(({ part, material, thickness }) => {
    if (isSteel(material))
      return because('{0} of {1}, as a round one of usual thickness has it, whatever its own', part, material);
    const usual = `${SHEET_M * 1000} mm`;
    if (part === 'cover') {
      const off = `${COVER_CLEARANCE_M * 1000} mm`;
      return thickness
        ? because(
            '{0} of {1}, {2} thick, {3} off the bobbins and as deep, assumed',
            part,
            material,
            thickness.written,
            off,
          )
        : because(
            '{0} of {1}, {2} thick, assumed, {3} off the bobbins and as deep, assumed',
            part,
            material,
            usual,
            off,
          );
    }
    const thick = thickness ? because('{0} thick', thickness.written) : because('{0} thick, assumed', usual);
    return barMagnet
      ? because('{0} of {1}, {2}, below the bar magnet, assumed', part, material, thick)
      : because('{0} of {1}, {2}, below the poles, assumed', part, material, thick);
  });
}

/**
 * What metal takes from the string's field, relative: round coils against finite elements leave up to 0.05 of the field where 0.15 to
 * 0.4 are taken, 0.09 where it is 0.6 and alnico stands under brass or copper (test/physics/reference/eddies.json).
 */
const SCREENING_RELATIVE_SD = { usual: 0.15, alnicoUnderSheet: 0.2 } as const;

export const screeningOf = (pickup: Pickup, kind: keyof typeof SCREENING_RELATIVE_SD): Estimate =>
  estimateOf(1, { sd: SCREENING_RELATIVE_SD[kind], basis: 'computed', source: causes.screening(pieceName(pickup)) });
