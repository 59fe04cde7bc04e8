/** The metal about a pickup's coils as shorted turns: covers, baseplates and solid poles, with what is known of their losses. */
import type { Coil } from '../model/coil.ts';
import type { Pickup } from '../model/pickup.ts';
import { METALS, type Metal } from '../physics/constants.ts';
import type { PoleRow } from '../physics/eddies/eddy-network.ts';
import { reducedMetal } from '../physics/eddies/metal-by-coils.ts';
import type { Sheet } from '../physics/eddies/sheet.ts';
import type { InductanceMatrix, PlacedCoil } from '../physics/pole-pieces.ts';
import { type Estimate, estimateOf, linear } from '../quantities/estimate.ts';
import { causes } from './causes.ts';
import type { EddyTurn, PickupEddies } from './coil-magnetics.ts';
import { gradeOf, metalOf, polesOf } from './coil-places.ts';
import {
  COVER_CLEARANCE_M,
  FLANGE_M,
  PLATE_UNDER_BAR_M,
  PLATE_UNDER_POLES_M,
  SHEET_M,
  SHEET_RELATIVE_LIMIT,
  STRING_HEIGHT_M,
} from './common-practice.ts';
import { isMagnetic, isSteel, magneticParts } from './magnetic-parts.ts';

export interface WoundCoil {
  readonly coil: Coil;
  readonly placed: PlacedCoil;
}

const NOTHING: PickupEddies = {
  turns: [],
  losses: estimateOf(1, { basis: 'computed' }),
  screening: estimateOf(1, { basis: 'computed' }),
};

/** `matrix`: the coils' inductances in air and with their poles, in the order of `wound`. */
export function pickupEddies(pickup: Pickup, wound: readonly WoundCoil[], matrix: InductanceMatrix): PickupEddies {
  const coils = wound.map(({ placed }) => placed);
  const poles = wound.flatMap((each, index) => poleRow(each, index, matrix));
  const magnetic = magneticParts(pickup);
  const arrangement = arrangementOf(coils);
  const metal = pickup.metal.flatMap((fitting) => metalOf(fitting.material) ?? []);
  const sheets = pickup.metal.flatMap(({ part, material }): readonly Sheet[] => {
    const of = metalOf(material);
    if (!of || isMagnetic(of)) return [];
    return arrangement.groups.flatMap((group) =>
      part === 'cover' ? coverOf(group, wound, of) : plateOf(group, wound, of, pickup),
    );
  });
  if (coils.length === 0 || (sheets.length === 0 && poles.length === 0 && magnetic.length === 0)) return NOTHING;
  const { loops, polesShare } = reducedMetal({
    coils,
    sheets,
    sideBySide: arrangement.sideBySide,
    poles,
    strings: wound.map(stringOver),
    heard: wound.map(({ coil }) => coil.below === undefined && coil.serves?.value !== 'none'),
    magnetic,
  });
  const turns = loops.map(
    ({ cornerHz, couplings, drives }): EddyTurn => ({
      cornerHz,
      beside: new Map(
        wound.map(({ coil }, index) => [coil, { coupling: couplings[index] ?? 0, drive: drives[index] ?? 0 }]),
      ),
    }),
  );
  const alnicoUnderSheet = sheets.length > 0 && poles.some(({ metal: of }) => of.relativePermeability < 10);
  return {
    turns,
    losses: lossesOf(pickup, wound, { polesShare, sheets: sheets.length > 0, magnetic: magnetic.length > 0, metal }),
    screening: estimateOf(1, {
      sd: alnicoUnderSheet ? SCREENING_RELATIVE_SD.alnicoUnderSheet : SCREENING_RELATIVE_SD.other,
      basis: 'computed',
      source: causes.screening(pickup.name),
    }),
  };
}

/**
 * What metal takes from the string's field, relative: round coils against finite elements leave up to 0.05 of the field where 0.15 to
 * 0.4 are taken, 0.09 where it is 0.6 and alnico stands under brass or copper (test/physics/reference/eddies.json).
 */
const SCREENING_RELATIVE_SD = { other: 0.15, alnicoUnderSheet: 0.2 } as const;

/** Coils that one sheet lies over. */
interface Group {
  readonly coils: readonly PlacedCoil[];
}

