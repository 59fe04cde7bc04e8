/** Photographs as they stand in pages and on cards: each with what it shows, without what the camera wrote beside it. */

import type { Analysis } from '../analysis/analysis-types.ts';
import type { Instrument } from '../model/instrument.ts';
import { photographsOf } from '../model/photographs.ts';
import type { Pickup } from '../model/pickup.ts';
import { type CleanPhoto, cleanPhoto, type FileBytes } from '../photos/photo-file.ts';
import type { Language } from '../words/languages/language.ts';
import { photographedWords, titleOf } from '../words/parts.ts';
import { type HtmlNode, h, typed } from './html.ts';

/** Copies by the URI of their file. */
export type PhotoCopies = ReadonlyMap<string, CleanPhoto>;

type Subject = Pickup | Instrument;

/** Reads what is asked for; what is missing or broken has its finding, and is left out. */
export async function photoCopies(
  analysis: Analysis,
  subjects: readonly Subject[],
  bytesOf: (uri: string) => FileBytes | Promise<FileBytes>,
): Promise<PhotoCopies> {
  const copies = new Map<string, CleanPhoto>();
  for (const { line } of subjects.flatMap(photographsOf)) {
    const at = analysis.photoAt(line);
    if (at.kind === 'outside' || at.file?.kind !== 'photo' || copies.has(at.uri)) continue;
    const file = await bytesOf(at.uri);
    const copy = file.kind === 'bytes' ? cleanPhoto(file.bytes) : undefined;
    if (copy) copies.set(at.uri, copy);
  }
  return copies;
}

/** All whose photographs a hand-over card of the file may show: what it declares, and what is fitted in its instruments. */
export const handedOverWith = ({ model }: Analysis): readonly Subject[] => [
  ...model.pickups,
  ...model.instruments,
  ...model.instruments.flatMap(({ slots }) => slots.flatMap(({ pickup }) => pickup ?? [])),
];

/** With a heading; nothing where there are none. */
export function photographsOnPage(
  analysis: Analysis,
  subjects: readonly Subject[],
  copies: PhotoCopies,
  t: Language,
): readonly HtmlNode[] {
  const figures = subjects.flatMap((subject) =>
    photographsOf(subject).flatMap(({ line, of }) => {
      const at = analysis.photoAt(line);
      const photo = at.kind === 'inside' ? copies.get(at.uri) : undefined;
      if (photo === undefined) return [];
      const { caption } = line.value;
      const about = [
        ...(subjects.length > 1 ? [titleOf(subject)] : []),
        ...(of === undefined ? [] : [photographedWords(of, t)]),
      ];
      const words = [typed(caption), ...about.flatMap((each) => [', ', typed(each)])];
      return [h('figure', {}, { photo, caption }, h('figcaption', {}, ...words))];
    }),
  );
  return figures.length === 0 ? [] : [h('h2', {}, t('Photographs')), h('div', { class: 'photos' }, ...figures)];
}
