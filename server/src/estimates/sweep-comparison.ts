/** What sweeps measured beside what is computed, and beside what was measured before. */
import type { Bench } from '../model/bench.ts';
import type { PickupNetlist } from '../model/netlist.ts';
import { difference, type Estimate } from '../quantities/estimate.ts';
import { computedMagnetics } from './magnetics.ts';
import { quickEstimates } from './quick.ts';
import { isCoil } from './sweep-set-up.ts';
import type { Swept, SweptCoil } from './sweeps-measured.ts';

type Numbers = Partial<Record<'inductanceH' | 'capacitanceF' | 'resistance20COhm' | 'quality1kHz', Estimate>>;

/** The same numbers as the spec computes them, nothing measured in their place. */
export function computedBeside({ group }: SweptCoil, netlist: PickupNetlist, bench: Bench | undefined): Numbers {
  const { pickup } = netlist;
  // A coil's resistance is computed from turns where a reading stands beside.
  const bare = { ...netlist, pickup: { ...pickup, readings: [] } };
  const quick = quickEstimates(bare, bench);
  const computed = computedMagnetics(quick);
  const { subject } = group;
  if (subject === 'whole')
    return given({
      inductanceH: computed.inductanceH,
      capacitanceF: computed.capacitanceF,
      resistance20COhm: quick.resistance20COhm ?? undefined,
    });
  if (!isCoil(subject)) return {};
  const own = computed.coils.get(subject);
  return given({
    inductanceH: own?.totalH,
    capacitanceF: own?.capacitances.windingF,
    resistance20COhm: quick.windings.get(subject)?.resistance20COhm,
  });
}

const given = (numbers: { readonly [K in keyof Numbers]: Estimate | undefined }): Numbers =>
  Object.fromEntries(Object.entries(numbers).filter(([, value]) => value !== undefined));

export interface SweptChange {
  readonly before: SweptCoil;
  readonly after: SweptCoil;
  readonly changes: Numbers;
}

/**
 * Of each two points that were swept more than once, the newest against the one before; what both share cancels. The quality is none of
 * it: it goes with the temperature.
 */
export function sweptChanges(swept: readonly Swept[]): readonly SweptChange[] {
  const coils = swept.filter((each): each is SweptCoil => each.kind === 'coil' && each.verdict !== 'does not hold');
  return coils.flatMap((after, index) => {
    const isSame = (each: SweptCoil) => each.group.subject !== undefined && each.group.subject === after.group.subject;
    const before = coils.slice(0, index).filter(isSame).at(-1);
    const isLast = !coils.slice(index + 1).some(isSame);
    if (!before || !isLast) return [];
    return [
      {
        before,
        after,
        changes: {
          inductanceH: difference(after.inductanceH, before.inductanceH),
          capacitanceF: difference(after.capacitanceF, before.capacitanceF),
          resistance20COhm: difference(after.resistance20COhm, before.resistance20COhm),
        },
      },
    ];
  });
}
