import type { Quantity } from '../../../grammar/values/quantity.ts';
import { TARGET_LEAST_DEVIATIONS, TARGET_LEAST_RELATIVE } from '../estimates/common-practice.ts';
import { pickupEstimates } from '../estimates/pickup-estimates.ts';
import { type Target, type TurnsProposal, turnsForTarget } from '../estimates/turns-plan.ts';
import { benchRoomC } from '../model/bench.ts';
import type { Place, Stated } from '../model/place.ts';
import { copperTemperatureFactor } from '../physics/wire.ts';
import { type Estimate, scale } from '../quantities/estimate.ts';
import { printCount } from '../quantities/print.ts';
import { numberText } from '../words/number-text.ts';
import { type NumberName, PICKUP_NUMBERS } from '../words/numbers.ts';
import { plannedTurns } from '../words/turns-words.ts';
import type { Found } from './check.ts';
import { replaceNumber } from './edits.ts';
import type { Remedy } from './finding.ts';
import { definePickupCheck, type PickupContext } from './pickup-check.ts';
import { remedy } from './remedy.ts';
import { say } from './say.ts';

const TARGET_MISSED = {
  code: 'target/missed',
  severity: 'information',
  yieldsTo: ['circuit/open', 'circuit/output-shorted', 'circuit/coil-shorted', 'winding/does-not-fit'],
} as const;

/** The resistance that the build should reach. */
export const targetResistanceMissed = definePickupCheck({
  ...TARGET_MISSED,
  run: (context) => {
    const wanted = context.pickup.target?.resistance;
    const reached = context.quick.resistance20COhm;
    return wanted && reached
      ? missed(
          context,
          {
            name: PICKUP_NUMBERS.resistance20COhm,
            wanted,
            reached: scale(reached, copperTemperatureFactor(benchRoomC(context.bench))),
          },
          { resistanceOhm: wanted.value.si },
        )
      : undefined;
  },
});

/** Inductance and resonance. */
export const targetSoundMissed = definePickupCheck({
  ...TARGET_MISSED,
  late: true,
  run: (context) => {
    const { inductance, resonance } = context.pickup.target ?? {};
    if (!inductance && !resonance) return undefined;
    const { inductanceH, resonanceHz } = pickupEstimates(context.quick, context.bench);
    const { frequency, load } = resonance?.value ?? {};
    return [
      inductance && inductanceH
        ? missed(
            context,
            { name: PICKUP_NUMBERS.inductanceH, wanted: inductance, reached: inductanceH },
            { inductanceH: inductance.value.si },
          )
        : undefined,
      resonance && frequency && resonanceHz
        ? missed(
            context,
            {
              name: { ...PICKUP_NUMBERS.resonanceHz, what: `${load} ${PICKUP_NUMBERS.resonanceHz.what}` },
              wanted: { value: frequency, place: resonance.place },
              reached: resonanceHz,
            },
            { resonanceHz: frequency.si, loaded: load === 'loaded' },
          )
        : undefined,
      resonance && frequency && load && resonanceHz === null
        ? withoutPeak(resonance.place, frequency, load)
        : undefined,
    ];
  },
});

const withoutPeak = (place: Place, { written }: Quantity, load: string): Found => ({
  what: say`The ${load} response has no peak: there is no resonance that could lie at the target of ${written}.`,
  action: say`Thinner metal about the coils, or metal that conducts less, brings a peak back; under a load larger pots do, too.`,
  place,
});

interface Comparison {
  readonly name: NumberName;
  readonly wanted: Stated<Quantity>;
  readonly reached: Estimate;
}

function missed(context: PickupContext, { name, wanted, reached }: Comparison, target: Target): Found | undefined {
  const { si, sd = 0 } = wanted.value;
  const off = reached.value - si;
  if (
    !(Math.abs(off) > TARGET_LEAST_DEVIATIONS * Math.hypot(reached.sd, sd)) ||
    !(Math.abs(off) > TARGET_LEAST_RELATIVE * si)
  )
    return undefined;
  const percent = Math.round((100 * Math.abs(off)) / si);
  return {
    what: say`The ${name.what} comes to ${numberText(reached, name)}, ${percent} % ${off > 0 ? 'above' : 'below'} the target of ${wanted.value.written}: turns, wire or target are not what was meant.`,
    place: wanted.place,
    remedies: () => remedies(turnsForTarget(context.quick, context.bench, target) ?? []),
  };
}

/** Only a plan can be changed: a coil that was counted has been wound. */
function remedies(proposals: readonly TurnsProposal[]): Remedy | undefined {
  if (proposals.length === 0 || proposals.some(({ coil, fits }) => coil.counted || !coil.turns || !fits))
    return undefined;
  const edits = proposals.map((each) => {
    const line = each.coil.turns?.place;
    return line && replaceNumber(line, printCount(plannedTurns(each), 'plain'));
  });
  const each = proposals.map((proposal) => say`${proposal.coil.name} ${printCount(plannedTurns(proposal))}`).join(', ');
  return remedy(say`Wind the turns that reach it: ${each}`, edits);
}
