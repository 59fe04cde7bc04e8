/** The photographs that a pickup or an instrument has lines for, and of what they are. */
import { onceFor } from '../../../grammar/values/remember.ts';
import type { Instrument } from './instrument.ts';
import type { Pickup } from './pickup.ts';
import type { Readings } from './readings.ts';

export type PhotoLine = Pickup['photos'][number];

export interface Photograph {
  readonly line: PhotoLine;
  /** The coil or the readings that it stands with; `undefined`: the whole. */
  readonly of: { readonly coil: string } | { readonly readings: string } | undefined;
}

/** In the order of the blocks. */
export type PhotographOf = NonNullable<Photograph['of']>;

export const photographsOf = onceFor((thing: Pickup | Instrument): readonly Photograph[] => [
  ...thing.photos.map((line) => ({ line, of: undefined })),
  ...('coils' in thing
    ? thing.coils.flatMap(({ photos, name }) => photos.map((line) => ({ line, of: { coil: name } })))
    : []),
  ...thing.readings.flatMap((readings) =>
    readings.photos.map((line) => ({ line, of: { readings: readingsName(readings) } })),
  ),
]);

const readingsName = ({ title, date, found }: Readings): string =>
  [
    'readings',
    ...(title === undefined ? (found ? ['as found'] : []) : [title]),
    ...(date === undefined ? [] : [date]),
  ].join(' ');
