/** What lies on the shelf, and which of it may stand in the place of what a coil leaves out. */
import { readFileTree } from '../../../grammar/src/read-file.ts';
import type { language } from '../../../grammar/src/schema/index.ts';
import { onceForEach } from '../../../grammar/values/remember.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { bathC, bathLimits } from '../estimates/potting.ts';
import type { Bobbin } from '../model/bobbin.ts';
import type { Coil } from '../model/coil.ts';
import { wireFrom } from '../model/from-shop.ts';
import type { Magnet } from '../model/magnet.ts';
import { blockOf, type MergedBlock } from '../model/merged-block.ts';
import type { Pickup } from '../model/pickup.ts';
import type { Spool, Wire } from '../model/wire.ts';
import type { CoilOpening } from './openings.ts';

export interface Shelf {
  readonly wires: readonly Wire[];
  readonly spools: readonly Spool[];
  readonly bobbins: readonly Bobbin[];
  readonly magnets: readonly Magnet[];
}

/** All that the file and what it uses declare. */
export const shelfOf = ({ namesInScope }: Pick<Analysis, 'namesInScope'>): Shelf => ({
  wires: namesInScope('wire'),
  spools: namesInScope('spool'),
  bobbins: namesInScope('bobbin'),
  magnets: namesInScope('magnet'),
});

/** Wire as a coil may be wound from it. */
export interface WireOption {
  readonly wire: Wire;
  readonly spool: Spool | undefined;
  /** Neither on a spool nor declared: its gauge, by the table. */
  readonly isUndeclared: boolean;
}

/** Gauges that pickups are wound with, by the table, where the shelf has no such wire. Common practice, no published source. */
const USUAL_GAUGES = [40, 41, 42, 43, 44, 45, 46] as const;

/** Spools first, then declared wires as they may be bought, then usual gauges that nobody has declared. */
export function wireOptions(shelf: Shelf, pickup: Pickup, coil: Coil): readonly WireOption[] {
  const declared = [
    ...shelf.spools.flatMap((spool) => (spool.wire ? [{ wire: spool.wire, spool, isUndeclared: false }] : [])),
    ...shelf.wires.map((wire) => ({ wire, spool: undefined, isUndeclared: false })),
  ];
  const known = new Set(shelf.wires.flatMap(({ gaugeAwg }) => gaugeAwg?.value ?? []));
  const others = USUAL_GAUGES.flatMap((gauge) => {
    const wire = known.has(gauge) ? undefined : wireOfGauge(gauge);
    return wire ? [{ wire, spool: undefined, isUndeclared: true }] : [];
  });
  return [...declared, ...others].filter(
    ({ wire }) => (wire.gaugeAwg ?? wire.bareDiameter) !== undefined && standsTheBath(pickup, { ...coil, wire }),
  );
}

/** As a wire of which nothing is known but its gauge would be declared. */
const declarationOf = (gauge: number): string => `wire awg-${gauge} { gauge ${gauge} AWG }`;

/** What such a line declares, read as any text is. */
const wireOfGauge = onceForEach((gauge: number): Wire | undefined => {
  const chunk = readFileTree(declarationOf(gauge)).chunks[0]?.chunk;
  if (chunk?.content?.kind !== 'block') return undefined;
  // The text is of a wire, so its block is one.
  return wireFrom(blockOf(chunk.content, chunk) as unknown as MergedBlock<typeof language.wire>);
});

/** Those whose window is stated and whose poles suit the strings; a coil below another has none of its own. */
export const bobbinOptions = (shelf: Shelf, pickup: Pickup, coil: Coil): readonly Bobbin[] =>
  shelf.bobbins.filter(
    (bobbin) =>
      bobbin.core !== undefined &&
      bobbin.window !== undefined &&
      suitsStrings(bobbin, pickup, coil) &&
      standsTheBath(pickup, { ...coil, bobbin }),
  );

function suitsStrings(
  { pole, poles }: Bobbin,
  { strings, coils, barMagnet }: Pickup,
  { below, serves }: Coil,
): boolean {
  const isDummy = serves?.value === 'none';
  if (below !== undefined || isDummy) return true;
  if (pole?.value === 'none') return false;
  // Nothing would make a magnet of steel under one row of poles.
  if (pole?.value.material === 'steel' && coils.length === 1 && !barMagnet) return false;
  const served = serves ? serves.value.to - serves.value.from + 1 : strings?.value;
  const count = poles?.value.count;
  return count === undefined || served === undefined || count === served || count === 2 * served;
}

/** What the bath would soften is no choice for this pickup. */
function standsTheBath(pickup: Pickup, coil: Coil): boolean {
  const bath = pickup.potting && bathC(pickup.potting);
  if (bath === undefined) return true;
  const limits = bathLimits({ ...pickup, coils: [coil] });
  return limits.every(({ what, limitC }) => (what !== 'plastic' && what !== 'enamel') || bath <= limitC);
}

/** Bars whose material and size are known; where nothing asks for their strength, one stands for all. */
export function magnetOptions({ magnets }: Shelf, isAsked: boolean): readonly Magnet[] {
  const known = magnets.filter(
    ({ material, remanence, coercivity, size }) =>
      size !== undefined && (material ?? (remanence && coercivity)) !== undefined,
  );
  return isAsked ? known : known.slice(0, 1);
}

/** What may be chosen for one coil: each bobbin with each wire; what is stated stands as it is. */
export interface CoilOption extends WireOption {
  readonly bobbin: Bobbin;
}

export function coilOptions(shelf: Shelf, pickup: Pickup, { coil, wire, bobbin }: CoilOpening): readonly CoilOption[] {
  const wires: readonly WireOption[] = wire
    ? wireOptions(shelf, pickup, coil)
    : coil.wire
      ? [{ wire: coil.wire, spool: coil.spool, isUndeclared: false }]
      : [];
  const bobbins = bobbin
    ? bobbinOptions(shelf, pickup, coil)
    : coil.bobbin?.core && coil.bobbin.window
      ? [coil.bobbin]
      : [];
  return bobbins.flatMap((each) => wires.map((option) => ({ ...option, bobbin: each })));
}
