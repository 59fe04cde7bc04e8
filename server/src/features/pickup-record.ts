/** A pickup on record: what a shop asks for when it looks for one made two years ago. */

import { given } from '../../../grammar/values/present.ts';
import type { Analysis, PickupAnalysis } from '../analysis/analysis-types.ts';
import { pickupAnalysis } from '../analysis/pickup-analysis.ts';
import { TARGET_TOLERANCE } from '../estimates/common-practice.ts';
import { magneticSubject } from '../estimates/measured-magnetics.ts';
import { benchRoomC } from '../model/bench.ts';
import type { Coil } from '../model/coil.ts';
import { formerState } from '../model/former-state.ts';
import { probedNets } from '../model/netlist.ts';
import { photographsOf } from '../model/photographs.ts';
import type { Pickup } from '../model/pickup.ts';
import type { Readings } from '../model/readings.ts';
import { sweepsOf } from '../model/sweeps.ts';
import { copperTemperatureFactor } from '../physics/wire.ts';
import { type Figure, figureOf } from '../quantities/figure.ts';
import { printCount, printValue } from '../quantities/print.ts';

export interface PickupRecord extends StateRecord {
  readonly file: string;
  readonly serial?: string;
  readonly customer?: string;
  readonly position?: string;
  /** What it was before it was reworked, the newest state first. */
  readonly life: readonly StateRecord[];
  readonly instruments: readonly string[];
  readonly findings: readonly { readonly code: string; readonly severity: string }[];
  /** In which it is not as it was designed, in words. */
  readonly differsFromDesign: readonly string[];
  /** Why it should be measured again, in words. */
  readonly needsRetest: readonly string[];
  /** Why it should be swept over frequency, or swept again, in words. */
  readonly needsSweep: readonly string[];
}

/** One state of a pickup. */
export interface StateRecord {
  readonly name: string;
  readonly title?: string;
  /** ISO 8601. */
  readonly made?: string;
  /** Between hot and ground; `null` where it is open. */
  readonly resistance20COhm?: Figure | null;
  readonly coils: readonly CoilRecord[];
  /** Names and materials, of a bar and of rods. */
  readonly magnets: readonly string[];
  readonly photos: readonly PhotoRecord[];
}

export interface PhotoRecord {
  /** From the file of the spec. */
  readonly file: string;
  readonly caption: string;
}

export interface CoilRecord {
  readonly name: string;
  readonly turns?: number;
  readonly spool?: string;
  readonly wire?: string;
  readonly bobbin?: string;
}

export interface RecordedFile {
  readonly analysis: Analysis;
  /** As the record names it. */
  readonly file: string;
}

/** What is stated of it alone, of which nothing is solved: what is computed is absent, and its lists are empty. */
export const statedRecord = (pickup: Pickup, file: string, instruments: readonly string[]): PickupRecord => ({
  file,
  ...stated(pickup),
  ...given({ serial: pickup.serial?.value, customer: pickup.customer?.value, position: pickup.position?.value }),
  life: [],
  instruments,
  findings: [],
  differsFromDesign: [],
  needsRetest: [],
  needsSweep: [],
});

export function pickupRecord(
  each: PickupAnalysis,
  { analysis, file }: RecordedFile,
  instruments: readonly string[],
): PickupRecord {
  const { pickup, findings } = each;
  return {
    ...statedRecord(pickup, file, instruments),
    ...stateRecord(each),
    life: formersOf(pickup).map((former) => stateRecord(pickupAnalysis(former, analysis.bench))),
    findings: findings.map(({ code, severity }) => ({ code, severity })),
    differsFromDesign: [
      ...pickup.coils.flatMap(turnsDifference),
      ...targetDifference(each, benchRoomC(analysis.bench)),
      ...findings.filter(({ code }) => code === 'reading/unlikely').map(({ message }) => message),
    ],
    needsRetest: retestReasons(each),
    needsSweep: sweepReasons(each),
  };
}

function formersOf(pickup: Pickup): readonly Pickup[] {
  const former = formerState(pickup);
  return former ? [former, ...formersOf(former)] : [];
}

function stateRecord({ pickup, quick }: PickupAnalysis): StateRecord {
  const { resistance20COhm } = quick;
  const figure = resistance20COhm === null ? null : resistance20COhm && figureOf(resistance20COhm);
  const state = stated(pickup);
  return {
    ...state,
    ...given({ resistance20COhm: figure }),
    coils: state.coils.map((coil) => ({ ...coil, ...given({ turns: quick.coils.get(coil.name)?.turns?.value }) })),
  };
}

