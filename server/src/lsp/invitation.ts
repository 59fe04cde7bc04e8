import type { Analysis } from '../analysis/analysis-types.ts';
import { blockSnippet, type NamesOf } from '../features/block-snippets.ts';
import type { Language } from '../words/languages/language.ts';
import { list } from '../words/text.ts';
import type { Invitation } from './protocol.ts';

const STARTS = [
  ['Begin a pickup', 'pickup'],
  ['Begin an instrument', 'instrument'],
  ['Begin a bobbin for the shelf', 'bobbin'],
] as const;

/** Of a file that declares nothing: what it is as it stands, and what can be begun in it. */
export function invitationTo(analysis: Analysis, t: Language): Invitation {
  const used = analysis.tree.chunks.flatMap(({ chunk: { content } }) =>
    content?.kind === 'use' && content.path ? [content.path.value] : [],
  );
  return {
    says: saysOf(analysis, used, t),
    starts: STARTS.flatMap(([label, keyword]) => {
      const snippet = blockSnippet(keyword, namesIn(analysis));
      return snippet === undefined ? [] : [{ label: t(label), snippet }];
    }),
  };
}

const namesIn =
  (analysis: Analysis): NamesOf =>
  (kind) =>
    isShared(kind) ? analysis.namesInScope(kind).map(({ name }) => name) : [];

/** Kinds whose names one file may take from another. */
const SHARED = ['wire', 'spool', 'bobbin', 'magnet', 'switch', 'pickup', 'instrument'] as const;
const isShared = (kind: string): kind is (typeof SHARED)[number] => SHARED.some((each) => each === kind);

function saysOf({ text }: Analysis, used: readonly string[], t: Language): string {
  if (used.length > 0)
    return t(
      'This file only uses {0}: no pickup, no instrument and no part is written in it yet.',
      list(used, t('and')),
    );
  return text.trim() === ''
    ? t('This file is empty. What is written in it is checked and drawn here, line by line.')
    : t('No pickup, no instrument and no part is written in this file yet.');
}
