/** The capacitances of a pickup's coils as components of a circuit. */
import type { Coil } from '../model/coil.ts';
import type { Component } from '../physics/circuit/circuit.ts';
import { capacitor } from '../physics/circuit/components.ts';
import type { PickupMagnetics } from './coil-magnetics.ts';
import type { Segment } from './pickup-circuit.ts';

/**
 * Across each whole coil, from its ends to `screen` (what cover, poles and shield are tied to), and between neighbours. The faces of a
 * coil whose voltage runs evenly from one end to the other hold the charge of half their capacitance at each end, less a sixth of it
 * across the coil.
 */
export function coilCapacitors(
  segments: readonly Segment[],
  magnetics: PickupMagnetics,
  screen: string | undefined,
  factor: number,
): readonly Component[] {
  const components: Component[] = [];
  const add = (name: string, from: string | undefined, to: string | undefined, farad: number) => {
    if (from === undefined || to === undefined || from === to || farad === 0) return;
    components.push(capacitor({ name, from, to, farad: farad * factor }));
  };
  const ends = endsOf(segments);
  for (const [coil, { source, start, finish }] of ends) {
    const capacitances = magnetics.coils.get(coil)?.capacitances;
    if (!capacitances) continue;
    const { windingF, startF, finishF, facesF } = capacitances;
    add(`${source} capacitance`, start, finish, windingF.value - (screen === undefined ? 0 : facesF.value / 6));
    add(`${source} start to screen`, start, screen, startF.value + facesF.value / 2);
    add(`${source} finish to screen`, finish, screen, finishF.value + facesF.value / 2);
  }
  for (const { coils, farad } of magnetics.between) {
    const [a, b] = coils.map((coil) => ends.get(coil));
    if (a && b) add(`${a.source} to ${b.source}`, a.finish, b.finish, farad.value);
  }
  return components;
}

interface Ends {
  readonly source: string;
  readonly start: string;
  readonly finish: string;
}

/** Where each coil begins and ends, over all its parts. */
function endsOf(segments: readonly Segment[]): ReadonlyMap<Coil, Ends> {
  const ends = new Map<Coil, Ends>();
  for (const { coil, source, start, finish } of segments) {
    const before = ends.get(coil);
    ends.set(coil, before ? { ...before, finish } : { source, start, finish });
  }
  return ends;
}
