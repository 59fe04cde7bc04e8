/** What is ready with the findings: turns, resistances, phase, and hum by turn-area. No inductance is needed for any of it. */

import { given } from '../../../grammar/values/present.ts';
import type { Bench } from '../model/bench.ts';
import type { Coil } from '../model/coil.ts';
import type { PickupNetlist } from '../model/netlist.ts';
import { type Estimate, estimateOf, linear } from '../quantities/estimate.ts';
import { coilPath } from './causes.ts';
import { type PickupLife, pickupLife, readingUpTo } from './coil-life.ts';
import { type CoilReading, estimateWinding, type WindingEstimates } from './coil-winding.ts';
import { NOMINAL_OHM } from './common-practice.ts';
import type { PhaseVerdict } from './estimates.ts';
import { type Contribution, levelInPlace, type StringRange } from './level-in-place.ts';
import { hearsStrings, phaseOf, type Sounding, stringShare, stringsUnder } from './phase.ts';
import type { Segment } from './pickup-circuit.ts';
import { readTogether } from './read-together.ts';
import { because } from './reasons.ts';
import { areaShareOf, resistanceWeights, segmentOhm, turnsShareOf } from './segment-shares.ts';
import { type CoilSigns, coilSigns, sounds } from './signs.ts';
import { sweptReading } from './swept-resistance.ts';

export interface QuickEstimates {
  readonly netlist: PickupNetlist;
  readonly bench: Bench | undefined;
  /** What was read of the pickup, and of which of its coils as they are now. */
  readonly life: PickupLife;
  readonly windings: ReadonlyMap<Coil, WindingEstimates>;
  readonly readings: ReadonlyMap<Coil, CoilReading>;
  readonly signs: readonly CoilSigns[];
  /** Between hot and ground; `null`: open; `undefined`: not known. */
  readonly resistance20COhm: Estimate | null | undefined;
  readonly phase: PhaseVerdict;
  /** String signal and hum against the strongest single coil in place, without load. */
  readonly signalDb: Estimate | undefined;
  readonly humDb: Estimate | undefined;
  /** It stands for a closed pickup as it was swept: one coil in the place of so many, of which no string's field is known. */
  readonly coilsSweptWhole?: number;
}

export function quickEstimates(netlist: PickupNetlist, bench: Bench | undefined): QuickEstimates {
  const life = pickupLife(netlist, bench);
  const { pickup } = netlist;
  const byMeter = new Map(
    pickup.coils.flatMap((coil) => {
      const newest = readingUpTo(life, coil, undefined, bench);
      return newest ? [[coil, newest] as const] : [];
    }),
  );
  // A sum that a meter read holds for coils that were only swept as well.
  const bySweep = new Map(
    pickup.coils.flatMap((coil) => {
      const swept = byMeter.has(coil) ? undefined : sweptReading(coil, netlist, bench);
      return swept ? [[coil, swept] as const] : [];
    }),
  );
  const readings = new Map([...byMeter, ...bySweep]);
  const byItself = new Map(
    pickup.coils.map((coil) => [coil, estimateWinding(coil, readings.get(coil), coilPath(pickup, coil))]),
  );
  const known = new Map(
    [...byItself].map(([coil, winding]) => {
      const swept = bySweep.get(coil);
      return [coil, swept ? { ...winding, computed20COhm: swept.at20COhm } : winding];
    }),
  );
  const together = readTogether({ netlist, windings: known, readings: byMeter }, life, bench);
  const windings = new Map(
    [...byItself].map(([coil, winding]) => {
      const part = together.coils.get(coil);
      const swept = bySweep.has(coil);
      if (!swept) return [coil, withPart(coil, winding, part, pickup)];
      return [coil, part ? { ...winding, resistance20COhm: { ...part, basis: 'reading' as const } } : winding];
    }),
  );
  const ohmOf = (segment: Segment) => segmentOhm(segment, windings) ?? NOMINAL_OHM;
  const signs = coilSigns(netlist, life, ohmOf, {
    turns: (segment) => turnsShareOf(segment, windings.get(segment.coil)),
    area: (segment) => areaShareOf(segment, windings.get(segment.coil)),
  });
  return {
    netlist,
    bench,
    life,
    windings,
    readings,
    signs,
    resistance20COhm: together.whole ?? resistanceOf(netlist, windings, netlist.hot, netlist.ground),
    phase: phaseOf(signs.filter(sounds)),
    signalDb: signalLevel(netlist, signs, windings),
    humDb: humLevel(netlist, signs, windings),
  };
}

