/** The two steps of `list`: what files state of their pickups, and then all of those that may fit. */
import { type PickupRecord, pickupRecord, statedRecord } from '../features/pickup-record.ts';
import { type LooksAt, type RecordFilter, recordFilter } from '../features/record-filter.ts';
import type { Pickup } from '../model/pickup.ts';
import { sourceReader } from './source.ts';
import type { Task } from './threads.ts';

export interface ListSettings {
  readonly cwd: string;
  readonly root: string | undefined;
  /** Filters, as they are written. */
  readonly where: readonly string[];
}

/** A pickup that fits by all that it states itself. */
export interface StatedPickup {
  /** Names are unique within what a file uses, not within a folder. */
  readonly key: string;
  /** Which of the file's it is. */
  readonly index: number;
  readonly record: PickupRecord;
}

export type FileFacts =
  | {
      readonly ok: true;
      readonly pickups: readonly StatedPickup[];
      /** Those that others rework. */
      readonly former: readonly string[];
      readonly fitted: readonly { readonly key: string; readonly instrument: string }[];
    }
  | { readonly ok: false; readonly problem: string };

export const factsTask: Task<ListSettings, string, FileFacts> = {
  name: 'facts',
  begin({ cwd, root, where }, analyser) {
    const read = sourceReader(root, cwd);
    const filters = filtersBy(where, 'the pickup');
    return (file) => {
      const result = read(file);
      if (!result.ok) return result;
      const { uri, host, shown } = result.source;
      const { model, locate } = analyser.declared(uri, host);
      const keyOf = ({ place, name }: Pickup): string => `${locate(place)?.uri} ${name}`;
      return {
        ok: true,
        pickups: model.pickups.flatMap((pickup, index) => {
          const record = statedRecord(pickup, shown, []);
          return filters.every((fits) => fits(record)) ? [{ key: keyOf(pickup), index, record }] : [];
        }),
        former: model.pickups.flatMap(({ reworks }) => (reworks ? [keyOf(reworks)] : [])),
        fitted: model.instruments.flatMap(({ name, slots }) =>
          slots.flatMap(({ pickup }) => (pickup ? [{ key: keyOf(pickup), instrument: name }] : [])),
        ),
      };
    };
  },
};

export interface PickupAt {
  readonly file: string;
  readonly index: number;
  readonly instruments: readonly string[];
}

/** All of a pickup; nothing where it cannot be analysed, or does not fit by what is computed. */
export const recordTask: Task<ListSettings, PickupAt, { readonly record?: PickupRecord }> = {
  name: 'record',
  begin({ cwd, root, where }, analyser) {
    const read = sourceReader(root, cwd);
    const filters = filtersBy(where, 'its numbers');
    return ({ file, index, instruments }) => {
      const result = read(file);
      if (!result.ok) return {};
      const analysis = analyser.analyse(result.source.uri, result.source.host);
      const pickup = analysis.model.pickups[index];
      const analysed = analysis.pickups.find((each) => each.pickup === pickup);
      if (!analysed) return {};
      const record = pickupRecord(analysed, { analysis, file: result.source.shown }, instruments);
      return filters.every((fits) => fits(record)) ? { record } : {};
    };
  },
};

/** Filters by what they look at; an instrument is known of when all files have been read. */
export function filtersBy(where: readonly string[], what: LooksAt): readonly RecordFilter[] {
  return where.flatMap((written) => {
    const result = recordFilter(written);
    return 'filter' in result && result.looksAt === what ? [result.filter] : [];
  });
}
