import type { Quantity } from '../../../grammar/values/quantity.ts';
import type { Place, Stated } from './place.ts';

export const ENAMELS = ['plain', 'polyurethane', 'polyester-imide', 'polyvinyl-acetal'] as const;
export type Enamel = (typeof ENAMELS)[number];

/** Insulation build: `single` is the standards' grade 1, `double` grade 2. */
export type InsulationBuild = 'single' | 'double';

export interface Wire {
  readonly name: string;
  readonly place: Place;
  /** AWG number. */
  readonly gaugeAwg: Stated<number> | undefined;
  /** Bare copper diameter, where it is stated instead of a gauge. */
  readonly bareDiameter: Stated<Quantity> | undefined;
  readonly build: Stated<InsulationBuild> | undefined;
  /** Diameter over the enamel, as measured. */
  readonly overallDiameter: Stated<Quantity> | undefined;
  readonly enamel: Stated<Enamel> | undefined;
}

/** One spool of wire on the shelf. */
export interface Spool {
  readonly name: string;
  readonly place: Place;
  readonly wire: Wire | undefined;
  readonly left: Stated<Quantity> | undefined;
  /** What this spool really measures; serves every coil wound from it. */
  readonly measured:
    | Stated<{ readonly resistancePerLength: Quantity; readonly temperatureC: number | undefined }>
    | undefined;
}
