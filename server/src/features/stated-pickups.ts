/** Pickups as files state them: enough for what most look for, and nothing is solved. */
import type { Analysis } from '../analysis/analysis-types.ts';
import type { Pickup } from '../model/pickup.ts';
import { type PickupRecord, statedRecord } from './pickup-record.ts';
import type { RecordFilter } from './record-filter.ts';

/** A pickup that fits by all that it states itself. */
export interface StatedPickup {
  /** Names are unique within what a file uses, not within a folder. */
  readonly key: string;
  /** Which of the file's it is. */
  readonly index: number;
  readonly record: PickupRecord;
}

/** What one file says of pickups, its own and others'. */
export interface FileFacts {
  readonly pickups: readonly StatedPickup[];
  /** Those that others rework. */
  readonly former: readonly string[];
  readonly fitted: readonly { readonly key: string; readonly instrument: string }[];
}

/** `shown`: the file as records name it. */
export function fileFacts(
  { model, locate }: Pick<Analysis, 'model' | 'locate'>,
  shown: string,
  filters: readonly RecordFilter[],
): FileFacts {
  const keyOf = ({ place, name }: Pickup): string => `${locate(place)?.uri} ${name}`;
  return {
    pickups: model.pickups.flatMap((pickup, index) => {
      const record = statedRecord(pickup, shown, []);
      return filters.every((fits) => fits(record)) ? [{ key: keyOf(pickup), index, record }] : [];
    }),
    former: model.pickups.flatMap(({ reworks }) => (reworks ? [keyOf(reworks)] : [])),
    fitted: model.instruments.flatMap(({ name, slots }) =>
      slots.flatMap(({ pickup }) => (pickup ? [{ key: keyOf(pickup), instrument: name }] : [])),
    ),
  };
}

/** Where a pickup stands, and what all files state of it. */
export interface PickupThere {
  readonly file: string;
  readonly index: number;
  readonly record: PickupRecord;
}

/**
 * The pickups of some files that fit by all that is stated of them, in order of their date; of one that another file reworks, that file
 * has it.
 */
export function statedPickups(
  files: readonly { readonly file: string; readonly facts: FileFacts }[],
  filters: readonly RecordFilter[],
): readonly PickupThere[] {
  const former = new Set(files.flatMap(({ facts }) => facts.former));
  const instruments = new Map<string, Set<string>>();
  for (const { facts } of files)
    for (const { key, instrument } of facts.fitted)
      instruments.set(key, (instruments.get(key) ?? new Set()).add(instrument));
  return files
    .flatMap(({ file, facts }) =>
      facts.pickups.flatMap(({ key, index, record }): readonly PickupThere[] => {
        const all = { ...record, instruments: [...(instruments.get(key) ?? [])].sort() };
        return former.has(key) || !filters.every((fits) => fits(all)) ? [] : [{ file, index, record: all }];
      }),
    )
    .sort(
      ({ record: a, file }, { record: b, file: other }) =>
        compareTexts(a.made ?? '', b.made ?? '') || compareTexts(file, other),
    );
}

const compareTexts = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
