/** One file as it is read, with all that it uses: what it declares, and who finds what of it. Nothing is solved before it is asked for. */
import type { Chunk } from '../../../grammar/src/syntax-tree.ts';
import { onceFor } from '../../../grammar/values/remember.ts';
import type { Finding, Subject } from '../checks/finding.ts';
import { type Said, say } from '../checks/say.ts';
import type { Bench } from '../model/bench.ts';
import {
  type ChunkModel,
  type Declared,
  emptyModel,
  firstLine,
  type ModelMemory,
  type ModelReader,
  modelReader,
} from '../model/from-syntax.ts';
import type { Instrument } from '../model/instrument.ts';
import type { FileModel, Reference } from '../model/model.ts';
import type { Pickup } from '../model/pickup.ts';
import type { Things } from '../model/resolver.ts';
import type { Wire } from '../model/wire.ts';
import type { Host, InstrumentAnalysis, PickupAnalysis } from './analysis-types.ts';
import { createFaults, type Faults } from './faults.ts';
import { instrumentAnalysis, solvingPositions } from './instrument-analysis.ts';
import { instrumentPastLimit, leftOut, pickupPastLimit } from './limits.ts';
import { pickupAnalysis } from './pickup-analysis.ts';
import { recordOf } from './record.ts';
import type { UseGraph } from './use-graph.ts';

export interface FileState {
  readonly uri: string;
  readonly host: Host;
  readonly graph: UseGraph;
  readonly memory: Memories;
  readonly reader: ModelReader;
  /** Of the file's own pieces, in order. */
  readonly models: readonly ChunkModel[];
  readonly model: FileModel;
  readonly bench: Bench | undefined;
  /** Pieces of the file that the program failed to read. */
  readonly unread: readonly Finding[];
  /** Pickups that others of the file rework: records. */
  readonly formers: ReadonlySet<Pickup>;
}

export function fileState(uri: string, host: Host, graph: UseGraph, memory: Memories): FileState {
  const chunks = graph.fileOf(uri)?.pieces ?? [];
  const own = new Set(chunks);
  const faults = createFaults();
  const reader = fileReader(graph, memory, (chunk, error) => {
    if (own.has(chunk)) faults.add(say`This block`, firstLine(chunk), {}, error);
  });
  const models = chunks.map((chunk) => reader.read(chunk));
  const model = fileModel(models);
  const formers = new Set(model.pickups.flatMap(({ reworks }) => reworks ?? []));
  const bench = benchInForce(graph, reader.read);
  return { uri, host, graph, memory, reader, models, model, bench, unread: faults.found, formers };
}

/** What pieces were read as: those of files that were analysed, and those that others use, in the form that they had first. */
export interface Memories {
  readonly own: ModelMemory;
  readonly used: ModelMemory;
}

/** Reads pieces of one file and of all that it uses. */
export function fileReader(
  { isOwn, scopeOf }: UseGraph,
  { own, used }: Memories,
  failed: (chunk: Chunk, error: unknown) => void,
): ModelReader {
  const of = (chunk: Chunk): ModelMemory => (isOwn(chunk) ? own : used);
  const memory: ModelMemory = {
    get: (chunk) => of(chunk).get(chunk),
    set: (chunk, remembered) => of(chunk).set(chunk, remembered),
  };
  return guardedReader(modelReader(memory, scopeOf), failed);
}

/** A piece that cannot be read declares nothing, each time that it is asked for. */
function guardedReader(reader: ModelReader, failed: (chunk: Chunk, error: unknown) => void): ModelReader {
  const unread = new Map<Chunk, ChunkModel>();
  return {
    read: (chunk) => {
      const known = unread.get(chunk);
      if (known) return known;
      try {
        return reader.read(chunk);
      } catch (error) {
        const model = emptyModel(chunk);
        unread.set(chunk, model);
        failed(chunk, error);
        return model;
      }
    },
  };
}

export function fileModel(models: readonly ChunkModel[]): FileModel {
  let references: readonly Reference[] | undefined;
  const of = <K extends Declared['kind']>(kind: K): readonly Things[K][] => thingsOf(kind, models);
  return {
    benches: of('bench'),
    wires: of('wire'),
    spools: of('spool'),
    bobbins: of('bobbin'),
    magnets: of('magnet'),
    switches: of('switch'),
    pickups: of('pickup'),
    instruments: of('instrument'),
    // A getter here would cost more: the engine makes a form of its own for each object that has one, and keeps what it holds.
    references: () => {
      references ??= models.flatMap((each) => each.references);
      return references;
    },
    referencesIn: (chunks) =>
      models.flatMap((each) =>
        [...chunks].some((chunk) => piecesNamedIn(each).has(chunk))
          ? each.references.filter(({ place }) => chunks.has(place.chunk))
          : [],
      ),
  };
}

/** Beside its own those of the blocks that it takes lines over from. */
const piecesNamedIn = onceFor(
  ({ references }: ChunkModel): ReadonlySet<Chunk> => new Set(references.map(({ place }) => place.chunk)),
);

/** In order. */
function thingsOf<K extends Declared['kind']>(kind: K, models: readonly ChunkModel[]): readonly Things[K][] {
  const things: Things[K][] = [];
  for (const { declared } of models) if (declared?.kind === kind) things.push(declared.thing as Things[K]);
  return things;
}

