import type { TextDocument } from 'vscode-languageserver-textdocument';
import { onceFor, onceForEach } from '../../../grammar/values/remember.ts';
import { createAnalyser } from '../analysis/analysis.ts';
import type { Analysis, Host, InstrumentAnalysis, PickupAnalysis } from '../analysis/analysis-types.ts';
import { compareFacts, type FactComparison } from '../comparison/compare-facts.ts';
import { reworkOf } from '../comparison/reworks.ts';
import { stateOf } from '../comparison/state-of.ts';
import type { Instrument } from '../model/instrument.ts';
import type { Pickup } from '../model/pickup.ts';
import type { Language, Wording } from '../words/languages/language.ts';
import type { BaseState } from './bench-view-protocol.ts';
import { fileKey } from './file-key.ts';
import type { Files } from './files.ts';
import type { Subject } from './protocol-parts.ts';

/** The two states that the bench view shows: now, and the one it is compared with. */
export interface ComparedStates {
  /** The language that the view speaks. */
  readonly t: Language;
  readonly document: TextDocument;
  readonly now: Analysis;
  readonly before: Before | undefined;
  /** What the state now is called beside another, where it is not the text as it stands. */
  readonly called?: string;
  /** Files that may use what this one declares, itself included; absent where that is not asked. */
  readonly among?: readonly Analysis[];
}

export interface Before {
  readonly label: Wording;
  readonly analysis: Analysis;
  /** What it stands beside: now as a whole, or what the work was done to. */
  readonly after: Analysis;
  readonly facts: FactComparison;
  /** Files that it uses and whose text of then was not given. */
  readonly uses: readonly string[];
}

export interface Bases {
  /** The base as it stands beside an analysis of now. */
  before(base: BaseState, now: Analysis): Promise<Before>;
}

/** Analyses bases by an analyser of their own: two texts of one file must not take each other's place in its memory. */
export function createBases(files: Files): Bases {
  const analyser = createAnalyser();
  let last: { readonly key: string; readonly now: Analysis; readonly before: Before } | undefined;
  return {
    before: async (base, now) => {
      const key = JSON.stringify(base);
      if (last?.key === key && last.now === now) return last.before;
      const texts = new Map(base.texts.map(({ uri, text }) => [fileKey(uri), text]));
      const host: Host = {
        content: (uri) => {
          const text = texts.get(fileKey(uri));
          return text === undefined ? files.content(uri) : { kind: 'text', text };
        },
        isInside: (uri) => files.isInside(uri),
        photo: (uri) => files.photo?.(uri),
      };
      const analysis = await whenRead(() => analyser.analyse(base.uri, host));
      const facts = compareFacts(stateOf(analysis).blocks, stateOf(now).blocks);
      const uses = analysis.uris.filter((uri) => !texts.has(fileKey(uri)));
      const before = { label: () => base.label, analysis, after: now, facts, uses };
      last = { key, now, before };
      return before;
    },
  };
}

const formerStates = onceFor((now: Analysis) =>
  onceForEach((subject: Subject): Before | undefined => {
    const rework = reworkOf(now, pickupsIn(now, subject));
    return (
      rework && {
        label: rework.label,
        analysis: rework.before,
        after: rework.after,
        facts: rework.facts,
        uses: [],
      }
    );
  }),
);

/** What the subject was before its pickups were reworked, as this text itself tells it. */
export const ownBefore = (now: Analysis, { kind, name }: Subject): Before | undefined =>
  formerStates(now)({ kind, name });

/** The pickup itself, or those that the instrument holds. */
export function pickupsIn(analysis: Analysis, { kind, name }: Subject): readonly Pickup[] {
  if (kind === 'pickup') return [pickupNamed(analysis, name)?.pickup ?? []].flat();
  return instrumentNamed(analysis, name)?.instrument.slots.flatMap(({ pickup }) => pickup ?? []) ?? [];
}

const TRIES = 100;
const BETWEEN_MS = 30;

/** Looks again until all files that it rests on have come; those that do not come in some seconds count as missing. */
export async function whenRead<T extends Pick<Analysis, 'pending'> | undefined>(
  analyse: () => T | Promise<T>,
): Promise<T> {
  for (let tries = 1; ; tries += 1) {
    const analysis = await analyse();
    if (analysis === undefined || analysis.pending.length === 0 || tries >= TRIES) return analysis;
    await new Promise((resolve) => setTimeout(resolve, BETWEEN_MS));
  }
}

export const pickupNamed = ({ pickups }: Analysis, name: string): PickupAnalysis | undefined =>
  pickups.find(({ pickup }) => pickup.name === name);

export const instrumentNamed = ({ instruments }: Analysis, name: string): InstrumentAnalysis | undefined =>
  instruments.find(({ instrument }) => instrument.name === name);

/** The pickups or the instruments of that name. */
export function ownThings({ model }: Analysis, { kind, name }: Subject): readonly (Pickup | Instrument)[] {
  if (kind === 'parts') return [];
  return model[kind === 'pickup' ? 'pickups' : 'instruments'].filter((each) => each.name === name);
}

/** What the subject was called before, where it was renamed. */
export function nameBefore({ facts }: Before, { name }: Subject): string {
  for (const [old, now] of facts.renamed) if (now === name) return old;
  return name;
}
