import type { Swept } from '../estimates/sweeps-measured.ts';
import type { Place } from '../model/place.ts';

/** The name of the file in the line of a sweep; of several together the first. */
export function sweepPlace({ group: { sweeps, block } }: Pick<Swept, 'group'>): Place {
  return sweeps[0]?.file.place ?? block.place;
}
