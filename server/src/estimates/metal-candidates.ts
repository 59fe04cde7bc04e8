/** Which other metal about a coil would take from it what a sweep shows to be taken: each is put into the pickup, and computed. */
import type { Quantity } from '../../../grammar/values/quantity.ts';
import type { MetalFitting, Pickup } from '../model/pickup.ts';
import type { MetalName } from '../physics/constants.ts';
import { type Taken, takenBy } from '../physics/sweep/coil-form.ts';
import { TRIED_SHEETS_M } from './common-practice.ts';
import { computedMagnetics } from './computed-magnetics.ts';
import { isSteel } from './magnetic-parts.ts';
import { type QuickEstimates, quickEstimates } from './quick.ts';
import { lossRelativeSd, takenIn } from './sweep-diagnosis.ts';
import type { SweptCoil } from './sweeps-measured.ts';

export interface MetalCandidate {
  readonly part: MetalFitting['part'];
  /** `undefined`: the part is not there. */
  readonly material: MetalName | undefined;
  /** Of its sheet; of those that were tried the one that fits best. */
  readonly thickness: Quantity | undefined;
  /** How far it lies off what was measured, in deviations. */
  readonly apart: number;
  /** What is computed less sharply fits more easily: −2 ln of the likelihood, but for what is common to all. */
  readonly unlikely: number;
}

/** What a cover or a plate is bent from. */
const SHEET_METALS = ['nickel-silver', 'brass', 'copper', 'aluminium', 'stainless-steel', 'steel'] as const;

/**
 * One change of what is stated at a time: another metal of a part, its absence, or a part that is not stated; what fits best first. Only
 * what lies within so many deviations.
 */
export function metalCandidates(swept: SweptCoil, quick: QuickEstimates): readonly MetalCandidate[] {
  const { pickup } = quick.netlist;
  const candidates = (['cover', 'baseplate'] as const).flatMap((part) => {
    const stated = pickup.metal.find((each) => each.part === part);
    const others = [undefined, ...SHEET_METALS].filter((material) => material !== stated?.material);
    return others.map((material) => {
      const isSheet = material !== undefined && !isSteel(material);
      const sheets = !isSheet ? [undefined] : stated?.thickness ? [stated.thickness] : TRIED_SHEETS;
      const tried = sheets.map((thickness) => ({
        part,
        material,
        thickness,
        ...fitOf(withMetal(pickup, part, material, thickness), swept, quick),
      }));
      return tried.reduce((best, each) => (each.unlikely < best.unlikely ? each : best));
    });
  });
  return candidates.filter(({ apart }) => apart < FITS).sort((a, b) => a.unlikely - b.unlikely);
}

const FITS = 2;
const TRIED_SHEETS = TRIED_SHEETS_M.map(
  (si): Quantity => ({ dimension: 'length', si, written: `${Number((si * 1000).toFixed(1))} mm` }),
);

function withMetal(
  pickup: Pickup,
  part: MetalFitting['part'],
  material: MetalName | undefined,
  thickness: Quantity | undefined,
): Pickup {
  const others = pickup.metal.filter((each) => each.part !== part);
  if (material === undefined) return { ...pickup, metal: others };
  return { ...pickup, metal: [...others, { part, material, thickness, tiedTo: undefined, place: pickup.place }] };
}

/** Over frequencies at which it is heard, the root of the mean square. */
function fitOf(
  pickup: Pickup,
  swept: SweptCoil,
  { netlist, bench }: QuickEstimates,
): Pick<MetalCandidate, 'apart' | 'unlikely'> {
  const quick = quickEstimates({ ...netlist, pickup }, bench);
  const magnetics = computedMagnetics(quick);
  const expected = takenIn(swept, quick, magnetics);
  const { losses } = swept;
  if (!expected || !losses) return { apart: Number.POSITIVE_INFINITY, unlikely: Number.POSITIVE_INFINITY };
  const relativeSd = lossRelativeSd(magnetics);
  const squares = HEARD_HZ.map((hz) => apartAt(takenBy(losses.loops, hz), expected(hz), relativeSd) ** 2);
  const apart = Math.sqrt(squares.reduce((sum, each) => sum + each, 0) / squares.length);
  return { apart, unlikely: apart ** 2 + 2 * Math.log(relativeSd) };
}

const HEARD_HZ = [500, 1000, 2000, 4000, 8000];

function apartAt(found: Taken, expected: Taken, relativeSd: number): number {
  const [resists, expects] = expected.resists === undefined ? [0, 0] : [found.resists ?? 0, expected.resists];
  const known = Math.hypot(relativeSd * Math.hypot(expected.lost, expects), LEAST_TAKEN);
  return Math.hypot(found.lost - expected.lost, resists - expects) / known;
}

/** Of the inductance: less than that nobody tells. */
const LEAST_TAKEN = 0.004;
