import type { Component } from './circuit.ts';
import { component, resistor } from './components.ts';

export type Taper = 'linear' | 'audio' | 'reverse-audio';

/** Share of the track that an audio pot has between its wiper and the low end at half travel. Common practice, no
 * published source; pots from 10 % to 20 % are sold as audio. */
export const audioMiddleFraction = 0.1;

export interface PotValues {
  /** Resistance of the whole track, in Ω. */
  readonly trackOhm: number;
  readonly taper: Taper;
  /** 0 (fully down) to 10 (fully up), as on a knob; values outside count as the nearer end. */
  readonly rotation: number;
  /** What remains between wiper and track at either end; 0 if left out. */
  readonly endOhm?: number;
}

/** Share of the track between wiper and low end, 0 to 1, at a rotation of 0 to 10. */
export function wiperFraction(taper: Taper, rotation: number): number {
  return tapers[taper](Math.min(1, Math.max(0, rotation / 10)));
}

/** A pot with all three lugs in use: a volume control. */
export function potentiometer(
  values: PotValues & { readonly name: string; readonly high: string; readonly wiper: string; readonly low: string },
): Component {
  const { name, high, wiper, low, trackOhm, endOhm = 0 } = values;
  const lowerOhm = wiperFraction(values.taper, values.rotation) * trackOhm;
  return twoPart(name, [high, wiper, low], trackOhm - lowerOhm + endOhm, lowerOhm + endOhm);
}

/** A pot used as a variable resistor: a tone control. Its resistance grows with the rotation. */
export function rheostat(
  values: PotValues & { readonly name: string; readonly from: string; readonly to: string },
): Component {
  const { name, from, to, trackOhm, taper, rotation, endOhm = 0 } = values;
  return resistor({ name, from, to, ohm: wiperFraction(taper, rotation) * trackOhm + endOhm });
}

const tapers: Record<Taper, (travel: number) => number> = {
  linear: (travel) => travel,
  audio,
  'reverse-audio': (travel) => 1 - audio(1 - travel),
};

/** (bˣ - 1)/(b - 1), with b such that half travel gives the middle fraction. */
function audio(travel: number): number {
  const base = ((1 - audioMiddleFraction) / audioMiddleFraction) ** 2;
  return (base ** travel - 1) / (base - 1);
}

/** Two resistors with a common wiper, one component. */
function twoPart(
  name: string,
  terminals: readonly [string, string, string],
  upperOhm: number,
  lowerOhm: number,
): Component {
  const [high, wiper, low] = terminals;
  const upper = resistor({ name: `${name}_upper`, from: high, to: wiper, ohm: upperOhm });
  const lower = resistor({ name: `${name}_lower`, from: wiper, to: low, ohm: lowerOhm });
  return component(name, terminals, {
    ownUnknowns: upper.ownUnknowns + lower.ownUnknowns,
    wires: [...upper.wires, ...lower.wires.map(() => [1, 2] as const)],
    paths: [...upper.paths, ...lower.paths.map(({ direct }) => ({ between: [1, 2] as const, direct }))],
    stamp: (equations, { terminals: [a = -1, b = -1, c = -1], own, referred }) => {
      upper.stamp(equations, { terminals: [a, b], own, referred });
      lower.stamp(equations, { terminals: [b, c], own: own + upper.ownUnknowns, referred });
    },
  });
}