/** One cover over coils on one axis or two coils side by side; in any other arrangement as if each axis had its own. */
function arrangementOf(coils: readonly PlacedCoil[]): {
  readonly sideBySide: boolean;
  readonly groups: readonly Group[];
} {
  const axes = new Map<string, PlacedCoil[]>();
  for (const coil of coils) {
    const axis = `${coil.centre.alongM} ${coil.centre.acrossM}`;
    axes.set(axis, [...(axes.get(axis) ?? []), coil]);
  }
  const [first, second, ...more] = [...axes.values()];
  const alongside = first?.[0]?.centre.alongM === second?.[0]?.centre.alongM;
  if (first && second && alongside && more.length === 0) return { sideBySide: true, groups: [{ coils }] };
  return { sideBySide: false, groups: [...axes.values()].map((each) => ({ coils: each })) };
}

/** What a sheet over a group is drawn by: its outline beyond the bobbins' edges, and the faces of the lowest and highest winding. */
function outlineOf({ coils }: Group, wound: readonly WoundCoil[], beyondM: number) {
  const own = wound.filter(({ placed }) => coils.includes(placed));
  const across = own.map(({ placed }) => placed.centre.acrossM);
  const spanM = Math.max(...across) - Math.min(...across);
  const [first] = own;
  const edges = own.map(({ coil, placed }) => {
    const { core, buildM } = placed.section;
    return { core, depthM: Math.max(coil.bobbin?.window?.value.depth.si ?? 0, buildM) };
  });
  const widest = edges.reduce((a, b) => (edgeM(b) > edgeM(a) ? b : a));
  const { core, depthM } = widest;
  const radiusM = core.innerRadiusM + depthM + beyondM;
  const outline =
    spanM === 0
      ? { ...core, innerRadiusM: radiusM }
      : {
          straightM: core.straightM + 2 * radiusM,
          straightAcrossM: core.straightAcrossM + spanM + 2 * radiusM,
          innerRadiusM: 0,
        };
  return {
    outline,
    centre: {
      alongM: first?.placed.centre.alongM ?? 0,
      acrossM: (Math.max(...across) + Math.min(...across)) / 2,
    },
    topM: Math.max(...own.map(({ placed }) => placed.centre.axialM + placed.section.heightM / 2)) + FLANGE_M,
    bottomM: Math.min(...own.map(({ placed }) => placed.centre.axialM - placed.section.heightM / 2)) - FLANGE_M,
  };
}

const edgeM = ({ core, depthM }: { core: PlacedCoil['section']['core']; depthM: number }): number =>
  core.straightM + core.innerRadiusM + depthM;

function coverOf(group: Group, wound: readonly WoundCoil[], { resistivityOhmM }: Metal): Sheet {
  const { outline, centre, topM, bottomM } = outlineOf(group, wound, COVER_CLEARANCE_M + SHEET_M / 2);
  const heightM = topM + SHEET_M / 2;
  return {
    outline,
    centre,
    thicknessM: SHEET_M,
    resistivityOhmM,
    plate: { heightM },
    wall: { bottomM, topM: heightM },
  };
}

function plateOf(group: Group, wound: readonly WoundCoil[], { resistivityOhmM }: Metal, pickup: Pickup): Sheet {
  const { outline, centre, bottomM } = outlineOf(group, wound, 0);
  const lowestPole = Math.min(
    bottomM,
    ...wound.flatMap(({ coil, placed }) => polesOf(coil, placed.centre).map((rod) => rod.bottomM)),
  );
  const heightM =
    Math.min(lowestPole - PLATE_UNDER_POLES_M, pickup.barMagnet ? bottomM - PLATE_UNDER_BAR_M : bottomM) - SHEET_M / 2;
  return { outline, centre, thicknessM: SHEET_M, resistivityOhmM, plate: { heightM } };
}

/** Over the pole nearest to the middle of the coil, or over its axis. */
function stringOver({ coil, placed: { section, centre } }: WoundCoil) {
  const rods = polesOf(coil, centre);
  const nearest = rods.reduce<(typeof rods)[number] | undefined>(
    (best, rod) => (best && Math.abs(best.alongM - centre.alongM) <= Math.abs(rod.alongM - centre.alongM) ? best : rod),
    undefined,
  );
  const topM = nearest?.topM ?? centre.axialM + section.heightM / 2 + FLANGE_M;
  return { alongM: nearest?.alongM ?? centre.alongM, acrossM: centre.acrossM, heightM: topM + STRING_HEIGHT_M };
}