/** The file's own first, then those of all that it uses. */
const inScope = <K extends Declared['kind']>(kind: K, { models, graph, reader }: FileState): readonly Things[K][] => [
  ...thingsOf(kind, models),
  ...graph.files.slice(1).flatMap(({ pieces }) =>
    thingsOf(
      kind,
      pieces.map((chunk) => reader.read(chunk)),
    ),
  ),
];

export const wiresInScope = (state: FileState): readonly Wire[] => inScope('wire', state);

export const pickupsInScope = (state: FileState): readonly Pickup[] => inScope('pickup', state);

/** The first bench of the file and all it uses. */
export function benchInForce(graph: UseGraph, read: (chunk: Chunk) => ChunkModel): Bench | undefined {
  for (const { pieces } of graph.files)
    for (const chunk of pieces) {
      if (chunk.content?.kind !== 'block' || chunk.content.keyword.text !== 'bench') continue;
      const { declared } = read(chunk);
      if (declared?.kind === 'bench') return declared.thing;
    }
  return undefined;
}

/** What goes past a limit, or what the program fails at, is noted with `faults`. */
export function analysedPickup(
  pickup: Pickup,
  { bench, formers }: FileState,
  faults: Faults,
): readonly PickupAnalysis[] {
  // Asked for at every keystroke of every pickup in the file.
  const known = pickupAnalysis.known(pickup, bench);
  const analysed = known
    ? [known]
    : within(namedPickup(pickup), pickupPastLimit(pickup), faults, () => pickupAnalysis(pickup, bench));
  return formers.has(pickup) ? analysed.map((each) => recordOf(each)) : analysed;
}

export function analysedInstrument(
  instrument: Instrument,
  { bench }: FileState,
  faults: Faults,
): readonly InstrumentAnalysis[] {
  const known = instrumentAnalysis.known(instrument, bench);
  return known
    ? [known]
    : within(namedInstrument(instrument), instrumentPastLimit(instrument), faults, () =>
        instrumentAnalysis(instrument, bench),
      );
}

/** What of the file's pickups and instruments has been solved before, or goes past a limit. */
export function knownParts(state: FileState, faults: Faults): readonly (PickupAnalysis | InstrumentAnalysis)[] {
  const { model, bench, formers } = state;
  const parts: (PickupAnalysis | InstrumentAnalysis)[] = [];
  for (const pickup of model.pickups) {
    const known = pickupAnalysis.known(pickup, bench);
    if (known) parts.push(formers.has(pickup) ? recordOf(known) : known);
    else within(namedPickup(pickup), pickupPastLimit(pickup), faults);
  }
  for (const instrument of model.instruments) {
    const known = instrumentAnalysis.known(instrument, bench);
    if (known) parts.push(known);
    else within(namedInstrument(instrument), instrumentPastLimit(instrument), faults);
  }
  return parts;
}

/** True where nothing is left to solve, as in a file of parts: then nothing has to be told before it is. */
export const isSolved = ({ model, bench }: FileState): boolean =>
  model.pickups.every((pickup) => pickupAnalysis.known(pickup, bench)) &&
  model.instruments.every((instrument) => instrumentAnalysis.known(instrument, bench));

/** Solves what is not solved yet: one pickup or one position a step. What the program fails at it fails at again, and is told then. */
export function* solving(state: FileState): Generator<undefined> {
  const { model, bench } = state;
  const faults = createFaults();
  for (const pickup of model.pickups) {
    if (pickupAnalysis.known(pickup, bench)) continue;
    analysedPickup(pickup, state, faults);
    yield;
  }
  for (const instrument of model.instruments) {
    if (instrumentAnalysis.known(instrument, bench) || instrumentPastLimit(instrument) !== undefined) continue;
    const positions = solvingPositions(instrument, bench);
    while (faults.guard(...namedInstrument(instrument), () => !positions.next().done)[0] === true) yield;
    analysedInstrument(instrument, state, faults);
    yield;
  }
}

/** Nothing where it goes past a limit, which is noted, or where there is nothing to make. */
function within<T>(about: About, pastLimit: Said | undefined, faults: Faults, make?: () => T): readonly T[] {
  if (pastLimit === undefined) return make ? faults.guard(...about, make) : [];
  faults.note(leftOut(...about, pastLimit));
  return [];
}

/** Findings that need inductances. A fault of the program in them is told in the place of what it fails at. */
export function lateFindings(part: PickupAnalysis | InstrumentAnalysis): readonly Finding[] {
  if (part.lateAreKnown()) return part.lateFindings();
  const faults = createFaults();
  const about = 'pickup' in part ? namedPickup(part.pickup) : namedInstrument(part.instrument);
  const found = faults.guard(...about, () => part.lateFindings()).flat();
  return [...found, ...faults.found];
}

type About = readonly [what: Said, place: Pickup['place'], subject: Subject];

const namedPickup = ({ name, place }: Pickup): About => [say`Pickup ${name}`, place, { pickup: name }];
const namedInstrument = ({ name, place }: Instrument): About => [say`Instrument ${name}`, place, { instrument: name }];
