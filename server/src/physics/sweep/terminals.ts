/** What coils that are joined are between two points: one coil of so many ohm, henry and farad, with so much metal. */
import { type CoilForm, type MetalLoop, metalLoops, partsOfForm } from './coil-form.ts';
import type { CoilNetwork, CoilsJoined, ProbedCircuit } from './coil-network.ts';

export interface Terminals {
  readonly ohm: number;
  /** The limit of low frequency, where currents part by resistances. */
  readonly henry: number;
  /** Each capacitance by the square of its share of the voltage. */
  readonly farad: number;
  readonly loops: readonly MetalLoop[];
  /** Of one coil. */
  readonly acrossOhm: number | undefined;
}

export function terminalsOf(
  form: CoilForm,
  joined: CoilsJoined,
  network: CoilNetwork,
  values: ArrayLike<number>,
  { circuit, copper }: { readonly circuit: number; readonly copper: number },
): Terminals {
  const { admittance, models, currents, reaches } = network;
  const { coils } = joined.circuits[circuit] as ProbedCircuit;
  const startOf = (coil: number) => (joined.coils[coil]?.set ?? 0) * network.ofSet;
  network.take(values);
  network.at(circuit, LOW_HZ, copper, false, true);
  const square = (admittance[0] ?? 0) ** 2 + (admittance[1] ?? 0) ** 2;
  const [ohm, henry] = [(admittance[0] ?? 0) / square, -(admittance[1] ?? 0) / square / (2 * Math.PI * LOW_HZ)];
  const share = (coil: number) => (currents[2 * coil] ?? 0) / (admittance[0] ?? 1);
  const shares = new Map(coils.map(({ coil }) => [coil, share(coil)] as const));
  const strength = (coil: number) => (shares.get(coil) ?? 0) * Math.sqrt(models[coil]?.henry ?? 0);
  const loops = joined.coils.flatMap((_, coil) => {
    if (!shares.has(coil) && reaches === 0) return [];
    return metalLoops(form, values, startOf(coil)).flatMap((loops, part) => {
      // What a turn is coupled to: its own coil, and the others as far as it reaches there.
      const whole = joined.coils.reduce((sum, _, to) => sum + network.reachOf(coil, to, part) * strength(to), 0);
      const share = whole ** 2 / henry;
      return loops.map(({ squaredCoupling, cornerHz }) => ({ squaredCoupling: squaredCoupling * share, cornerHz }));
    });
  });
  const susceptance = (isBare: boolean) => {
    network.at(circuit, MIDDLE_HZ, copper, false, isBare);
    return admittance[1] ?? 0;
  };
  const [only] = coils;
  const acrossAt = partsOfForm(form).indexOf('across');
  return {
    ohm,
    henry,
    farad: (susceptance(false) - susceptance(true)) / (2 * Math.PI * MIDDLE_HZ),
    loops,
    acrossOhm:
      acrossAt < 0 || !only || coils.length > 1
        ? undefined
        : Math.exp(values[startOf(only.coil) + 3 + 2 * acrossAt] ?? 0),
  };
}

/** Resistances are more than a thousand times the reactances. */
const LOW_HZ = 0.1;
/** Voltages part by inductances, and capacitances pass little. */
const MIDDLE_HZ = 3000;

/** A shorted turn beside several coils: its coupling with each, from start to finish. */
export interface SharedTurn {
  readonly cornerHz: number;
  readonly couplings: readonly number[];
}

/** The metal of all coils as turns: each about its own coil, and about the others as far as it reaches there. */
export function sharedTurns(
  form: CoilForm,
  joined: CoilsJoined,
  network: CoilNetwork,
  values: ArrayLike<number>,
): readonly SharedTurn[] {
  network.take(values);
  return joined.coils.flatMap(({ set }, coil) =>
    metalLoops(form, values, set * network.ofSet).flatMap((loops, part) =>
      loops.map(({ squaredCoupling, cornerHz }) => ({
        cornerHz,
        couplings: joined.coils.map((_, at) => Math.sqrt(squaredCoupling) * network.reachOf(coil, at, part)),
      })),
    ),
  );
}
