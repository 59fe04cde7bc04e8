import type { Span } from '../../../grammar/src/span.ts';
import { canonicalLeadName } from '../../../grammar/values/lead-name.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { mentionsOf, nameAt } from './name-at.ts';
import { withSelf } from './references.ts';
import type { TextEdit } from './text-edits.ts';

export type Renamed =
  | { readonly ok: true; readonly edits: readonly TextEdit[] }
  /** In one sentence, for the person who typed the name. */
  | { readonly ok: false; readonly why: string };

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
export function rename(analysis: Analysis, offset: number, newName: string, among: readonly Analysis[]): Renamed {
  const name = nameAt(analysis, offset);
  if (name?.target === undefined) return { ok: false, why: 'Nothing here that has a name of its own.' };
  if (!NAME.test(newName)) {
    return { ok: false, why: 'A name starts with a letter and goes on with letters, digits, "-" and "_".' };
  }
  const { kind } = name.reference;
  const analyses = withSelf(analysis, among);
  const mentions = mentionsOf(name.target, kind, analyses);
  const taken = analyses.some((each) =>
    each.model.references.some((other) => {
      if (!other.declares || other.kind !== kind || !sameName(kind, other.name, newName)) return false;
      const at = each.locate(other.place);
      if (
        at === undefined ||
        name.target === undefined ||
        (at.uri === name.target.uri && at.start === name.target.start)
      )
        return false;
      return isLocal(kind) ? sameBlock(each, at.start, name.target.start) && at.uri === name.target.uri : true;
    }),
  );
  if (taken) return { ok: false, why: `There is already a ${kind} named ${newName} here.` };
  return { ok: true, edits: mentions.map(({ at }) => ({ at, newText: newName })) };
}

const NAME = /^\p{L}[\p{L}\p{N}\p{M}_-]*$/u;

/** Coils, leads and slots have their names within one block; everything else within the shop. */
const isLocal = (kind: string): boolean => kind === 'coil' || kind === 'lead' || kind === 'slot';

const sameName = (kind: string, a: string, b: string): boolean =>
  kind === 'lead' ? canonicalLeadName(a) === canonicalLeadName(b) : a === b;

function sameBlock(analysis: Analysis, a: number, b: number): boolean {
  return analysis.tree.chunks.some(({ offset, chunk }) => {
    const end = offset + chunk.text.length;
    return offset <= a && a < end && offset <= b && b < end;
  });
}
