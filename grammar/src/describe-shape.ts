/** A shape as a short pattern, as signature help and the reference print it: `<length x width> [, corner <length>]`. */
import type { Shape } from './schema/shape.ts';
import type { Span } from './span.ts';

export interface Pattern {
  readonly text: string;
  /** The places in `text` of the shapes that take items, in order. */
  readonly parts: readonly { readonly shape: Shape; readonly span: Span }[];
}

export const describeShape = (shape: Shape): string => describePattern(shape).text;

/** With the fact's word before it, where it has one. */
export function describePattern(shape: Shape, word?: string): Pattern {
  const parts: { shape: Shape; span: Span }[] = [];
  let text = word ?? '';
  const put = (piece: string, of?: Shape) => {
    const isTight = text === '' || text.endsWith('[') || text.endsWith('(') || /^[\])]/.test(piece) || piece === ',';
    if (!isTight) text += ' ';
    if (of) parts.push({ shape: of, span: { start: text.length, end: text.length + piece.length } });
    text += piece;
  };
  const print = (current: Shape): void => {
    switch (current.kind) {
      case 'sequence':
        for (const field of Object.values(current.fields)) print(field);
        break;
      case 'optional':
        if (current.shape.kind === 'comma') put(',', current.shape);
        else {
          put('[');
          print(current.shape);
          put(']');
        }
        break;
      case 'alias':
        print(current.shape);
        break;
      case 'many':
        print(current.shape);
        put('…');
        break;
      case 'one-of': {
        put('(');
        for (const [index, option] of Object.values(current.options).entries()) {
          if (index > 0) put('|');
          print(option);
        }
        put(')');
        break;
      }
      default:
        put(describeLeaf(current), current);
    }
  };
  print(shape);
  return { text, parts };
}

function describeLeaf(shape: Exclude<Shape, { kind: 'sequence' | 'optional' | 'alias' | 'many' | 'one-of' }>): string {
  switch (shape.kind) {
    case 'word':
      return shape.words.join('|');
    case 'keyword':
      return shape.word;
    case 'quantity':
      return `<${shape.dimension}>`;
    case 'count':
      return shape.unit === undefined ? '<count>' : '<count> [turns]';
    case 'number':
      return '<number>';
    case 'percent':
      return '<percentage>';
    case 'size':
      return `<${shape.parts.join(' x ')}>`;
    case 'date':
      return '<date>';
    case 'string':
      return shape.file ? '"file"' : '"text"';
    case 'label':
      return shape.suggestions && shape.suggestions.length > 0 ? `${shape.suggestions.join('|')}|<other>` : '<text>';
    case 'code':
      return '<finding>';
    case 'name':
    case 'path':
      return `<${shape.of}>`;
    case 'selection':
      return '<pickup> [series|parallel <pickup> …]';
    case 'comma':
      return ',';
  }
}