/** A coil's part of what was read through several; where it is no guess, turns that nobody stated follow from it. */
function withPart(
  coil: Coil,
  winding: WindingEstimates,
  part: Estimate | undefined,
  pickup: PickupNetlist['pickup'],
): WindingEstimates {
  if (!part) return winding;
  if (winding.turns || part.basis === 'assumed') return { ...winding, resistance20COhm: part };
  return estimateWinding(coil, { at20COhm: part, words: 'its part of a reading' }, coilPath(pickup, coil));
}

/** The coils of a pickup that drive its output, with what each gives there. */
export const soundingIn = ({ signs, windings }: QuickEstimates): readonly (CoilSigns & Sounding)[] =>
  signs.filter(sounds).map((each) => {
    const winding = windings.get(each.coil);
    const turns = winding?.turns?.value;
    return {
      ...each,
      transfer: each.transfer ?? 0,
      humTransfer: each.humTransfer ?? 0,
      stringTurns: turns === undefined ? undefined : turns * stringShare(each.coil),
      turnAreaM2: winding?.turnAreaM2?.value,
    };
  });

/**
 * Resistance between two nets at 20 degC with its uncertainty, common causes counted once. `null`: open; `undefined`: a coil in its
 * path is not known.
 */
export function resistanceOf(
  netlist: PickupNetlist,
  windings: ReadonlyMap<Coil, WindingEstimates>,
  a: number | undefined,
  b: number | undefined,
): Estimate | null | undefined {
  if (a === undefined || b === undefined) return a === b ? undefined : null;
  const weights = resistanceWeights(netlist, windings, a, b);
  if (weights === undefined) return null;
  if (weights.size === 0) return estimateOf(0, { basis: 'computed', restsOn: [because('joined directly')] });
  const terms = [...weights].map(([coil, weight]) => ({ ohm: windings.get(coil)?.resistance20COhm, weight }));
  if (terms.some(({ ohm }) => ohm === undefined)) return undefined;
  const ohms = terms.flatMap(({ ohm }) => ohm ?? []);
  const whole = linear(
    ohms,
    terms.map(({ weight }) => weight),
  );
  return ohms.every(({ basis }) => basis === 'reading') ? { ...whole, basis: 'reading' } : whole;
}

function signalLevel(
  netlist: PickupNetlist,
  signs: readonly CoilSigns[],
  windings: ReadonlyMap<Coil, WindingEstimates>,
): Estimate | undefined {
  const live = signs.filter((each) => sounds(each) && hearsStrings(each.coil));
  const turns = live.map(({ coil }) => windings.get(coil)?.turns);
  if (live.length === 0 || live.some(({ string }) => string === undefined) || turns.some((each) => each === undefined))
    return undefined;
  return levelOf(
    turns.flatMap((each) => each ?? []),
    live.map((each) => (each.string ?? 1) * Math.abs(each.transfer ?? 0)),
    live.map(({ coil }) => stringsUnder(coil, netlist.pickup)),
  );
}

function humLevel(
  netlist: PickupNetlist,
  signs: readonly CoilSigns[],
  windings: ReadonlyMap<Coil, WindingEstimates>,
): Estimate | undefined {
  const live = signs.filter(sounds);
  const areas = live.map(({ coil }) => windings.get(coil)?.turnAreaM2);
  if (live.length === 0 || netlist.hot === undefined) return undefined;
  if (live.some(({ hum }) => hum === undefined) || areas.some((each) => each === undefined)) return undefined;
  return levelOf(
    areas.flatMap((each) => each ?? []),
    live.map((each) => (each.hum ?? 1) * Math.abs(each.humTransfer ?? 0)),
  );
}

/** Terms with their weights as contributions without a phase: at 0 Hz. */
const levelOf = (
  terms: readonly Estimate[],
  weights: readonly number[],
  ranges: readonly (StringRange | undefined)[] = [],
): Estimate =>
  levelInPlace(
    terms.map((term, index): Contribution => {
      const strings = ranges[index];
      return { term, weight: { re: weights[index] ?? 0, im: 0 }, ...given({ strings }) };
    }),
  );
