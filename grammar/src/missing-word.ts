/** Lines that say a value without the word of its fact: `alnico 5` for `material alnico-5`. */
import { meantBy, sameLetters } from './other-words.ts';
import { alternativesOf, type BlockSchema } from './schema/block-schema.ts';
import type { Shape } from './schema/shape.ts';
import { joinSpans, spanOf } from './span.ts';
import { fixAt, type SyntaxProblem } from './syntax-problem.ts';
import type { FactNode, Item } from './syntax-tree.ts';

/** The fact that a line would be with its word before it. */
export interface Meant {
  readonly field: string;
  readonly value: unknown;
  /** The line as it is written then. */
  readonly fix: NonNullable<SyntaxProblem['fixes']>[number];
}

type ReadLine = (
  items: readonly Item[],
  shape: Shape,
) => { readonly value: unknown; readonly problems: readonly SyntaxProblem[] };

/**
 * The facts of the block, those aside that it states already, whose value the whole line is. It has to begin with a word or a kind of
 * number that only the language can mean: any word may be a name.
 */
export function factsMeant(
  { items }: FactNode,
  schema: BlockSchema,
  stated: ReadonlySet<string>,
  readLine: ReadLine,
): readonly Meant[] {
  const [first] = items;
  if (first === undefined) return [];
  const at = spanOf(first.span.start, first.span.start);
  return Object.entries(schema.facts).flatMap(([field, { word, shape, repeats }]): readonly Meant[] => {
    const words = [field, ...alternativesOf(schema.facts, field)].map((each) => schema.facts[each]?.word ?? '');
    if (word === undefined || (!repeats && words.some((each) => stated.has(each)))) return [];
    if (!leadsOf(shape).some((lead) => isBegun(lead, items))) return [];
    const { value, problems } = readLine([{ ...first, kind: 'word', text: word, span: at } as Item, ...items], shape);
    if (value === undefined || problems.length > 1) return [];
    const [slip] = problems;
    if (slip === undefined) return [{ field, value, fix: fixAt(`Write \`${word}\` before it`, at, `${word} `) }];
    // What is written otherwise than the language has it goes into the same change.
    const [fix, other] = slip.fixes ?? [];
    const [edit, another] = fix?.edits ?? [];
    if (!slip.code.startsWith('syntax/') || edit === undefined || other !== undefined || another !== undefined)
      return [];
    if (edit.span.start !== at.start) return [];
    const newText = `${word} ${edit.newText.trim()}`;
    return [{ field, value, fix: fixAt(`Write \`${newText}\``, joinSpans(at, edit.span), newText) }];
  });
}

/** What a line of this shape may begin with. */
function leadsOf(shape: Shape): readonly Shape[] {
  switch (shape.kind) {
    case 'sequence': {
      const leads: Shape[] = [];
      for (const field of Object.values(shape.fields)) {
        leads.push(...leadsOf(field));
        if (field.kind !== 'optional' && !(field.kind === 'many' && field.atLeast === 0)) break;
      }
      return leads;
    }
    case 'one-of':
      return Object.values(shape.options).flatMap(leadsOf);
    case 'optional':
    case 'many':
    case 'alias':
      return leadsOf(shape.shape);
    default:
      return [shape];
  }
}

/** Words of more than one piece are written apart now and then: `polyester imide`. */
const MOST_PIECES = 3;

function isBegun(lead: Shape, items: readonly Item[]): boolean {
  switch (lead.kind) {
    case 'word':
    case 'keyword': {
      const words = lead.kind === 'word' ? lead.words : [lead.word];
      return Array.from({ length: MOST_PIECES }, (_, index) => items.slice(0, index + 1)).some((run) => {
        const written = run.map(({ text }) => text).join('-');
        return words.some((each) => sameLetters(written, each) || meantBy(written).includes(each));
      });
    }
    case 'quantity':
    case 'size':
    case 'count':
    case 'number':
    case 'percent':
      return items[0]?.kind === 'number';
    case 'date':
      return items[0]?.kind === 'date';
    default:
      return false;
  }
}
