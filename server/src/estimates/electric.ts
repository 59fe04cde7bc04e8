/** What an electrical network needs to know of a pickup's coils. `quick` leaves the inductances out: enough at 0 Hz. */
import { type Coil, rotationSign } from '../model/coil.ts';
import type { Component } from '../physics/circuit/circuit.ts';
import {
  type Coil as CoilComponent,
  coil as coilComponent,
  mutualInductance,
  shortedTurn,
} from '../physics/circuit/coil.ts';
import { copperTemperatureFactor } from '../physics/wire.ts';
import { coilCapacitors } from './coil-capacitors.ts';
import type { PickupMagnetics } from './coil-magnetics.ts';
import { NOMINAL_HENRY, NOMINAL_OHM } from './common-practice.ts';
import type { Segment } from './pickup-circuit.ts';
import type { QuickEstimates } from './quick.ts';
import { wireShareOf } from './segment-shares.ts';

/** How values differ from their best estimates: for sensitivities, and for the temperature at which a meter reads. */
export interface Scaling {
  readonly temperatureC: number;
  readonly resistance: number;
  readonly inductance: number;
  readonly capacitance: number;
  /** Of the time constants of eddy currents. */
  readonly losses: number;
  /** Of what they take from the string's field. */
  readonly screening: number;
  /** Of how loud coils of unknown turns are beside the others, by their inductance. */
  readonly loudness: number;
  /** Of the tracks of pots, of the capacitors in controls, and of the cable. */
  readonly tracks: number;
  readonly capacitors: number;
  readonly cable: number;
}

export const NO_SCALING: Scaling = scalingOf([]);

/** Hum: its even field does not drive metal as a string close above it does. */
export const UNSCREENED: Scaling = { ...NO_SCALING, screening: 0 };

/** From factors in the order of `scalingCauses`, then those of `load-causes.ts`; what is left out is 1. */
export function scalingOf(factors: readonly number[]): Scaling {
  const [resistance = 1, inductance = 1, capacitance = 1, losses = 1, screening = 1, loudness = 1, ...load] = factors;
  const [tracks = 1, capacitors = 1, cable = 1] = load;
  return {
    temperatureC: 20,
    resistance,
    inductance,
    capacitance,
    losses,
    screening,
    loudness,
    tracks,
    capacitors,
    cable,
  };
}

export interface CoilParts {
  readonly components: readonly Component[];
  readonly coils: ReadonlyMap<string, CoilComponent>;
}

/**
 * The windings of one pickup as components, with the couplings between them and, with `magnetics`, their capacitances. The parts of a
 * tapped coil are fully coupled; a part's inductance goes with the square of its wire, within some 3 % of the field integral for a third
 * of the turns and more: inner turns are shorter and link less.
 */
export function windingComponents(
  segments: readonly Segment[],
  quick: QuickEstimates,
  magnetics: PickupMagnetics | undefined,
  scaling: Scaling,
  screen: string | undefined,
): CoilParts {
  const hot = copperTemperatureFactor(scaling.temperatureC);
  const made = segments.map((segment) => {
    const magnetic = magnetics?.coils.get(segment.coil);
    const share = wireShareOf(segment, quick.windings.get(segment.coil));
    const whole = quick.windings.get(segment.coil)?.resistance20COhm?.value ?? NOMINAL_OHM;
    const henry = (magnetic?.totalH.value ?? NOMINAL_HENRY) * scaling.inductance;
    return {
      segment,
      share,
      component: coilComponent({
        name: segment.source,
        start: segment.start,
        finish: segment.finish,
        ohm: whole * share * hot * scaling.resistance,
        henry: henry * share ** 2,
      }),
    };
  });
  const couplings = made.flatMap((a, index) =>
    made.slice(index + 1).flatMap((b): readonly Component[] => {
      const henry = mutual(a.segment.coil, b.segment.coil, quick, magnetics) * a.share * b.share * scaling.inductance;
      if (henry === 0) return [];
      return [mutualInductance(`${a.segment.source}~${b.segment.source}`, a.component, b.component, henry)];
    }),
  );
  return {
    components: [
      ...made.map(({ component }) => component),
      ...couplings,
      ...(magnetics ? eddyTurns(made, quick, magnetics, scaling) : []),
      ...(magnetics ? coilCapacitors(segments, magnetics, screen, scaling.capacitance) : []),
    ],
    coils: new Map(made.map(({ segment, component }) => [segment.source, component])),
  };
}

interface MadeSegment {
  readonly segment: Segment;
  readonly share: number;
  readonly component: CoilComponent;
}

/** The metal about a pickup, as shorted turns beside all of its coils that are in the circuit; a part of a coil by its turns. */
function eddyTurns(
  made: readonly MadeSegment[],
  quick: QuickEstimates,
  magnetics: PickupMagnetics,
  { losses, screening }: Scaling,
): readonly Component[] {
  const [first] = made;
  if (!first) return [];
  // Nobody knows what metal in a closed pickup takes of the strings' field; its sweep is of what the winding passes on.
  const seen = quick.coilsSweptWhole ? 0 : screening;
  return magnetics.eddies().turns.map(({ cornerHz, beside }, index) =>
    shortedTurn({
      name: `${first.segment.source}~eddies ${index + 1}`,
      cornerHz: cornerHz / losses,
      beside: made.flatMap(({ segment, share, component }) => {
        const turn = beside.get(segment.coil);
        const wind = windOf(segment.coil, quick);
        if (!turn) return [];
        return [{ coil: component, coupling: turn.coupling * wind, drive: turn.drive * wind * share * seen }];
      }),
    }),
  );
}

/** Mutual inductance from start to finish of both: two coils wound the same way round count as the integral does. */
function mutual(a: Coil, b: Coil, quick: QuickEstimates, magnetics: PickupMagnetics | undefined): number {
  if (a === b) return (magnetics?.coils.get(a)?.totalH.value ?? NOMINAL_HENRY) * TAPPED_COUPLING;
  return (magnetics?.mutualSameSenseH(a, b) ?? 0) * windOf(a, quick) * windOf(b, quick);
}

const windOf = (coil: Coil, { signs }: QuickEstimates): number =>
  signs.find((each) => each.coil === coil)?.wind?.sign ?? (coil.wound ? rotationSign(coil.wound.value) : 1);

/** The parts of one winding share nearly all their flux. */
const TAPPED_COUPLING = 0.9999;
