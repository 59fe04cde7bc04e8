/** Everything that may be chosen together, before its turns are: bobbin and wire of each open coil, and a bar. */
import type { Aim } from '../estimates/aims.ts';
import type { Magnet } from '../model/magnet.ts';
import type { Pickup } from '../model/pickup.ts';
import type { CoilOpening, Openings } from './openings.ts';
import { type CoilOption, coilOptions, magnetOptions, type Shelf } from './shelf.ts';
import { type InductancePerTurns, type WindingCurve, windingCurve } from './winding-curve.ts';

export interface CurvedOption extends CoilOption {
  readonly opening: CoilOpening;
  readonly curve: WindingCurve;
}

export interface Candidate {
  /** One for each open coil, in their order. */
  readonly options: readonly CurvedOption[];
  readonly magnet: Magnet | undefined;
  /** Turns of each over those of the first whose turns are free, in their logarithm. */
  readonly logRatios: readonly number[];
  /** Builds of one frame differ in their wires alone. */
  readonly frame: string;
}

/** Past this many, all coils take the same wire. */
const MOST_CANDIDATES = 1500;

export function candidatesOf(
  { coils, magnet }: Openings,
  {
    pickup,
    aims,
    shelf,
    perTurns,
  }: {
    readonly pickup: Pickup;
    readonly aims: readonly Aim[];
    readonly shelf: Shelf;
    readonly perTurns: InductancePerTurns | undefined;
  },
): readonly Candidate[] {
  const options = coils.map((opening) =>
    coilOptions(shelf, pickup, opening).flatMap((option): readonly CurvedOption[] => {
      const curve = windingCurve(opening.coil, option, pickup, perTurns);
      return curve ? [{ ...option, opening, curve }] : [];
    }),
  );
  const magnets = magnet
    ? magnetOptions(
        shelf,
        aims.some(({ kind }) => kind === 'output'),
      )
    : [];
  const count = options.reduce((product, { length }) => product * length, Math.max(1, magnets.length));
  const together = combinations(options, count > MOST_CANDIDATES);
  return together.flatMap((chosen) =>
    (magnets.length > 0 && !hasRods(chosen) ? magnets : [undefined]).map((bar) => ({
      options: chosen,
      magnet: bar,
      logRatios: logRatiosOf(chosen, aims),
      frame: `${chosen.map(({ bobbin }) => bobbin.name).join(' ')} ${bar?.name ?? ''}`,
    })),
  );
}

/** Poles that are magnets themselves. */
const isRod = ({ bobbin: { pole } }: CurvedOption): boolean => pole?.value !== 'none' && pole?.value.form === 'rod';
const hasRods = (options: readonly CurvedOption[]): boolean => options.some(isRod);

/** Wire that nobody has is bought for all coils alike. */
function combinations(
  options: readonly (readonly CurvedOption[])[],
  onlyAlike: boolean,
): readonly (readonly CurvedOption[])[] {
  let sets: readonly (readonly CurvedOption[])[] = [[]];
  for (const each of options)
    sets = sets.flatMap((set) =>
      each.flatMap((next) =>
        isAlike(set, next, onlyAlike) && hasOneKindOfPoles([...set, next]) ? [[...set, next]] : [],
      ),
    );
  return options.length === 0 ? [] : sets;
}

function isAlike(set: readonly CurvedOption[], next: CurvedOption, onlyAlike: boolean): boolean {
  const before = set.find(({ opening }) => opening.wire);
  if (!before || !next.opening.wire) return true;
  const isSame = before.wire.name === next.wire.name && before.spool === next.spool;
  return isSame || !(onlyAlike || before.isUndeclared || next.isUndeclared);
}

/** Magnets or steel over one bar: where both are free, nobody mixes them. */
const hasOneKindOfPoles = (options: readonly CurvedOption[]): boolean => {
  const free = options.filter(({ opening, bobbin }) => opening.bobbin && bobbin.pole && bobbin.pole.value !== 'none');
  return free.every((each) => isRod(each) === free.every(isRod));
};

const USUAL_LOG_TURNS = Math.log(5000);

/** As a wanted mismatch says; else by turn-area, so that hum cancels. */
function logRatiosOf(options: readonly CurvedOption[], aims: readonly Aim[]): readonly number[] {
  const first = options.find(({ opening }) => opening.turns);
  return options.map((option) => {
    if (!first || option === first || !option.opening.turns) return 0;
    const [own, its] = [option.opening.coil.name, first.opening.coil.name];
    for (const { between, wanted } of aims) {
      if (between?.coil === own && between.other === its) return Math.log(1 + wanted);
      if (between?.coil === its && between.other === own) return -Math.log(1 + wanted);
    }
    return logRatioByArea(first.curve, option.curve);
  });
}

/** Turn-area goes nearly with the turns: a few steps by its own slope. */
function logRatioByArea(first: WindingCurve, other: WindingCurve): number {
  const wanted = Math.log(first.at(USUAL_LOG_TURNS).areaM2);
  let ratio = 0;
  for (let round = 0; round < 4; round++) ratio += wanted - Math.log(other.at(USUAL_LOG_TURNS + ratio).areaM2);
  return ratio;
}
