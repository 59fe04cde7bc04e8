/**
 * Which remedies of a finding hold: with the edits made, it is gone and nothing new has come. Only what the edits touch and what
 * stands on it is read and solved again, what the finding is about first, and no further than the first thing that speaks against.
 */
import type { Chunk } from '../../../grammar/src/syntax-tree.ts';
import { acceptedFindings } from '../checks/accepted.ts';
import type { Finding, Remedy } from '../checks/finding.ts';
import type { ChunkModel } from '../model/from-syntax.ts';
import { photographsOf } from '../model/photographs.ts';
import type { Pickup } from '../model/pickup.ts';
import { createFaults } from './faults.ts';
import {
  analysedInstrument,
  analysedPickup,
  type FileState,
  lateFindings,
  pickupsInScope,
  wiresInScope,
} from './file-state.ts';
import { fittedFormers } from './former-states.ts';
import { photoFindings, photosIn } from './photos.ts';
import { fileWideFindings, pieceFindings } from './text-findings.ts';
import { declaredName } from './use-graph.ts';

/**
 * Verifying solves the pickup once more for each remedy. No pickup has as many coils; where a text has, its findings grow with them,
 * and the editor must not wait for the product of both.
 */
const MOST_COILS_FIXED = 24;

export interface Verifying {
  readonly before: FileState;
  /** The file with the edits of a remedy made; `undefined` where they cannot be placed. */
  readonly edited: (remedy: Remedy) => FileState | undefined;
  /** The finding needs inductances: it is judged with all that needs them, anything else without. */
  readonly isLate: boolean;
}

/** None where making them fails, since a finding is worth more than its remedy. */
export function verifiedFixes(finding: Finding, verifying: Verifying): readonly Remedy[] {
  const { before } = verifying;
  if (before.model.pickups.some(({ coils }) => coils.length > MOST_COILS_FIXED)) return [];
  try {
    return distinct(finding.remedies(pickupsInScope(before))).filter((remedy) => holds(remedy, finding, verifying));
  } catch {
    return [];
  }
}

