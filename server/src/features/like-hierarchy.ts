/** Pieces by what they are like: one step up to the one that a piece is made from, one step down to those that are made from it. */
import { given } from '../../../grammar/values/present.ts';
import type { Analysis, FileSpan } from '../analysis/analysis-types.ts';
import type { Reference } from '../model/model.ts';
import { nameAt, sameSpan } from './name-at.ts';
import { isLocal } from './rename.ts';
import { blocksOf, inFile, nameItem } from './syntax-at.ts';

export interface Piece {
  readonly kind: Reference['kind'];
  readonly name: string;
  /** `like screw`: what it is made from. */
  readonly detail?: string;
  readonly span: FileSpan;
  readonly nameSpan: FileSpan;
}

/** Where the piece under the cursor is declared; nothing for what is never made like another. */
export function pieceNamed(analysis: Analysis, offset: number): FileSpan | undefined {
  const named = nameAt(analysis, offset);
  if (!named || (isLocal(named.reference.kind) && named.reference.kind !== 'coil')) return undefined;
  return named.target;
}

/** The piece that is declared at a place of the analysis's own file. */
export const pieceAt = (analysis: Analysis, declared: FileSpan): Piece | undefined =>
  piecesOf(analysis).find(({ nameSpan }) => sameSpan(nameSpan, declared));

/** Where the piece is declared that this one is made from. */
export function madeFrom(analysis: Analysis, declared: FileSpan): FileSpan | undefined {
  for (const placed of analysis.tree.chunks)
    for (const { block } of blocksOf(placed.chunk)) {
      const name = inFile(placed, nameItem(block).span);
      if (name.start === declared.start && block.like?.name)
        return nameAt(analysis, inFile(placed, block.like.name.span).start)?.target;
    }
  return undefined;
}

/** The pieces of the analysis's own file that are made from it. */
export const madeFromIt = (analysis: Analysis, declared: FileSpan): readonly Piece[] =>
  piecesOf(analysis).filter(
    ({ nameSpan, detail }) => detail !== undefined && sameSpan(madeFrom(analysis, nameSpan), declared),
  );

function piecesOf(analysis: Analysis): readonly Piece[] {
  const { uri } = analysis;
  return analysis.tree.chunks.flatMap((placed) =>
    blocksOf(placed.chunk).flatMap(({ block }): readonly Piece[] => {
      const named = nameItem(block);
      const kind = PIECE_KINDS.find((each) => each === block.keyword.text);
      if (!kind || named === block.keyword) return [];
      const detail = block.like?.name && `${block.like.word} ${block.like.name.text}`;
      return [
        {
          kind,
          name: named.text,
          ...given({ detail }),
          span: { uri, ...inFile(placed, block.span) },
          nameSpan: { uri, ...inFile(placed, named.span) },
        },
      ];
    }),
  );
}

export const PIECE_KINDS = [
  'wire',
  'spool',
  'bobbin',
  'magnet',
  'switch',
  'pickup',
  'coil',
  'instrument',
] as const satisfies readonly Reference['kind'][];
