/** What the names of a file stand for, as plain data: it holds no tree, so that the mentions of a whole shop have room. */
import type { Span } from '../../../grammar/src/span.ts';
import type { Chunk, PlacedChunk } from '../../../grammar/src/syntax-tree.ts';
import type { Reference } from '../model/model.ts';
import { unreadSpans } from '../model/unread-spans.ts';
import type { Analysis, FileSpan } from './analysis-types.ts';

export interface Mention extends Pick<Reference, 'kind' | 'name' | 'declares'> {
  readonly at: FileSpan;
  /** Where the name is declared; `undefined` where nothing declares it. */
  readonly target: FileSpan | undefined;
  /** Where the block at the top of the file that holds it begins. */
  readonly blockStart: number;
}

export interface FileMentions {
  readonly uri: string;
  readonly mentions: readonly Mention[];
  /** Files that the host had not read yet: what is said is not all. */
  readonly pending: readonly string[];
  /** Text that does not read: a name may stand there of which nobody knows. */
  readonly unread: readonly { readonly start: number; readonly text: string; readonly blockStart: number }[];
}

interface NamedFile extends Pick<FileMentions, 'uri' | 'pending'> {
  readonly chunks: readonly PlacedChunk[];
  readonly references: readonly Reference[];
  readonly locate: Analysis['locate'];
  /** Pieces that could not be read at all. */
  readonly failed: ReadonlySet<Chunk>;
}

export function fileMentions({ uri, pending, chunks, references, locate, failed }: NamedFile): FileMentions {
  const starts = new Map(chunks.map(({ chunk, offset }) => [chunk, offset]));
  return {
    uri,
    pending,
    mentions: references.flatMap(({ kind, name, declares, place, target }) => {
      const at = locate(place);
      const blockStart = starts.get(place.chunk);
      if (at?.uri !== uri || blockStart === undefined) return [];
      const declared = declares ? place : target;
      return [{ kind, name, declares, at, target: declared && locate(declared), blockStart }];
    }),
    unread: chunks.flatMap(({ chunk, offset }) =>
      (failed.has(chunk) ? [wholeOf(chunk)] : unreadSpans(chunk)).map(({ start, end }) => ({
        start: offset + start,
        text: chunk.text.slice(start, end),
        blockStart: offset,
      })),
    ),
  };
}

const wholeOf = ({ text }: Chunk): Span => ({ start: 0, end: text.length });