/** The poles of a coil as one body, where they conduct and add to its inductance. */
function poleRow({ coil, placed }: WoundCoil, index: number, { air, total }: InductanceMatrix): readonly PoleRow[] {
  const pole = coil.bobbin?.pole?.value;
  const metal = pole && pole !== 'none' ? poleMetal(pole.material) : undefined;
  const addedH = (total[index]?.[index] ?? 0) - (air[index]?.[index] ?? 0);
  const rods = polesOf(coil, placed.centre);
  const [rod] = rods;
  if (!metal || !rod || !(addedH > 0) || !(rod.relativePermeability > 1)) return [];
  const { alongM: middleM } = placed.centre;
  const right = rods.filter(({ alongM }) => alongM > middleM - 1e-9);
  const centres = right.map(({ alongM, acrossM }) => ({ alongM, acrossM, count: alongM > middleM + 1e-9 ? 2 : 1 }));
  return [
    {
      coil: index,
      centres,
      bottomM: rod.bottomM,
      topM: rod.topM,
      radiusM: rod.diameterM / 2,
      metal: { resistivityOhmM: metal.resistivityOhmM, relativePermeability: rod.relativePermeability },
      addedH,
    },
  ];
}

/** Ferrite is an insulator; sintered rare earth conducts, but is left out: its permeability is that of air. */
function poleMetal(material: string): Metal | undefined {
  if (gradeOf(material)) return gradeOf(material)?.cast ? METALS.alnico : undefined;
  return metalOf(material);
}

/** What the spread of a metal does to time constants, as one standard deviation; limits are taken as even (JCGM 100:2008, 4.3.7). */
const ofLimits = (relative: number) => relative / Math.sqrt(3);

/**
 * Slits, holes, rounded ends, cover soldered to plate, six poles that magnetise each other: what round coils do not tell, as an error
 * of time constants. Parts by table are known to half of what they take. Common practice, no published source.
 */
const SHAPE_RELATIVE_SD = 0.1;
const TABLE_RELATIVE_SD = 0.5;

/**
 * A loss in poles goes with about the third root of a time constant (from 1 to 5 kHz, steel of μr 100 to 500), so what the spread of
 * permeability does to the loss (μr by three either way: a fifth) is three times that of the time constant.
 */
const POLE_LOSS_RELATIVE_SD = { steel: 0.5, alnico: 0.25 } as const;

function lossesOf(
  pickup: Pickup,
  wound: readonly WoundCoil[],
  about: {
    readonly polesShare: number;
    readonly sheets: boolean;
    readonly magnetic: boolean;
    readonly metal: readonly Metal[];
  },
): Estimate {
  const spread = Math.max(
    0,
    ...about.metal.map(({ resistivityRelativeSpread }) => ofLimits(resistivityRelativeSpread)),
  );
  const metalwork = estimateOf(1, {
    sd: about.magnetic ? TABLE_RELATIVE_SD : Math.hypot(spread, ofLimits(SHEET_RELATIVE_LIMIT), SHAPE_RELATIVE_SD),
    basis: 'assumed',
    restsOn: about.sheets || about.magnetic ? assumptionsOf(pickup) : [],
    source: causes.metalwork(pickup.name),
  });
  const steel = wound.some(({ coil }) => {
    const pole = coil.bobbin?.pole?.value;
    return pole && pole !== 'none' && isSteel(pole.material);
  });
  const poles = estimateOf(1, {
    sd: steel ? POLE_LOSS_RELATIVE_SD.steel : POLE_LOSS_RELATIVE_SD.alnico,
    basis: 'assumed',
    restsOn: about.polesShare > 0 ? [`eddy currents in ${steel ? 'steel' : 'alnico'} poles`] : [],
    source: causes.poleLosses(pickup.name),
  });
  return linear([metalwork, poles], [1 - about.polesShare, about.polesShare]);
}

function assumptionsOf({ metal, barMagnet }: Pickup): readonly string[] {
  if (metal.length === 0) return ['alnico bar under steel poles, as a round case has it'];
  return metal.map(({ part, material }) => {
    const name = `${part} of ${material}, ${SHEET_M * 1000} mm`;
    if (part === 'cover') return `${name}, ${COVER_CLEARANCE_M * 1000} mm off the bobbins and as deep, assumed`;
    return `${name}, below the ${barMagnet ? 'bar magnet' : 'poles'}, assumed`;
  });
}
