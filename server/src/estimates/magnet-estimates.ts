/** Field of a pickup's magnets at the strings, and what another magnet would change. */

import type { Coil } from '../model/coil.ts';
import type { Magnet } from '../model/magnet.ts';
import type { Pickup } from '../model/pickup.ts';
import { BAR_FIELD_RELATIVE_SD, barUnderPoles } from '../physics/bar-under-poles.ts';
import {
  assumedEnergyProductJPerM3,
  type DemagnetisationCurve,
  demagnetisationCurve,
  workingPoint,
} from '../physics/demagnetisation-curve.ts';
import { MAGNET_RATIO_MODEL_SD, type MagnetChange, magnetChange } from '../physics/magnet-change.ts';
import { neighbourDemagnetisingFactor, ROD_FIELD_RELATIVE_SD, rodFieldT } from '../physics/magnet-field.ts';
import { HANDLING_NOTE, type MagnetMaterial } from '../physics/magnet-grades.ts';
import { type Estimate, estimateOf } from '../quantities/estimate.ts';
import { gradeOf, poleArrangement } from './coil-places.ts';
import { STRING_HEIGHT_M } from './common-practice.ts';
import { hearsStrings } from './phase.ts';
import { because } from './reasons.ts';

/** A magnet as the physics takes it: by its grade, or by the remanence and coercivity stated for it. */
export interface KnownMagnet extends MagnetMaterial {
  readonly relativeSpread: number;
  readonly words: string;
  readonly note: string | undefined;
}

export function knownMagnet(magnet: Magnet): KnownMagnet | undefined {
  const grade = magnet.material && gradeOf(magnet.material.value);
  if (grade && magnet.material)
    return {
      ...grade,
      words: because('{0}, nominal ({1})', magnet.material.value, grade.source),
      note: grade.cast ? HANDLING_NOTE : undefined,
    };
  const remanenceT = magnet.remanence?.value.si;
  const coercivityAPerM = magnet.coercivity?.value.si;
  if (remanenceT === undefined || coercivityAPerM === undefined) return undefined;
  return {
    remanenceT,
    coercivityAPerM,
    energyProductJPerM3: assumedEnergyProductJPerM3(remanenceT, coercivityAPerM),
    recoilRelativePermeability: 4,
    relativeSpread: 0.05,
    words: because(
      'remanence {0}, coercivity {1}, as stated',
      magnet.remanence?.value.written ?? '',
      magnet.coercivity?.value.written ?? '',
    ),
    note: undefined,
  };
}

/** Flux density on the axis of the middle pole of a coil, at the string, tesla; without a sign. */
export function fieldAtStringT(pickup: Pickup, coil: Coil, heightM = STRING_HEIGHT_M): Estimate | undefined {
  const rods = rodField(coil, heightM);
  if (rods) return rods;
  const bar = pickup.barMagnet?.value.magnet;
  const known = bar && knownMagnet(bar);
  const field = bar && known && barField(pickup, coil, bar, heightM);
  if (!known || !field) return undefined;
  const value = Math.abs(field(curveOf(known)));
  return estimateOf(value, {
    sd: value * Math.hypot(BAR_FIELD_RELATIVE_SD, known.relativeSpread),
    basis: 'computed',
    restsOn: [
      known.words,
      because('fully charged'),
      because('{0} over the pole tops', `${heightM * 1000} mm`),
      because('keeper and gaps left out'),
    ],
  });
}

/**
 * What the magnets make of the output: 20 lg of the flux density at the strings, 0 dB at 10 mT. Most of the field's error lies in the
 * model of the geometry and is common to two states of one pickup, so their difference is known far better than either. `undefined`
 * where no coil's field is known.
 */
export function magnetLevelDb(pickup: Pickup): Estimate | undefined {
  const fields = pickup.coils.flatMap((coil) => (hearsStrings(coil) ? (fieldAtStringT(pickup, coil) ?? []) : []));
  if (fields.length === 0) return undefined;
  const meanT = fields.reduce((total, { value }) => total + value, 0) / fields.length;
  const relativeSd = Math.max(...fields.map(({ value, sd }) => sd / value));
  const hasRods = pickup.coils.some((coil) => rodField(coil, STRING_HEIGHT_M));
  const model = hasRods ? ROD_FIELD_RELATIVE_SD : BAR_FIELD_RELATIVE_SD;
  const common = Math.sqrt(Math.max(0, model ** 2 - MAGNET_RATIO_MODEL_SD ** 2 / 2));
  return {
    value: 20 * Math.log10(meanT / REFERENCE_FIELD_T),
    sd: DB_PER_NEPER * relativeSd,
    basis: 'computed',
    restsOn: [...new Set(fields.flatMap(({ restsOn }) => restsOn))],
    sources: { [hasRods ? 'field model of rods' : 'field model of a bar under poles']: DB_PER_NEPER * common },
  };
}