function stated(pickup: Pickup): StateRecord {
  return {
    name: pickup.name,
    ...given({ title: pickup.title, made: pickup.made?.value }),
    coils: pickup.coils.map((coil) => ({
      name: coil.name,
      ...given({ spool: coil.spool?.name, wire: coil.wire?.name, bobbin: coil.bobbin?.name }),
    })),
    magnets: magnetsOf(pickup),
    photos: photographsOf(pickup).map(({ line: { value } }) => ({ file: value.file.value, caption: value.caption })),
  };
}

function magnetsOf({ barMagnet, coils }: Pickup): readonly string[] {
  const bar = barMagnet?.value.magnet;
  const rods = coils.flatMap(({ bobbin }) => {
    const pole = bobbin?.pole?.value;
    return pole && pole !== 'none' && pole.material !== 'steel' ? [pole.material] : [];
  });
  return [...new Set([...(bar ? [bar.name, ...(bar.material ? [bar.material.value] : [])] : []), ...rods])];
}

function turnsDifference({ name, turns, counted }: Coil): readonly string[] {
  if (!turns || !counted || turns.value.si === counted.value.si) return [];
  const [planned, made] = [turns.value.si, counted.value.si].map((each) => printCount(each));
  return [`coil ${name}: ${planned} turns planned, ${made} counted`];
}

function targetDifference({ pickup, quick }: PickupAnalysis, roomC: number): readonly string[] {
  const target = pickup.target?.resistance?.value;
  const at20 = quick.resistance20COhm;
  if (!target || !at20) return [];
  const ohm = at20.value * copperTemperatureFactor(roomC);
  if (Math.abs(ohm - target.si) <= Math.max(target.sd ?? TARGET_TOLERANCE * target.si, at20.sd)) return [];
  const [is, wanted] = [ohm, target.si].map((value) => printValue({ value, dimension: 'resistance' }));
  return [`hot to ground ${is}, the target is ${wanted}`];
}

function retestReasons(each: PickupAnalysis): readonly string[] {
  const { pickup, findings, quick } = each;
  const later = pickup.readings.filter(({ found }) => !found);
  const reasons = findings
    .filter(({ code, severity }) => code.startsWith('reading/') && severity !== 'information')
    .map(({ code, message }) => `${code}: ${message}`);
  if (!later.some((readings) => readsOutput(readings, each))) reasons.push('never read between hot and ground');
  if (pickup.potting && later.length > 0 && later.every(({ title }) => /\bbefore\b/i.test(title ?? ''))) {
    reasons.push('not read since it was potted');
  }
  if (quick.phase === 'unproven') reasons.push('phase is unproven');
  return reasons;
}

/** No fit is asked for: a list has to tell of many pickups. */
function sweepReasons({ pickup, netlist, findings }: PickupAnalysis): readonly string[] {
  const faults = findings
    .filter(({ code }) => code.startsWith('sweep/'))
    .map(({ code, message }) => `${code}: ${message}`);
  const later = sweepsOf(pickup).filter(({ block }) => !block.found);
  const subjects = later.map(({ sweep, block }) => magneticSubject(sweep, block, netlist));
  const isWhole = subjects.includes('whole') || pickup.coils.every((coil) => subjects.includes(coil));
  if (!isWhole || pickup.coils.length === 0) return [...faults, 'never swept between hot and ground'];
  const isBefore = later.every(({ block: { title } }) => /\bbefore\b|\bas wound\b/i.test(title ?? ''));
  return pickup.potting && isBefore ? [...faults, 'not swept since it was potted'] : faults;
}

/** A reading between the two nets, whatever its leads are called; of a single coil, the coil's own. */
function readsOutput({ lines }: Readings, { netlist, pickup }: PickupAnalysis): boolean {
  const output = new Set([netlist.hot, netlist.ground]);
  return lines.some((line) => {
    if (line.kind === 'coil resistance') return pickup.coils.length === 1;
    if (line.kind !== 'resistance') return false;
    const [red, black] = probedNets(line.probes, netlist) ?? [];
    return red !== black && output.has(red) && output.has(black);
  });
}
