/** Computed values before and after, pickup by pickup, coil by coil, position by position. */
import type { Analysis, Played } from '../analysis/analysis-types.ts';
import type { PickupEstimates } from '../estimates/estimates.ts';
import { difference, type Estimate } from '../quantities/estimate.ts';
import { COIL_NUMBERS, keysOf, type NumberName, PICKUP_NUMBERS, POSITION_NUMBERS } from '../words/numbers.ts';
import { outputChanges } from './output-changes.ts';

export interface NumberChange {
  /** `pickup hesk-neck`, `coil screw`; as called after the change. */
  readonly path: readonly string[];
  /** The field of the estimates. */
  readonly key: string;
  readonly name: NumberName;
  /** `undefined`: not known; `null`: there is none. */
  readonly before: Estimate | null | undefined;
  readonly after: Estimate | null | undefined;
  /** After less before; what both share has cancelled in its uncertainty. */
  readonly difference: Estimate | undefined;
}

export interface PhaseChange {
  readonly path: readonly string[];
  readonly before: PickupEstimates['phase'];
  readonly after: PickupEstimates['phase'];
}

export interface NumberComparison {
  readonly numbers: readonly NumberChange[];
  readonly phases: readonly PhaseChange[];
}

/** Only what both states have is compared: the numbers of an added pickup are no change of numbers. */
export function compareNumbers(
  before: Analysis,
  after: Analysis,
  renamed: ReadonlyMap<string, string>,
  played?: Played,
): NumberComparison {
  const numbers: NumberChange[] = [];
  const phases: PhaseChange[] = [];
  const nameAfter = (name: string): string => renamed.get(name) ?? name;

  const oldPickups = new Map(before.pickups.map((each) => [nameAfter(each.pickup.name), each]));
  for (const each of after.pickups) {
    const former = oldPickups.get(each.pickup.name);
    if (!former) continue;
    const old = former.estimates();
    const path = [`pickup ${each.pickup.name}`];
    const now = each.estimates();
    compareKeys(PICKUP_NUMBERS, old, now, path, numbers);
    for (const row of outputChanges(former, each))
      if (!unchanged(row.before, row.after)) numbers.push({ path, ...row });
    comparePhase(old, now, path, phases);
    for (const [name, coil] of now.coils) {
      const oldCoil = old.coils.get(name);
      if (oldCoil) compareKeys(COIL_NUMBERS, oldCoil, coil, [...path, `coil ${name}`], numbers);
    }
  }

  const oldInstruments = new Map(before.instruments.map((each) => [nameAfter(each.instrument.name), each]));
  for (const each of after.instruments) {
    const old = oldInstruments.get(each.instrument.name)?.positions(played);
    if (!old) continue;
    const byKey = new Map(old.map((position) => [position.key, position]));
    for (const position of each.positions(played)) {
      const oldPosition = byKey.get(position.key);
      if (!oldPosition) continue;
      const path = [`instrument ${each.instrument.name}`, `position ${position.key}`];
      compareKeys(POSITION_NUMBERS, oldPosition, position, path, numbers);
      comparePhase(oldPosition, position, path, phases);
    }
  }
  return { numbers, phases };
}

function compareKeys<K extends string>(
  names: Readonly<Record<K, NumberName>>,
  old: { readonly [key in K]: Estimate | null | undefined } & Peaked,
  now: { readonly [key in K]: Estimate | null | undefined } & Peaked,
  path: readonly string[],
  numbers: NumberChange[],
): void {
  for (const key of comparableKeys(keysOf(names), old, now)) {
    const [before, after] = [old[key], now[key]];
    if (unchanged(before, after)) continue;
    numbers.push({
      path,
      key,
      name: names[key],
      before,
      after,
      difference: before && after ? difference(after, before) : undefined,
    });
  }
}

type Peaked = { readonly resonanceHz?: Estimate | null | undefined };

const OF_A_PEAK: ReadonlySet<string> = new Set(['peakDb', 'minus3DbHz'] satisfies (keyof PickupEstimates)[]);

/** Where one state has a peak and the other none, the row of the resonance says so: height and fall are no two values of one number then. */
export function comparableKeys<K extends string>(keys: readonly K[], old: Peaked, now: Peaked): readonly K[] {
  const isOfOne = (old.resonanceHz === null) !== (now.resonanceHz === null);
  return isOfOne ? keys.filter((key) => !OF_A_PEAK.has(key)) : keys;
}

function comparePhase(
  { phase: before }: Pick<PickupEstimates, 'phase'>,
  { phase: after }: Pick<PickupEstimates, 'phase'>,
  path: readonly string[],
  phases: PhaseChange[],
): void {
  if (before !== after) phases.push({ path, before, after });
}

/** Rounding noise of a computation that went another way is no change. */
function unchanged(before: Estimate | null | undefined, after: Estimate | null | undefined): boolean {
  if (!before || !after) return before === after;
  if (before.value === after.value) return true;
  return Math.abs(after.value - before.value) <= 1e-9 * Math.max(Math.abs(before.value), Math.abs(after.value));
}
