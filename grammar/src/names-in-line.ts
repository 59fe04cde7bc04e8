/** Every name that a line holds, with what it is a name of: for definition, references, rename, and what a block stands on. */
import { onceFor } from '../values/remember.ts';
import type { At, NameKind, SelectionNode, Shape, WrittenPath } from './schema/shape.ts';
import type { Span } from './span.ts';
import { type Part, partsOf, shapesOf } from './walk-shape.ts';

export interface NameInLine {
  readonly kind: NameKind;
  /** One part, or the parts of a path: `slug.start`. */
  readonly parts: readonly At<string>[];
  readonly span: Span;
  /** A path may name a coil, or an end of it, where a lead is wanted; a plain name is what its kind says. */
  readonly isPath: boolean;
  /** `inside`: a lead that only its own coil knows. */
  readonly role: 'declares' | 'uses' | 'inside';
}

/** In the order of the line. `captured` is what matching the shape yielded. */
export function namesInLine(shape: Shape, captured: unknown): readonly NameInLine[] {
  return holdsNames(shape) ? namesIn({ shape, captured }) : [];
}

/** False of most lines, which then need not be walked through. */
const holdsNames = onceFor(
  (shape: Shape): boolean =>
    shape.kind === 'name' || shape.kind === 'path' || shape.kind === 'selection' || shapesOf(shape).some(holdsNames),
);

function namesIn(part: Part): readonly NameInLine[] {
  const { shape, captured } = part;
  switch (shape.kind) {
    case 'name': {
      const name = captured as At<string>;
      const declares = shape.declares === true || shape.own === 'brought out';
      const role = declares ? 'declares' : shape.own === 'inside' ? 'inside' : 'uses';
      return [{ kind: shape.of, parts: [name], span: name.span, isPath: false, role }];
    }
    case 'path': {
      const { value, span } = captured as At<WrittenPath>;
      if (shape.of !== 'terminal') return [pathName(shape.of, value, span)];
      // `hot`, `ground` and `jack` are nobody's; the others are a slot's, a switch's or a control's.
      return value.parts.length > 1 ? [pathName('slot', value, span)] : [];
    }
    case 'selection':
      return selectedNames((captured as At<SelectionNode>).value);
    default:
      return partsOf(part).flatMap(({ shape, captured }) => namesInLine(shape, captured));
  }
}

const pathName = (kind: NameKind, { parts }: WrittenPath, span: Span): NameInLine => ({
  kind,
  parts,
  span,
  isPath: true,
  role: 'uses',
});

function selectedNames(node: SelectionNode): readonly NameInLine[] {
  if (node.kind === 'part') return [pathName('slot', node.path, node.span)];
  return node.kind === 'reversed' ? selectedNames(node.of) : node.of.flatMap(selectedNames);
}
