import type { Span } from '../../../grammar/src/span.ts';
import { canonicalLeadName } from '../../../grammar/values/lead-name.ts';
import type { Analysis, FileSpan } from '../analysis/analysis-types.ts';
import type { FileMentions, Mention } from '../analysis/file-mentions.ts';
import { mentionsOf, type NamedThere, nameAt, sameSpan } from './name-at.ts';
import type { TextEdit } from './text-edits.ts';

export type Renamed =
  | { readonly ok: true; readonly edits: readonly TextEdit[] }
  /** In one sentence, for the person who typed the name; the place where one can be shown. */
  | { readonly ok: false; readonly why: string; readonly at?: FileSpan };

export const NOTHING_NAMED = 'Nothing here that has a name of its own.';

/** What would be renamed: the name under the cursor, where something declares it. */
export function prepareRename(
  analysis: Analysis,
  offset: number,
): { readonly span: Span; readonly placeholder: string } | undefined {
  const name = nameAt(analysis, offset);
  if (name?.target === undefined) return undefined;
  const { start, end } = name.at;
  return { span: { start, end }, placeholder: analysis.text.slice(start, end) };
}

/** Every mention of the name in the files given takes the new name; refused where that name is taken or is none. */
export function rename(named: NamedThere, newName: string, among: readonly FileMentions[]): Renamed {
  if (!NAME.test(newName)) {
    return { ok: false, why: 'A name starts with a letter and goes on with letters, digits, "-" and "_".' };
  }
  if (MEANT_OTHERWISE[named.kind]?.includes(newName))
    return { ok: false, why: `${newName} says something else in the lines that would name it.` };
  const mentions = mentionsOf(named, among);
  const taken = among.some((file) => file.mentions.some((other) => isTaken(other, named, mentions, newName)));
  if (taken) return { ok: false, why: `There is already a ${named.kind} named ${newName} here.` };
  const hidden = among.flatMap((file) => unreadMention(file, named, mentions) ?? [])[0];
  if (hidden)
    return {
      ok: false,
      why: `${named.name} also stands in a line that does not read; mend that line first.`,
      at: hidden,
    };
  return { ok: true, edits: mentions.map(({ at }) => ({ at, newText: newName })) };
}

/** Words of lines that name leads, or what an instrument holds. */
const MEANT_OTHERWISE: Readonly<Partial<Record<NamedThere['kind'], readonly string[]>>> = {
  lead: ['hot', 'ground', 'to'],
  slot: ['hot', 'ground', 'jack', 'reversed', 'series', 'parallel', 'through'],
};

const NAME = /^\p{L}[\p{L}\p{N}\p{M}_-]*$/u;

/** Coils, leads and slots have their names within one block, and where that is taken over or fitted; everything else within the shop. */
export const isLocal = (kind: string): boolean => kind === 'coil' || kind === 'lead' || kind === 'slot';

function isTaken(other: Mention, { kind, target }: NamedThere, mentions: readonly Mention[], newName: string): boolean {
  if (!other.declares || other.kind !== kind || !sameName(kind, other.name, newName)) return false;
  if (sameSpan(other.at, target)) return false;
  if (!isLocal(kind)) return true;
  return mentions.some(({ at, blockStart }) => at.uri === other.at.uri && blockStart === other.blockStart);
}

const sameName = (kind: string, a: string, b: string): boolean =>
  kind === 'lead' ? canonicalLeadName(a) === canonicalLeadName(b) : a === b;

/**
 * Where the name stands in text that does not read, and nobody can tell whether it is this one: renaming the others would leave it
 * behind. A name of one block is looked for in the blocks that mention it only.
 */
function unreadMention(
  { uri, unread, mentions: all }: FileMentions,
  { kind, name }: NamedThere,
  mentions: readonly Mention[],
): FileSpan | undefined {
  const known = new Set(all.map(({ at }) => at.start));
  const blocks = new Set(mentions.flatMap(({ at, blockStart }) => (at.uri === uri ? [blockStart] : [])));
  for (const { start, text, blockStart } of unread) {
    if (isLocal(kind) && !blocks.has(blockStart)) continue;
    for (const { 0: word, index } of text.matchAll(WORDS_AND_TEXTS)) {
      const at = start + index;
      if (sameName(kind, word, name) && !known.has(at)) return { uri, start: at, end: at + word.length };
    }
  }
  return undefined;
}

/** What stands in a text or a comment is no name. */
const WORDS_AND_TEXTS = /"(?:[^"\\\r\n]|\\.)*"?|#[^\r\n]*|\p{L}[\p{L}\p{N}\p{M}_-]*/gu;
