/** Filters over pickups on record, written like facts: `magnet alnico-5`, `resistance 7 to 8 kohm`, `made 2026-05 to 2026-07`, `needs retest`, `needs sweep`. */
import { toSi, unitOf } from '../../../grammar/values/unit-table.ts';
import type { PickupRecord } from './pickup-record.ts';

export type RecordFilter = (record: PickupRecord) => boolean;

/** A filter, or why there is none: no filter begins with that word, or it is written like the example. */
export type FilterResult =
  | { readonly filter: RecordFilter; readonly looksAt: LooksAt }
  | { readonly word: string; readonly words: readonly string[] }
  | { readonly example: string };

/** What must be known for it: what the pickup states itself, what holds it in any file, or what is computed and found. */
export type LooksAt = 'the pickup' | 'its instruments' | 'its numbers';

export function recordFilter(written: string): FilterResult {
  const [word = '', ...rest] = written.trim().split(/\s+/);
  const kind = Object.hasOwn(FILTERS, word) ? FILTERS[word] : undefined;
  if (kind === undefined) return { word, words: Object.keys(FILTERS) };
  const filter = kind.filter(rest.join(' '));
  return filter === undefined ? { example: kind.example } : { filter, looksAt: kind.looksAt ?? 'the pickup' };
}

/** Filters by what they look at; an instrument is known of when all files have been read. */
export const filtersBy = (where: readonly string[], what: LooksAt): readonly RecordFilter[] =>
  where.flatMap((written) => {
    const result = recordFilter(written);
    return 'filter' in result && result.looksAt === what ? [result.filter] : [];
  });

/** What of some words between commas is written like a filter: one of their first words, and more behind it. */
export const filtersIn = (typed: string): readonly string[] =>
  typed
    .split(',')
    .map((part) => part.trim())
    .filter((part) => /\s/.test(part) && Object.hasOwn(FILTERS, part.split(/\s/)[0] ?? ''));

export const filterExamples = (): readonly string[] => Object.values(FILTERS).map(({ example }) => example);

interface FilterKind {
  readonly example: string;
  readonly looksAt?: LooksAt;
  filter(rest: string): RecordFilter | undefined;
}

const FILTERS: Readonly<Record<string, FilterKind>> = {
  serial: { example: 'serial RYD-0*', filter: byText(({ serial }) => [serial]) },
  name: { example: 'name hesk-*', filter: byText(({ name, title }) => [name, title]) },
  for: { example: 'for *Juniper*', filter: byText(({ customer }) => [customer]) },
  position: { example: 'position bridge', filter: byText(({ position }) => [position]) },
  made: { example: 'made 2026-05 to 2026-07', filter: madeBetween },
  resistance: { example: 'resistance 7 to 8 kohm', looksAt: 'its numbers', filter: resistanceBetween },
  turns: { example: 'turns 5000 to 6000', looksAt: 'its numbers', filter: turnsBetween },
  magnet: { example: 'magnet alnico-5', filter: byText(({ magnets }) => magnets) },
  spool: { example: 'spool RYD-W7', filter: byText(({ coils }) => coils.map(({ spool }) => spool)) },
  wire: { example: 'wire plain-42', filter: byText(({ coils }) => coils.map(({ wire }) => wire)) },
  bobbin: { example: 'bobbin slug-six', filter: byText(({ coils }) => coils.map(({ bobbin }) => bobbin)) },
  photo: {
    example: 'photo *leads*',
    filter: byText(({ photos }) => photos.flatMap(({ file, caption }) => [file, caption])),
  },
  instrument: {
    example: 'instrument quorl',
    looksAt: 'its instruments',
    filter: byText(({ instruments }) => instruments),
  },
  finding: {
    example: 'finding phase/coils-cancel',
    looksAt: 'its numbers',
    filter: byText(({ findings }) => findings.flatMap(({ code, severity }) => [code, severity])),
  },
  design: {
    example: 'design differs',
    looksAt: 'its numbers',
    filter: (rest) => (rest === 'differs' ? ({ differsFromDesign }) => differsFromDesign.length > 0 : undefined),
  },
  needs: {
    example: 'needs retest',
    looksAt: 'its numbers',
    filter: (rest) => {
      const needs = needsOf(rest);
      return needs && ((record) => record[needs].length > 0);
    },
  },
};

