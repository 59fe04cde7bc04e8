/** What moving a knob does to a pickup's figures, by the models at hand: a small table for each knob, all others where they are. */
import type { QuickEstimates } from '../estimates/quick.ts';
import type { Coil } from '../model/coil.ts';
import type { AimKind, Pickup } from '../model/pickup.ts';
import { modelAtHand, type WoundCoils } from './at-hand.ts';
import { fixedCoils } from './propose.ts';
import type { WireOption } from './shelf.ts';
import type { PickupKnob } from './what-if.ts';
import { type InductancePerTurns, inductancesPerTurns, windingCurve } from './winding-curve.ts';

/** Resistance and inductance in SI, resonance in hertz, its height in dB. */
export const FIGURES = ['resistance', 'inductance', 'resonance', 'peak'] as const satisfies readonly AimKind[];
export type Figure = (typeof FIGURES)[number];

/** What a figure is multiplied by, a level what is added to it; `null`: not known there. */
export interface Effects {
  /** Where the knob stands: of a slider numbers that rise, else the ids of its choices. */
  readonly at: readonly (number | string)[];
  readonly of: Readonly<Record<Figure, readonly (number | null)[]>>;
}

/** Places of a slider that are computed; between them straight lines do. */
const PLACES = 9;

/** Of each knob by its id; those of which the models say nothing are left out. */
export function effectsAtHand(quick: QuickEstimates, knobs: readonly PickupKnob[]): ReadonlyMap<string, Effects> {
  const coils = fixedCoils(quick, { coils: [] }, true);
  const model = modelAtHand({ quick, coils, bench: quick.bench, needsInductance: true });
  const perTurns = inductancesPerTurns();
  return new Map(
    knobs.flatMap((knob) => {
      if (knob.kind === 'magnet') return [];
      const at: readonly (number | string)[] = knob.kind === 'turns' ? placesOf(knob) : [...knob.options.keys()];
      const rewound = rewinder(quick.netlist.pickup, coils, knob.coil, perTurns);
      const builds = at.map((to) =>
        knob.kind === 'turns' ? rewound(undefined, Number(to)) : rewound(knob.options.get(String(to)), undefined),
      );
      const over = (kind: Figure) => {
        const now = model.figure({ kind }, coils, undefined);
        return builds.map((build) => (build ? changeOf(kind, model.figure({ kind }, build, undefined), now) : null));
      };
      const of = {
        resistance: over('resistance'),
        inductance: over('inductance'),
        resonance: over('resonance'),
        peak: over('peak'),
      };
      return [[knob.id, { at, of }] as const];
    }),
  );
}

const placesOf = ({ fewest, most }: { readonly fewest: number; readonly most: number }): readonly number[] =>
  Array.from({ length: PLACES }, (_, index) => fewest + (index * (most - fewest)) / (PLACES - 1));

function changeOf(kind: Figure, then: number | null | undefined, now: number | null | undefined): number | null {
  if (typeof then !== 'number' || typeof now !== 'number') return null;
  const change = kind === 'peak' ? then - now : then / now;
  return Number.isFinite(change) ? change : null;
}

/** The coils with one of them wound otherwise: what is known of it, changed as its curves say. */
function rewinder(pickup: Pickup, coils: WoundCoils, coil: Coil, perTurns: InductancePerTurns) {
  const curveOf = (option: WireOption | undefined) =>
    option && coil.bobbin && windingCurve(coil, { ...option, bobbin: coil.bobbin }, pickup, perTurns);
  const known = coils.get(coil.name);
  const own = curveOf(coil.wire && { wire: coil.wire, spool: coil.spool, isUndeclared: false });
  return (option: WireOption | undefined, otherTurns: number | undefined): WoundCoils | undefined => {
    const curve = option ? curveOf(option) : own;
    if (!known || !own || !curve) return undefined;
    const turns = otherTurns ?? known.turns;
    const [was, is] = [own.at(Math.log(known.turns)), curve.at(Math.log(turns))];
    const wound = {
      turns,
      ohm: (known.ohm * is.ohm) / was.ohm,
      henry: (known.henry * is.henry) / was.henry,
      farad: (known.farad * is.farad) / was.farad,
      areaM2: (known.areaM2 * is.areaM2) / was.areaM2,
      kg: is.kg,
    };
    return new Map([...coils, [coil.name, wound]]);
  };
}
