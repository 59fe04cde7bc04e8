/** The parts of a line that matched: each shape that took something, beside what it took. The walks over lines stand on this. */
import type { Shape } from './schema/shape.ts';

export interface Part {
  readonly shape: Shape;
  readonly captured: unknown;
  /** Its name, inside a sequence. */
  readonly field?: string;
}

/** The shapes that a shape is made of, whether or not they take anything. */
export function shapesOf(shape: Shape): readonly Shape[] {
  switch (shape.kind) {
    case 'sequence':
      return Object.values(shape.fields);
    case 'one-of':
      return Object.values(shape.options);
    case 'optional':
    case 'alias':
    case 'many':
      return [shape.shape];
    default:
      return [];
  }
}

/** What stands directly inside a shape, in the order of the line; nothing in a shape that takes items itself. */
export function partsOf({ shape, captured }: Part): readonly Part[] {
  switch (shape.kind) {
    case 'sequence': {
      const fields = captured as Readonly<Record<string, unknown>>;
      return Object.entries(shape.fields).map(([field, inner]) => ({ shape: inner, captured: fields[field], field }));
    }
    case 'optional':
      return captured === undefined ? [] : [{ shape: shape.shape, captured }];
    case 'alias':
      return [{ shape: shape.shape, captured }];
    case 'many':
      return (captured as readonly unknown[]).map((each) => ({ shape: shape.shape, captured: each }));
    case 'one-of': {
      const { option, value } = captured as { readonly option: string; readonly value: unknown };
      const chosen = shape.options[option];
      return chosen ? [{ shape: chosen, captured: value }] : [];
    }
    default:
      return [];
  }
}