const REFERENCE_FIELD_T = 0.01;
const DB_PER_NEPER = 20 / Math.LN10;

/** What another magnet of the same size would change, new over old. */
export interface MagnetExchange {
  readonly magnet: Magnet;
  readonly material: KnownMagnet;
  readonly change: MagnetChange;
}

/** Exchanges of a pickup's bar magnet, judged over one of its coils. */
export interface MagnetExchanges {
  readonly coil: Coil;
  readonly material: KnownMagnet;
  /** At the string, as the pickup is. */
  readonly fieldT: Estimate;
  readonly exchanges: readonly MagnetExchange[];
}

/** Each of other magnets in the place of the pickup's bar; `undefined` where there is no bar, or its field is not known. */
export function magnetExchanges(
  pickup: Pickup,
  others: readonly Magnet[],
  heightM = STRING_HEIGHT_M,
): MagnetExchanges | undefined {
  const bar = pickup.barMagnet?.value.magnet;
  const material = bar && knownMagnet(bar);
  if (!bar || !material) return undefined;
  for (const coil of pickup.coils) {
    const fieldT = fieldAtStringT(pickup, coil, heightM);
    const field = fieldT && barField(pickup, coil, bar, heightM);
    if (!fieldT || !field) continue;
    const exchanges = others.flatMap((magnet): readonly MagnetExchange[] => {
      const to = magnet.name === bar.name ? undefined : knownMagnet(magnet);
      return to ? [{ magnet, material: to, change: magnetChange(material, to, field) }] : [];
    });
    return { coil, material, fieldT, exchanges };
  }
  return undefined;
}

function rodField(coil: Coil, heightM: number): Estimate | undefined {
  const pole = coil.bobbin?.pole?.value;
  const poles = coil.bobbin?.poles?.value;
  if (!pole || pole === 'none' || pole.form !== 'rod' || !pole.diameter || !pole.length) return undefined;
  const grade = gradeOf(pole.material);
  if (!grade) return undefined;
  const [diameterM, lengthM] = [pole.diameter.si, pole.length.si];
  const count = poles?.count ?? 1;
  const neighbours =
    poles?.spread && count > 1
      ? neighbourDemagnetisingFactor({ diameterM, lengthM, pitchM: poles.spread.si / (count - 1), count })
      : 0;
  const value = rodFieldT(
    { diameterM, lengthM, curve: curveOf({ ...grade, words: '', note: undefined }) },
    heightM,
    neighbours,
  );
  return estimateOf(value, {
    sd: value * Math.hypot(ROD_FIELD_RELATIVE_SD, grade.relativeSpread),
    basis: 'computed',
    restsOn: [
      because('{0} rods, nominal', pole.material),
      because('fully charged'),
      because('{0} over the pole tops', `${heightM * 1000} mm`),
      ...(grade.cast ? [because(HANDLING_NOTE)] : []),
    ],
  });
}

function barField(
  pickup: Pickup,
  coil: Coil,
  bar: Magnet,
  heightM: number,
): ((curve: DemagnetisationCurve) => number) | undefined {
  const size = bar.size?.value;
  const arrangement = poleArrangement(pickup);
  const own = arrangement.filter((each) => each.coil === coil);
  const middle = own[Math.floor(own.length / 2)];
  if (!size || !middle) return undefined;
  const across = arrangement.map(({ rod }) => rod.acrossM);
  // A bar is magnetised across its width: a single row of poles over its middle is neither at its north nor at its south.
  if (Math.max(...across) - Math.min(...across) < size.width.si / 10) return undefined;
  const centre = (Math.min(...across) + Math.max(...across)) / 2;
  const rods = arrangement.map(({ rod }) => ({ ...rod, acrossM: rod.acrossM - centre }));
  const lowest = Math.min(...rods.map(({ bottomM }) => bottomM));
  const solved = barUnderPoles({
    bar: {
      lengthM: size.length.si,
      widthM: size.width.si,
      thicknessM: size.thickness.si,
      centreAxialM: lowest + size.thickness.si / 2,
    },
    rods,
    aboveTopM: heightM,
  });
  const share = solved.fieldOverPolarisation[arrangement.indexOf(middle)] ?? 0;
  return (curve) => share * workingPoint(curve, solved.demagnetisingFactor).polarisationT;
}

const curveOf = (magnet: KnownMagnet): DemagnetisationCurve => demagnetisationCurve(magnet);
