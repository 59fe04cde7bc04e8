/** The two steps of `list`: what files state of their pickups, and then all of those that may fit. */
import { type PickupRecord, pickupRecord } from '../features/pickup-record.ts';
import { filtersBy } from '../features/record-filter.ts';
import { type FileFacts, fileFacts } from '../features/stated-pickups.ts';
import { sourceReader } from './source.ts';
import type { Task } from './threads.ts';

export interface ListSettings {
  readonly cwd: string;
  readonly root: string | undefined;
  /** Filters, as they are written. */
  readonly where: readonly string[];
}

export type FactsResult = ({ readonly ok: true } & FileFacts) | { readonly ok: false; readonly problem: string };

export const factsTask: Task<ListSettings, string, FactsResult> = {
  name: 'facts',
  begin({ cwd, root, where }, analyser) {
    const read = sourceReader(root, cwd);
    const filters = filtersBy(where, 'the pickup');
    return (file) => {
      const result = read(file);
      if (!result.ok) return result;
      const { uri, host, shown } = result.source;
      const facts = fileFacts(analyser.declared(uri, host), shown, filters);
      // As `check` does: most are not asked for again.
      analyser.forget(uri);
      return { ok: true, ...facts };
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
