/** Metal and shields of the pickups of a wired instrument, by the terminal that they are. */
import type { WiredStates } from '../estimates/switch-states.ts';
import { looseNetlist, nodeName, partNode } from '../model/netlist.ts';
import type { Place } from '../model/place.ts';
import { lugTerminal } from '../physics/switching/rig.ts';

interface WiredMetal {
  readonly slot: string;
  readonly name: string;
  readonly terminal: string;
  readonly place: Place;
}

export const wiredMetalOf = ({ instrument }: WiredStates): readonly WiredMetal[] =>
  instrument.slots.flatMap(({ name: slot, pickup }) =>
    pickup
      ? looseNetlist(pickup).metal.map(({ fitting, name, place }) => ({
          slot,
          name,
          terminal: lugTerminal(slot, nodeName(partNode(fitting === 'shield' ? 'shield' : name))),
          place,
        }))
      : [],
  );