/** `needs retest`, `needs sweep`. */
const needsOf = (what: string): 'needsRetest' | 'needsSweep' | undefined =>
  what === 'retest' ? 'needsRetest' : what === 'sweep' ? 'needsSweep' : undefined;

/** Whether they ask for what is best swept next: whoever lists that proposes sweeps. */
export const asksForSweeps = (where: readonly string[]): boolean =>
  where.some((filter) => /^\s*needs\s+sweep\s*$/.test(filter));

/** Why it was found, where the filters ask for a reason. */
export const reasonsAskedFor = (record: Partial<PickupRecord>, where: readonly string[]): readonly string[] => [
  ...new Set(
    where.flatMap((filter) => {
      const [word, ...rest] = filter.trim().split(/\s+/);
      const needs = word === 'needs' ? needsOf(rest.join(' ')) : word === 'design' ? 'differsFromDesign' : undefined;
      return (needs && record[needs]) ?? [];
    }),
  ),
];

/** Letter case does not count, `*` stands for anything. */
function byText(texts: (record: PickupRecord) => readonly (string | undefined)[]): FilterKind['filter'] {
  return (rest) => {
    if (rest === '') return undefined;
    const pieces = rest
      .toLowerCase()
      .replace(/^"(.*)"$/, '$1')
      .split('*');
    return (record) => texts(record).some((text) => text !== undefined && fits(text.toLowerCase(), pieces));
  };
}

/** Whether a text is made of these pieces with anything between them: each found as early as can be, so it takes linear time. */
function fits(text: string, pieces: readonly string[]): boolean {
  const [first = '', ...others] = pieces;
  const last = others.pop();
  if (last === undefined) return text === first;
  if (!text.startsWith(first)) return false;
  let at = first.length;
  for (const piece of others) {
    const found = text.indexOf(piece, at);
    if (found === -1) return false;
    at = found + piece.length;
  }
  return text.length - last.length >= at && text.endsWith(last);
}

const DATE = /^\d{4}(-\d{2}(-\d{2})?)?$/;

/** A month or a year stands for all its days; ISO dates compare as texts. */
function madeBetween(rest: string): RecordFilter | undefined {
  const [from = '', to = from, ...more] = rest.split(/\s+to\s+/);
  if (!DATE.test(from) || !DATE.test(to) || more.length > 0) return undefined;
  return ({ made }) => made !== undefined && made.slice(0, from.length) >= from && made.slice(0, to.length) <= to;
}

function resistanceBetween(rest: string): RecordFilter | undefined {
  const match = /^([\d._]+)\s*(\S+)?\s+to\s+([\d._]+)\s*(\S+)$/.exec(rest);
  const [, from, unitFrom, to, unit] = match ?? [];
  if (from === undefined || to === undefined || unit === undefined) return undefined;
  const [low, high] = [inOhm(from, unitFrom ?? unit), inOhm(to, unit)];
  if (low === undefined || high === undefined) return undefined;
  return ({ resistance20COhm: figure }) => !!figure && figure.value >= low && figure.value <= high;
}

function inOhm(digits: string, unit: string): number | undefined {
  const value = Number(digits.replaceAll('_', ''));
  return Number.isFinite(value) && unitOf(unit) ? toSi(value, unit, 'resistance') : undefined;
}

function turnsBetween(rest: string): RecordFilter | undefined {
  const match = /^([\d_]+)(?:\s+to\s+([\d_]+))?$/.exec(rest);
  if (!match) return undefined;
  const [low, high] = [match[1] ?? '', match[2] ?? match[1] ?? ''].map((digits) => Number(digits.replaceAll('_', '')));
  return ({ coils }) =>
    coils.some(
      ({ turns }) => turns !== undefined && low !== undefined && high !== undefined && turns >= low && turns <= high,
    );
}
