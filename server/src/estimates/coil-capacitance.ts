/** Capacitance of one coil: of its winding, and of its ends and faces to grounded metal around it. */

import { type Coil, servesDifferentStrings } from '../model/coil.ts';
import { foilNode, isGrounded, type PickupNetlist } from '../model/netlist.ts';
import type { MetalFitting, Pickup } from '../model/pickup.ts';
import {
  CLEARANCE_RELATIVE_SD,
  FILL_PERMITTIVITY,
  rowToFoilFPerM2,
  START_TO_RODS_RELATIVE_SD,
  SURROUNDINGS_F,
  startToRodsF,
  UNEVEN_SURFACE,
  USUAL_CLEARANCE,
  USUAL_TAPE,
  USUAL_TURNS_PER_PASS,
  windingCapacitanceF,
} from '../physics/capacitance.ts';
import { type Estimate, estimateOf, functionOf, product } from '../quantities/estimate.ts';
import { causes, pieceName } from './causes.ts';
import { metalOf, windowHeightM } from './coil-places.ts';
import type { WindingEstimates } from './coil-winding.ts';
import { TAPE_OVER_MAGNETS_M } from './common-practice.ts';
import { because } from './reasons.ts';

export interface CoilCapacitances {
  /** Across the winding. */
  readonly windingF: Estimate;
  /** Innermost turns to the poles, where they are grounded. */
  readonly startF: Estimate;
  /** Outermost turns to a grounded foil about them, else to cover, plate and strings. */
  readonly finishF: Estimate;
  /** Both faces, where the voltage runs evenly from start to finish. */
  readonly facesF: Estimate;
}

export const NO_CAPACITANCE: Estimate = estimateOf(0, { basis: 'assumed' });

export function capacitancesOf(coil: Coil, winding: WindingEstimates, netlist: PickupNetlist): CoilCapacitances {
  const { pickup } = netlist;
  const covered = pickup.metal.some(({ part }) => part === 'cover') && partIsGrounded('cover', netlist);
  const around = (limits: { readonly value: number; readonly sd: number }) =>
    estimateOf(limits.value, {
      sd: limits.sd,
      basis: 'assumed',
      restsOn: [because(covered ? 'a grounded cover about the coil' : 'no cover about the coil')],
      source: causes.surroundings(pieceName(pickup)),
    });
  const outer = around(covered ? SURROUNDINGS_F.outerToCover : SURROUNDINGS_F.outerToFree);
  return {
    windingF: windingF(coil, winding, pickup),
    startF: startF(coil, winding, netlist),
    finishF: foilF(coil, winding, netlist) ?? outer,
    facesF: around(covered ? SURROUNDINGS_F.facesToCover : SURROUNDINGS_F.facesToFree),
  };
}

const fillingOf = ({ potting }: Pickup): 'air' | 'wax' => (potting === undefined ? 'air' : 'wax');

/** Across a winding of so many turns of that wire, laid as the coil says, F. */
export function acrossWindingF(
  { bobbin, traverse }: Coil,
  pickup: Pickup,
  [meanTurnM, turns, bareDiameterM, overallDiameterM]: readonly [number, number, number, number],
): number {
  const heightM = windowHeightM(bobbin);
  const traverseM = traverse?.value.si;
  return windingCapacitanceF({
    meanTurnM,
    heightM,
    turns,
    bareDiameterM,
    overallDiameterM,
    laying: 'scatter',
    turnsPerPass: traverseM ? heightM / traverseM : USUAL_TURNS_PER_PASS,
    guide: traverseM ? 'machine' : 'unknown',
    clearance: USUAL_CLEARANCE,
    fill: FILL_PERMITTIVITY[fillingOf(pickup)],
  });
}

function windingF(coil: Coil, winding: WindingEstimates, pickup: Pickup): Estimate {
  const { meanTurnM, turns, bareDiameterM, overallDiameterM } = winding;
  if (!meanTurnM || !turns || !bareDiameterM || !overallDiameterM || !(windowHeightM(coil.bobbin) > 0))
    return NO_CAPACITANCE;
  const filling = fillingOf(pickup);
  const traverseM = coil.traverse?.value.si;
  const farad = functionOf([meanTurnM, turns, bareDiameterM, overallDiameterM], (of) =>
    acrossWindingF(coil, pickup, of),
  );
  const byClearance = estimateOf(1, {
    sd: CLEARANCE_RELATIVE_SD[filling],
    basis: 'computed',
    restsOn: [
      because(`${filling} between turns, with clearances of 1 to 6 % of the wire, assumed`),
      traverseM
        ? because('traverse {0}', coil.traverse?.value.written ?? '')
        : because('{0} turns in a pass, assumed', USUAL_TURNS_PER_PASS),
    ],
    source: causes.windingCapacitance,
  });
  return { ...product(farad, byClearance), restsOn: byClearance.restsOn };
}

