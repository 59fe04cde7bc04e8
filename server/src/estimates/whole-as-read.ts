import type { Estimate } from '../quantities/estimate.ts';
import { capacitanceRead, inductanceAtLowFrequency, newestMagnetic } from './measured-magnetics.ts';
import type { QuickEstimates } from './quick.ts';

/** What meters read of a pickup whose coils nobody knows: of those nothing is computed, and the readings are all there is. */
export function wholeAsRead({ netlist, resistance20COhm }: QuickEstimates): {
  readonly inductanceH: Estimate | undefined;
  readonly capacitanceF: Estimate | undefined;
} {
  const [henry, farad] = [
    newestMagnetic(netlist, 'inductance', 'whole'),
    newestMagnetic(netlist, 'capacitance', 'whole'),
  ];
  const beside = { ohm: resistance20COhm?.value ?? 0, farad: farad?.value.si ?? 0 };
  return {
    inductanceH: henry && inductanceAtLowFrequency(henry, beside, lostToMetalUnseen),
    capacitanceF: farad && capacitanceRead(farad),
  };
}

/**
 * Share of the inductance that metal takes at a frequency where nobody knows the metal: half of what is computed for steel poles under a
 * cover of nickel silver (0.3 % at 120 Hz, 5 % at 1 kHz, 20 to 30 % at 10 kHz), so that its error reaches from none to all of that.
 */
const lostToMetalUnseen = (frequencyHz: number): number => {
  const squared = (frequencyHz / UNSEEN_CORNER_HZ) ** 2;
  return (UNSEEN_STRENGTH * squared) / (1 + squared);
};
const UNSEEN_STRENGTH = 0.14;
const UNSEEN_CORNER_HZ = 2_200;
