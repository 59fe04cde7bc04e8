/** Where the metal about a pickup's coils lies: sheets over those that share one, poles, and the strings that it screens. */
import type { Coil } from '../model/coil.ts';
import type { Pickup } from '../model/pickup.ts';
import { METALS, type Metal } from '../physics/constants.ts';
import type { PoleRow, StringPoint } from '../physics/eddies/eddy-network.ts';
import type { Sheet } from '../physics/eddies/sheet.ts';
import type { PlacedCoil } from '../physics/pole-pieces.ts';
import { gradeOf, metalOf, polesOf } from './coil-places.ts';
import {
  COVER_CLEARANCE_M,
  FLANGE_M,
  PLATE_UNDER_BAR_M,
  PLATE_UNDER_POLES_M,
  SHEET_M,
  STRING_HEIGHT_M,
} from './common-practice.ts';
import { isMagnetic } from './magnetic-parts.ts';

/** A coil whose winding is known. */
export interface WoundCoil {
  readonly coil: Coil;
  readonly placed: PlacedCoil;
  /** Inductance per turn squared that its poles add. */
  readonly addedH: number;
}

/** Coils that one sheet lies over, seen from its middle. */
export interface CoilGroup {
  readonly coils: readonly WoundCoil[];
  readonly sideBySide: boolean;
}

/** One cover over coils on one axis or two coils side by side; in any other arrangement as if each axis had its own. */
export function groupsOf(coils: readonly WoundCoil[]): readonly CoilGroup[] {
  const axes = new Map<string, WoundCoil[]>();
  for (const each of coils) {
    const { alongM, acrossM } = each.placed.centre;
    axes.set(`${alongM} ${acrossM}`, [...(axes.get(`${alongM} ${acrossM}`) ?? []), each]);
  }
  const [first, second, ...more] = [...axes.values()];
  const alongside = first?.[0]?.placed.centre.alongM === second?.[0]?.placed.centre.alongM;
  if (first && second && alongside && more.length === 0) return [{ coils: fromTheirMiddle(coils), sideBySide: true }];
  return [...axes.values()].map((each) => ({ coils: fromTheirMiddle(each), sideBySide: false }));
}

function fromTheirMiddle(coils: readonly WoundCoil[]): readonly WoundCoil[] {
  const middle = (way: 'alongM' | 'acrossM') => {
    const all = coils.map(({ placed }) => placed.centre[way]);
    return (Math.min(...all) + Math.max(...all)) / 2;
  };
  const [alongM, acrossM] = [middle('alongM'), middle('acrossM')];
  return coils.map(({ placed: { section, centre }, ...rest }) => ({
    ...rest,
    placed: {
      section,
      centre: { alongM: centre.alongM - alongM, acrossM: centre.acrossM - acrossM, axialM: centre.axialM },
    },
  }));
}

/** Cover and baseplate of metal that is not magnetic. */
export function sheetsOver(group: CoilGroup, { metal, barMagnet }: Pickup): readonly Sheet[] {
  return metal.flatMap(({ part, material, thickness }): readonly Sheet[] => {
    const of = metalOf(material);
    if (!of || isMagnetic(of)) return [];
    const { resistivityOhmM } = of;
    const thicknessM = thickness?.si ?? SHEET_M;
    const sheet = { centre: { alongM: 0, acrossM: 0 }, thicknessM, resistivityOhmM };
    if (part === 'cover') {
      const heightM = highestM(group) + FLANGE_M + thicknessM / 2;
      const outline = outlineOf(group, COVER_CLEARANCE_M + thicknessM / 2);
      return [{ ...sheet, outline, plate: { heightM }, wall: { bottomM: lowestM(group) - FLANGE_M, topM: heightM } }];
    }
    const flangeM = lowestM(group) - FLANGE_M;
    const polesM = Math.min(flangeM, ...group.coils.flatMap(rodsOf).map(({ bottomM }) => bottomM));
    const topM = Math.min(polesM - PLATE_UNDER_POLES_M, barMagnet ? flangeM - PLATE_UNDER_BAR_M : flangeM);
    return [{ ...sheet, outline: outlineOf(group, 0), plate: { heightM: topM - thicknessM / 2 } }];
  });
}

/** Round the bobbins' edges, which the depth of the winding space gives, and so far beyond them. */
function outlineOf({ coils, sideBySide }: CoilGroup, beyondM: number): Sheet['outline'] {
  const edges = coils.map(({ coil, placed: { section } }) => ({
    core: section.core,
    radiusM: section.core.innerRadiusM + Math.max(coil.bobbin?.window?.value.depth.si ?? 0, section.buildM) + beyondM,
  }));
  const { core, radiusM } = edges.reduce((a, b) =>
    b.core.straightM + b.radiusM > a.core.straightM + a.radiusM ? b : a,
  );
  if (!sideBySide) return { ...core, innerRadiusM: radiusM };
  const all = coils.map(({ placed }) => placed.centre.acrossM);
  return {
    straightM: core.straightM + 2 * radiusM,
    straightAcrossM: core.straightAcrossM + Math.max(...all) - Math.min(...all) + 2 * radiusM,
    innerRadiusM: 0,
  };
}

const highestM = ({ coils }: CoilGroup): number =>
  Math.max(...coils.map(({ placed: { section, centre } }) => centre.axialM + section.heightM / 2));
const lowestM = ({ coils }: CoilGroup): number =>
  Math.min(...coils.map(({ placed: { section, centre } }) => centre.axialM - section.heightM / 2));

const rodsOf = ({ coil, placed }: WoundCoil) => polesOf(coil, placed.centre);

/** Over the pole nearest to the middle of the coil, or over its axis. */
export function stringOver(each: WoundCoil): StringPoint {
  const { section, centre } = each.placed;
  const away = ({ alongM }: { readonly alongM: number }) => Math.abs(alongM - centre.alongM);
  const [nearest] = [...rodsOf(each)].sort((a, b) => away(a) - away(b));
  const topM = nearest?.topM ?? centre.axialM + section.heightM / 2 + FLANGE_M;
  return { alongM: nearest?.alongM ?? centre.alongM, acrossM: centre.acrossM, heightM: topM + STRING_HEIGHT_M };
}

/** The poles of a coil as one body, where they conduct and add to its inductance; `index` is the coil's place in its group. */
export function poleRow(each: WoundCoil, index: number): readonly PoleRow[] {
  const pole = each.coil.bobbin?.pole?.value;
  const metal = pole && pole !== 'none' ? poleMetal(pole.material) : undefined;
  const rods = rodsOf(each);
  const [rod] = rods;
  if (!metal || !rod || !(each.addedH > 0) || !(rod.relativePermeability > 1)) return [];
  const middleM = each.placed.centre.alongM;
  // Fields on poles to the left of the middle are those on their mirror images.
  const centres = rods
    .filter(({ alongM }) => alongM > middleM - 1e-9)
    .map(({ alongM, acrossM }) => ({ alongM, acrossM, count: alongM > middleM + 1e-9 ? 2 : 1 }));
  return [
    {
      coil: index,
      centres,
      bottomM: rod.bottomM,
      topM: rod.topM,
      radiusM: rod.diameterM / 2,
      metal: { resistivityOhmM: metal.resistivityOhmM, relativePermeability: rod.relativePermeability },
      addedH: each.addedH,
    },
  ];
}

/** Ferrite is an insulator; sintered rare earth conducts, but is left out: its permeability is that of air. */
function poleMetal(material: string): Metal | undefined {
  if (gradeOf(material)) return gradeOf(material)?.cast ? METALS.alnico : undefined;
  return metalOf(material);
}