/** `undefined` without a foil that is grounded. Foil lies on one turn of usual tape. */
function foilF(coil: Coil, { meanTurnM, buildM }: WindingEstimates, netlist: PickupNetlist): Estimate | undefined {
  const grounded = isGrounded(netlist, netlist.netOf(foilNode(coil.name)));
  if (!grounded || !meanTurnM || !buildM) return undefined;
  const aroundM = meanTurnM.value + Math.PI * buildM.value;
  const areaM2 = aroundM * windowHeightM(coil.bobbin);
  const farad = areaM2 * rowToFoilFPerM2(USUAL_TAPE.thicknessM, USUAL_TAPE.permittivity) * UNEVEN_SURFACE.factor;
  return estimateOf(farad, {
    sd: farad * UNEVEN_SURFACE.relativeSd,
    basis: 'computed',
    restsOn: [because('outermost turns to grounded foil on {0} of tape, assumed', `${USUAL_TAPE.thicknessM * 1e3} mm`)],
    source: causes.surroundings(pieceName(netlist.pickup)),
  });
}

/** Where innermost turns lie on tape over the magnets, not on a bobbin's wall; relative to a vacuum (recalled). */
const TAPE = { wallPermittivity: 3, betweenPermittivity: 1 } as const;
const PLASTIC = { wallPermittivity: 2.9, betweenPermittivity: 2.9 } as const;

function startF({ bobbin }: Coil, { overallDiameterM }: WindingEstimates, netlist: PickupNetlist): Estimate {
  const pole = bobbin?.pole?.value;
  const core = bobbin?.core?.value;
  const count = bobbin?.poles?.value.count ?? 0;
  if (!pole || pole === 'none' || !pole.diameter || !core || !overallDiameterM) return NO_CAPACITANCE;
  if (!polesAreGrounded(pole.form, netlist)) return NO_CAPACITANCE;
  const heightM = windowHeightM(bobbin);
  const wallM = Math.max(TAPE_OVER_MAGNETS_M.least, (core.width.si - pole.diameter.si) / 2);
  const wall = wallM <= TAPE_OVER_MAGNETS_M.most ? TAPE : PLASTIC;
  const farad =
    pole.form === 'blade'
      ? 2 * core.length.si * heightM * rowToFoilFPerM2(wallM, wall.wallPermittivity)
      : count > 0
        ? startToRodsF({
            count,
            diameterM: pole.diameter.si,
            heightM,
            wallM,
            ...wall,
            overallDiameterM: overallDiameterM.value,
          })
        : 0;
  return estimateOf(farad, {
    sd: farad * START_TO_RODS_RELATIVE_SD,
    basis: 'computed',
    restsOn: [because('innermost turns to grounded poles')],
    source: causes.surroundings(pieceName(netlist.pickup)),
  });
}

/**
 * Poles are grounded where a grounded baseplate touches them: steel through the keeper or by itself, magnets where the plate is of
 * steel, which they stand on. Common practice, no published source.
 */
function polesAreGrounded(form: 'slug' | 'screw' | 'rod' | 'blade', netlist: PickupNetlist): boolean {
  const plate = netlist.pickup.metal.find(({ part }) => part === 'baseplate');
  if (!plate || !partIsGrounded('baseplate', netlist)) return false;
  return form !== 'rod' || (metalOf(plate.material)?.relativePermeability ?? 1) > 10;
}

const partIsGrounded = (part: MetalFitting['part'], netlist: PickupNetlist): boolean =>
  isGrounded(netlist, netlist.metal.find(({ name }) => name === part)?.net);

/** Coils side by side, of which each sees the outermost turns of the one before. */
export function neighbours(
  pickup: Pickup,
): readonly { readonly coils: readonly [Coil, Coil]; readonly farad: Estimate }[] {
  const sideBySide = pickup.coils.filter(({ below }) => below === undefined);
  const { value, sd } = SURROUNDINGS_F.coilToCoil;
  const farad = estimateOf(value, { sd, basis: 'assumed', source: causes.surroundings(pieceName(pickup)) });
  return sideBySide.slice(1).flatMap((coil, index) => {
    const before = sideBySide[index];
    return before && !servesDifferentStrings(before, coil) ? [{ coils: [before, coil] as const, farad }] : [];
  });
}
