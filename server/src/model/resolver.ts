import type { Bobbin } from './bobbin.ts';
import type { Magnet } from './magnet.ts';
import type { ModelProblem, Reference } from './model.ts';
import type { Pickup } from './pickup.ts';
import type { Place } from './place.ts';
import type { Spool, Wire } from './wire.ts';

/** Names in scope while a block is read. Each look-up is remembered, so that the block is read again only when one of them changes. */
export interface Resolver {
  wire(name: string, place: Place): Wire | undefined;
  spool(name: string, place: Place): Spool | undefined;
  bobbin(name: string, place: Place): Bobbin | undefined;
  magnet(name: string, place: Place): Magnet | undefined;
  pickup(name: string, place: Place): Pickup | undefined;
  /** Notes a name that is declared or used inside the block itself: coils, leads, slots. */
  note(reference: Reference): void;
  report(problem: ModelProblem): void;
}
