import type { PlacedCoil } from '../pole-pieces.ts';
import type { Conductors } from './conductors.ts';
import { halfWidthM, type Sheet, strips } from './sheet.ts';
import { fieldOfPath, pathsMutualH, type Straight, turnsOf } from './straights.ts';

/**
 * What currents of one rotation in all coils make flow in sheets over them: nested closed strips round the whole outline, taken as
 * rectangles. The dip between two coils, where the strips of each turn back, is left out.
 */
export function nestedRectangles(sheets: readonly Sheet[], coils: readonly PlacedCoil[], stripM: number): Conductors {
  const centre = sheets[0]?.centre ?? { alongM: 0, acrossM: 0 };
  const rectangles = sheets.flatMap((sheet) => rectanglesOf(sheet, stripM));
  const paths = rectangles.map(({ straights }) => straights);
  const size = paths.length;
  const resistanceOhm = new Float64Array(size * size);
  rectangles.forEach(({ ohm }, i) => {
    resistanceOhm[i * size + i] = ohm;
  });
  const turns = coils.map((coil) => turnsOf(coil, centre));
  return {
    size,
    resistanceOhm,
    inductanceH: symmetric(size, (i, j) => pathsMutualH(paths[i] ?? [], paths[j] ?? [])),
    toCoils: turns.map((coil) => Float64Array.from(paths, (path) => pathsMutualH(coil, path))),
    fieldAlong: (line) => paths.map((path) => fieldOfPath(path, line, centre)),
  };
}

function rectanglesOf(sheet: Sheet, stripM: number): { straights: readonly Straight[]; ohm: number }[] {
  const { outline, thicknessM, resistivityOhmM, plate, wall } = sheet;
  const halfM = halfWidthM(outline);
  const rectangle = (insetM: number, heightM: number, widthM: number) => {
    const [length, width] = [lengthM(outline) / 2 - insetM, halfM - insetM];
    const ownDistanceM = 0.2235 * (widthM + thicknessM);
    const straights = [1, -1].flatMap((side): Straight[] => [
      { direction: 'along', share: side, from: -length, to: length, at: [side * width, heightM], ownDistanceM },
      { direction: 'across', share: -side, from: -width, to: width, at: [side * length, heightM], ownDistanceM },
    ]);
    return { straights, ohm: (4 * resistivityOhmM * (length + width)) / (widthM * thicknessM) };
  };
  return [
    ...strips(plate ? halfM : 0, stripM).map(({ middleM, widthM }) => rectangle(middleM, plate?.heightM ?? 0, widthM)),
    ...strips(wall ? wall.topM - wall.bottomM : 0, stripM).map(({ middleM, widthM }) =>
      rectangle(0, (wall?.topM ?? 0) - middleM, widthM),
    ),
  ];
}

function symmetric(size: number, entry: (row: number, column: number) => number): Float64Array {
  const matrix = new Float64Array(size * size);
  for (let i = 0; i < size; i++)
    for (let j = 0; j <= i; j++) {
      const value = entry(i, j);
      matrix[i * size + j] = value;
      matrix[j * size + i] = value;
    }
  return matrix;
}

const lengthM = ({ straightM, straightAcrossM, innerRadiusM }: Sheet['outline']): number =>
  Math.max(straightM, straightAcrossM) + 2 * innerRadiusM;

/** A closed path in one half of the sheet, without its mirror image. */
interface Mesh {
  readonly straights: readonly Straight[];
  readonly endsOhm: number;
  /** Of the strips on its two sides, from the middle line outward; the second is the next mesh's first. */
  readonly innerOhm: number;
  readonly outerOhm: number;
  readonly ladder: number;
}

/**
 * What two coils side by side with currents of opposite rotation make flow in sheets over both: as much one way round in one half as
 * the other way round in the other, and nothing across the line between them. One half is cut into strips along the pickup, from
 * that line over the plate and down the wall; between each two neighbours runs one closed path, together with its mirror image.
 * Paths share strips, so their resistances couple. Straight filaments throughout (Neumann in closed form); a coil counts as
 * rectangular turns of the same area. The sheets' lines of symmetry must lie midway between the coils, their walls go all round.
 * Over a wide perfect conductor within 4 % of the coils' mirror images; walls are not checked against a field solution.
 */
