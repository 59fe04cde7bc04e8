/** What a meter for inductance or capacitance should show on the lines of a pickup's readings, and whether what was read lies within it. */
import type { Coil } from '../model/coil.ts';
import type { PickupNetlist } from '../model/netlist.ts';
import type { ReadingOf, Readings } from '../model/readings.ts';
import type { Estimate } from '../quantities/estimate.ts';
import type { PickupMagnetics } from './coil-magnetics.ts';
import { READING_SPREAD_SD } from './common-practice.ts';
import { computedMagnetics } from './computed-magnetics.ts';
import {
  capacitanceRead,
  inductanceAtLowFrequency,
  type MagneticSubject,
  magneticSubject,
} from './measured-magnetics.ts';
import { type QuickEstimates, resistanceOf } from './quick.ts';
import { wholeBetween } from './whole-pickup.ts';

export type MagneticLine = ReadingOf<'inductance'> | ReadingOf<'capacitance'>;

export interface JudgedMagnetic {
  readonly line: MagneticLine;
  readonly block: Readings;
  /** An inductance is brought to low frequency, where it is compared. H, or F. */
  readonly read: Estimate;
  readonly expected: Estimate;
  /** The same without poles; `undefined` for a capacitance. */
  readonly withoutPoles: number | undefined;
  /** Coils between the probes. */
  readonly coils: readonly Coil[];
  /** What the reading may differ by: three standard deviations of both. */
  readonly limit: number;
  readonly fits: boolean;
  /** What would be expected if coils had these shares of their inductance. */
  with(shareOf: (coil: Coil) => number): number;
}

export const isMagnetic = (line: Readings['lines'][number]): line is MagneticLine =>
  line.kind === 'inductance' || line.kind === 'capacitance';

/** Every such line of a block that something is known about; what was read before the work is not judged. */
export function judgeMagnetic(block: Readings, quick: QuickEstimates): readonly JudgedMagnetic[] {
  if (block.found) return [];
  return block.lines.filter(isMagnetic).flatMap((line) => judge(line, block, quick) ?? []);
}

function judge(line: MagneticLine, block: Readings, quick: QuickEstimates): JudgedMagnetic | undefined {
  const magnetics = computedMagnetics(quick);
  const subject = magneticSubject(line, block, quick.netlist);
  if (!subject) return undefined;
  if (line.kind === 'capacitance') {
    const { capacitanceF } = magnetics;
    if (subject !== 'whole' || !capacitanceF) return undefined;
    return judged(
      { line, block, coils: [], withoutPoles: undefined, with: () => capacitanceF.value },
      capacitanceRead(line),
      capacitanceF,
    );
  }
  const { coils, expected, ohm, farad, lostShare } = between(subject, quick, magnetics);
  if (!expected || !(expected.value > 0)) return undefined;
  const own = (pick: 'airH' | 'totalH', shareOf: (coil: Coil) => number = () => 1) =>
    coils.reduce((sum, coil) => sum + shareOf(coil) * (magnetics.coils.get(coil)?.[pick]?.value ?? 0), 0);
  const scaled = (henry: number) => expected.value * (henry / own('totalH'));
  const read = inductanceAtLowFrequency(line, { ohm: ohm ?? 0, farad: farad ?? 0 }, lostShare);
  return judged(
    {
      line,
      block,
      coils,
      withoutPoles: scaled(own('airH')),
      with: (shareOf) => scaled(own('totalH', shareOf)),
    },
    read,
    expected,
  );
}

/** What is computed between the probes. */
function between(subject: MagneticSubject, quick: QuickEstimates, magnetics: PickupMagnetics) {
  if (subject === 'whole') {
    const { inductanceH, capacitanceF, lostShare } = magnetics;
    const coils = quick.netlist.pickup.coils.filter((coil) => magnetics.coils.has(coil));
    return { coils, expected: inductanceH, ohm: quick.resistance20COhm?.value, farad: capacitanceF?.value, lostShare };
  }
  if ('nets' in subject) {
    const { slopes, inductanceH, capacitanceF, lostShare } = wholeBetween(quick, magnetics, subject.nets);
    const ohm = resistanceOf(quick.netlist, quick.windings, ...subject.nets)?.value;
    return { coils: [...slopes.keys()], expected: inductanceH, ohm, farad: capacitanceF?.value, lostShare };
  }
  const own = magnetics.coils.get(subject);
  return {
    coils: [subject],
    expected: own?.totalH,
    ohm: quick.windings.get(subject)?.resistance20COhm?.value,
    farad: own?.capacitances.windingF.value,
    lostShare: magnetics.lostShare,
  };
}

function judged(
  base: Omit<JudgedMagnetic, 'read' | 'expected' | 'limit' | 'fits'>,
  read: Estimate,
  expected: Estimate,
): JudgedMagnetic {
  const limit = READING_SPREAD_SD * Math.hypot(read.sd, expected.sd);
  return { ...base, read, expected, limit, fits: Math.abs(read.value - expected.value) <= limit };
}

/** Whether a line of the block tells the inductance of this coil by itself. */
export const inductanceStands = (block: Readings, coil: Coil, netlist: PickupNetlist): boolean =>
  block.lines.some((line) => {
    if (line.kind !== 'inductance') return false;
    const subject = magneticSubject(line, block, netlist);
    return subject === coil || (subject === 'whole' && netlist.pickup.coils.length === 1);
  });