/** Two causes may ask for the same change. */
function distinct(remedies: readonly Remedy[]): readonly Remedy[] {
  const seen = new Set<string>();
  const chunks = new Map<Chunk, number>();
  return remedies.filter(({ title, edits }) => {
    const key = JSON.stringify([
      title,
      edits.map(({ place: { chunk, span }, newText }) => {
        chunks.set(chunk, chunks.get(chunk) ?? chunks.size);
        return [chunks.get(chunk), span.start, span.end, newText];
      }),
    ]);
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

/** Findings are counted by what they say of whom: those of what stays as it was are the same in both states, and left out. */
function holds(remedy: Remedy, finding: Finding, { before, edited, isLate }: Verifying): boolean {
  const after = edited(remedy);
  if (!after) return false;
  const own = keyOf(finding);
  const isText = remedy.kind === 'text';
  const scope: Scope = { about: finding, isLate, isWhole: !isText, ...changeBetween(before, after) };
  const allowed = new Map<string, number>();
  for (const found of findingsOf(before, 'before', scope))
    for (const each of found) allowed.set(keyOf(each), (allowed.get(keyOf(each)) ?? 0) + 1);
  const seen = new Map<string, number>();
  const serious = new Set<string>();
  for (const found of findingsOf(after, 'after', scope))
    for (const each of found) {
      const key = keyOf(each);
      const [count, most] = [(seen.get(key) ?? 0) + 1, allowed.get(key) ?? 0];
      seen.set(key, count);
      if (isSerious(each)) serious.add(key);
      if (key === own && count >= most) return false;
      if (!isText && count > most && serious.has(key)) return false;
    }
  return allowed.has(own);
}

/** A change of the build makes earlier readings history: that they no longer agree is no new fault. */
const isSerious = ({ severity, code }: Finding): boolean =>
  (severity === 'error' || severity === 'warning') && !code.startsWith('reading/');

const keyOf = ({ code, subject, severity }: Finding): string =>
  [code, subject.pickup, subject.instrument, subject.position, severity === 'information' ? 'information' : ''].join(
    '|',
  );

type Side = 'before' | 'after';

/** What differs between two states of a file. */
interface Change {
  /** Pieces that read otherwise in the one than in the other. */
  readonly models: Readonly<Record<Side, readonly ChunkModel[]>>;
  readonly isFileWide: boolean;
  readonly hasPhotos: boolean;
  readonly hasFormers: boolean;
  /** What is accepted reaches over the whole file. */
  readonly isAccepting: boolean;
}

interface Scope extends Change {
  readonly about: Finding;
  readonly isLate: boolean;
  /** Not only what may hold the finding itself. */
  readonly isWhole: boolean;
}

function changeBetween(before: FileState, after: FileState): Change {
  const everything = before.bench !== after.bench;
  const differing = (here: FileState, there: FileState): readonly ChunkModel[] => {
    if (everything) return here.models;
    const known = new Set(there.models);
    return here.models.filter((model) => !known.has(model) || isRecord(model, here) !== isRecord(model, there));
  };
  const states = [before, after];
  const models = { before: differing(before, after), after: differing(after, before) };
  return {
    models,
    isFileWide: declaredNames(before, after) !== declaredNames(after, before),
    hasPhotos: [...models.before, ...models.after].some(hasPhotos),
    hasFormers: states.some((state) => state.model.instruments.length > 0 && pickupsInScope(state).some(isRework)),
    isAccepting: states.some(({ model }) => accepting(model).some(({ accepted }) => accepted.length > 0)),
  };
}

const accepting = ({ pickups, instruments }: FileState['model']) => [...pickups, ...instruments];

const isRework = ({ reworks }: Pickup): boolean => reworks !== undefined;

const isRecord = ({ declared }: ChunkModel, { formers }: FileState): boolean =>
  declared?.kind === 'pickup' && formers.has(declared.thing);

const hasPhotos = ({ declared }: ChunkModel): boolean =>
  (declared?.kind === 'pickup' || declared?.kind === 'instrument') && photographsOf(declared.thing).length > 0;

/** What pieces that the other state has not, of this file and those that it uses, say to a whole file: names, files, a bench. */
const declaredNames = ({ graph }: FileState, { graph: other }: FileState): string =>
  graph.files
    .flatMap(({ uri, pieces }) => {
      const there = other.fileOf(uri)?.pieces;
      if (there === pieces) return [];
      const known = new Set(there);
      return pieces.flatMap((chunk) => (known.has(chunk) ? [] : JSON.stringify([uri, saidToAll(chunk)])));
    })
    .join('\n');

const saidToAll = (chunk: Chunk): unknown =>
  chunk.content?.kind === 'use'
    ? chunk.text
    : (declaredName(chunk) ?? (chunk.content?.kind === 'block' ? chunk.content.keyword.text : ''));

/** Findings of what differs, piece by piece, solved as they are asked for. */
function* findingsOf(state: FileState, side: Side, scope: Scope): Generator<readonly Finding[]> {
  if (!scope.isAccepting) {
    yield* differingFindings(state, scope.models[side], scope);
    return;
  }
  const everything = { ...scope, isFileWide: true, hasPhotos: true, hasFormers: true, isWhole: true };
  const found = [...differingFindings(state, state.models, everything)].flat();
  yield acceptedFindings(found, accepting(state.model), scope.isLate);
}

function* differingFindings(
  state: FileState,
  models: readonly ChunkModel[],
  scope: Scope,
): Generator<readonly Finding[]> {
  const { subject } = scope.about;
  const isAbout = ({ declared }: ChunkModel): boolean =>
    (declared?.kind === 'pickup' && declared.thing.name === subject.pickup) ||
    (declared?.kind === 'instrument' && declared.thing.name === subject.instrument);
  const things = models.filter(({ declared }) => declared?.kind === 'pickup' || declared?.kind === 'instrument');
  for (const model of things.filter(isAbout)) yield solvedFindings(model, state, scope.isLate);
  yield state.unread;
  for (const model of models) yield pieceFindings(model, () => wiresInScope(state));
  if (scope.isFileWide) yield fileWideFindings(state);
  if (scope.hasFormers) yield fittedFormers(state.model.instruments, pickupsInScope(state));
  if (scope.hasPhotos) yield photosFound(state);
  if (!scope.isWhole) return;
  for (const model of things.filter((each) => !isAbout(each))) yield solvedFindings(model, state, scope.isLate);
}

const photosFound = ({ uri, host, model }: FileState): readonly Finding[] =>
  photoFindings(photosIn(model, uri, host), host);

function solvedFindings({ declared }: ChunkModel, state: FileState, isLate: boolean): readonly Finding[] {
  const faults = createFaults();
  const parts =
    declared?.kind === 'pickup'
      ? analysedPickup(declared.thing, state, faults)
      : declared?.kind === 'instrument'
        ? analysedInstrument(declared.thing, state, faults)
        : [];
  const found = parts.flatMap((part) => [...part.findings, ...(isLate ? lateFindings(part) : [])]);
  return [...found, ...faults.found];
}