export function opposedHalves(sheets: readonly Sheet[], coils: readonly PlacedCoil[], stripM: number): Conductors {
  const centre = sheets[0]?.centre ?? { alongM: 0, acrossM: 0 };
  const coil = {
    axisM: Math.max(...coils.map((each) => Math.abs(each.centre.acrossM - centre.acrossM))),
    straightM: Math.max(...coils.map(({ section }) => section.core.straightM)),
  };
  const meshes = sheets.flatMap((sheet, ladder) => meshesOf(sheet, stripM, coil, ladder));
  const both = meshes.map(({ straights }) => [...straights, ...straights.map(mirrored)]);
  const size = meshes.length;
  const resistanceOhm = symmetric(size, (i, j) => {
    const [mesh, other] = [meshes[i], meshes[j]];
    if (mesh === undefined || mesh.ladder !== other?.ladder) return 0;
    if (i === j) return 2 * (mesh.innerOhm + mesh.outerOhm + mesh.endsOhm);
    return i === j + 1 ? -2 * mesh.innerOhm : 0;
  });
  // The mirror image of a pair acts as the pair does.
  const inductanceH = symmetric(size, (i, j) => 2 * pathsMutualH(meshes[i]?.straights ?? [], both[j] ?? []));
  const turns = coils.map((coil) => turnsOf(coil, centre));
  return {
    size,
    resistanceOhm,
    inductanceH,
    toCoils: turns.map((coil) => Float64Array.from(both, (path) => pathsMutualH(coil, path))),
    fieldAlong: (line) => both.map((path) => fieldOfPath(path, line, centre)),
  };
}

/** Seen from the mirror, currents of opposite rotation along and upright run the same way, those across the other way. */
function mirrored(straight: Straight): Straight {
  const { direction, share, from, to, at } = straight;
  if (direction === 'across') return { ...straight, share: -share, from: -to, to: -from };
  const [first, second] = at;
  return { ...straight, at: direction === 'along' ? [-first, second] : [first, -second] };
}

interface Strip {
  readonly acrossM: number;
  readonly heightM: number;
  readonly halfLengthM: number;
  readonly widthM: number;
  /** How wide the metal is that a current across strips has at each end. */
  readonly endM: number;
}

/** A coil seen from the line between the halves: where its axis lies and how long its straights are. */
interface HalfCoil {
  readonly axisM: number;
  readonly straightM: number;
}

/** Strips run as far as currents round the coil do that pass at their distance from its axis, or to the end of the sheet. */
function stripsOf({ outline, plate, wall }: Sheet, stripM: number, { axisM, straightM }: HalfCoil): Strip[] {
  const endM = lengthM(outline) / 2;
  const halfM = halfWidthM(outline);
  const depthM = wall ? wall.topM - wall.bottomM : 0;
  const top = strips(plate ? halfM : 0, stripM).map(({ middleM, widthM }): Strip => {
    const halfLengthM = Math.min(straightM / 2 + Math.abs(middleM - axisM), endM - widthM / 2);
    const heightM = plate?.heightM ?? 0;
    return { acrossM: middleM, heightM, halfLengthM, widthM, endM: endM - halfLengthM + depthM };
  });
  const down = strips(depthM, stripM).map(
    ({ middleM, widthM }): Strip => ({
      acrossM: halfM,
      heightM: (wall?.topM ?? 0) - middleM,
      halfLengthM: endM,
      widthM,
      endM: halfM / 2,
    }),
  );
  return [...top, ...down];
}

function meshesOf(sheet: Sheet, stripM: number, coil: HalfCoil, ladder: number): Mesh[] {
  const { thicknessM, resistivityOhmM } = sheet;
  const ladderStrips = stripsOf(sheet, stripM, coil);
  const stripOhm = ({ halfLengthM, widthM }: Strip) => (resistivityOhmM * 2 * halfLengthM) / (widthM * thicknessM);
  const long = ({ acrossM, heightM, halfLengthM, widthM }: Strip, share: number): Straight => ({
    direction: 'along',
    share,
    from: -halfLengthM,
    to: halfLengthM,
    at: [acrossM, heightM],
    ownDistanceM: 0.2235 * (widthM + thicknessM),
  });
  return ladderStrips.slice(1).flatMap((outer, index): Mesh[] => {
    const inner = ladderStrips[index];
    if (inner === undefined) return [];
    const endAt = (inner.halfLengthM + outer.halfLengthM) / 2;
    const endM = (inner.endM + outer.endM) / 2;
    const ownDistanceM = 0.2235 * (endM + thicknessM);
    const ends = [1, -1].flatMap((side): Straight[] => [
      {
        direction: 'across',
        share: -side,
        from: inner.acrossM,
        to: outer.acrossM,
        at: [side * endAt, inner.heightM],
        ownDistanceM,
      },
      {
        direction: 'upright',
        share: side,
        from: outer.heightM,
        to: inner.heightM,
        at: [side * endAt, outer.acrossM],
        ownDistanceM,
      },
    ]);
    const wayM = outer.acrossM - inner.acrossM + inner.heightM - outer.heightM;
    return [
      {
        straights: [long(inner, -1), long(outer, 1), ...ends.filter(({ from, to }) => to > from)],
        endsOhm: (2 * resistivityOhmM * wayM) / (endM * thicknessM),
        innerOhm: stripOhm(inner),
        outerOhm: stripOhm(outer),
        ladder,
      },
    ];
  });
}
