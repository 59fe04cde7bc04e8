/** What a line says, apart from how it is written: one text for `7.3 kohm` and `7_300 ohm`, for `VT` and `violet`. */
import { canonicalLeadName } from '../values/lead-name.ts';
import { quantityOf, type WrittenQuantity } from '../values/quantity.ts';
import type { At, NameKind, SelectionNode, Shape, WrittenPath } from './schema/shape.ts';
import type { Item } from './syntax-tree.ts';
import { type Part, partsOf } from './walk-shape.ts';

/** One text a piece of meaning; lines of one fact with equal pieces say the same. */
export function lineMeaning(shape: Shape, captured: unknown): readonly string[] {
  return meaningOf({ shape, captured });
}

/** Of a line that no shape fits: its items, numbers by their value. */
export const looseMeaning = (items: readonly Item[]): readonly string[] =>
  items.map((item) => (item.kind === 'number' ? String(item.value) : canonicalLeadName(item.text)));

function meaningOf(part: Part): readonly string[] {
  const { shape, captured } = part;
  switch (shape.kind) {
    case 'comma':
      return [];
    case 'keyword':
      return [shape.word];
    case 'quantity':
    case 'percent':
      return [quantityMeaning((captured as At<WrittenQuantity>).value)];
    case 'number':
    case 'count':
      return [plainMeaning((captured as At<WrittenQuantity>).value)];
    case 'size': {
      const sides = captured as Readonly<Record<string, At<WrittenQuantity>>>;
      return Object.values(sides).map(({ value }) => quantityMeaning(value));
    }
    case 'string':
      return [JSON.stringify((captured as At<string>).value)];
    case 'name':
      return [nameMeaning((captured as At<string>).value, shape.of)];
    case 'path':
      return [pathMeaning((captured as At<WrittenPath>).value, shape.of)];
    case 'selection':
      return selectionMeaning((captured as At<SelectionNode>).value);
    case 'word':
    case 'date':
    case 'label':
    case 'code':
      return [(captured as At<string>).value];
    case 'alias': {
      const said = partsOf(part).flatMap(meaningOf);
      const word = shape.of[said.join(' ')];
      return word === undefined ? said : [word];
    }
    case 'many': {
      const said = partsOf(part).map((each) => meaningOf(each));
      // Lists of the language hold one text an element wherever their order says nothing.
      return shape.unordered ? said.flat().sort() : said.flat();
    }
    default:
      return partsOf(part).flatMap(meaningOf);
  }
}

const nameMeaning = (name: string, kind: NameKind): string => (kind === 'lead' ? canonicalLeadName(name) : name);

const pathMeaning = ({ parts }: WrittenPath, kind: NameKind): string =>
  parts.map(({ value }) => nameMeaning(value, kind)).join('.');

/** Twelve digits: 7.3 kohm and 7300 ohm differ in the last binary place only. */
const digits = (value: number): string => String(Number(value.toPrecision(12)));

function quantityMeaning(written: WrittenQuantity): string {
  const result = quantityOf(written);
  if (!result.ok) return written.text;
  const { si, sd, dimension } = result.quantity;
  return `${digits(si)}${sd === undefined ? '' : ` ± ${digits(sd)}`} [${dimension}]`;
}

const plainMeaning = ({ value, uncertainty }: WrittenQuantity): string =>
  digits(value) + (uncertainty ? ` ± ${digits(uncertainty.value)}${uncertainty.unit ?? ''}` : '');

/** Each joining inside another stands in parentheses, written so or not. */
function selectionMeaning(node: SelectionNode): readonly string[] {
  switch (node.kind) {
    case 'part':
      return [
        pathMeaning(node.path, 'lead'),
        ...(node.through ? ['through', quantityMeaning(node.through.value)] : []),
      ];
    case 'reversed':
      return ['reversed', ...grouped(node.of)];
    default:
      return node.of.flatMap((each, index) => [...(index > 0 ? [node.kind] : []), ...grouped(each)]);
  }
}

const grouped = (node: SelectionNode): readonly string[] =>
  node.kind === 'part' ? selectionMeaning(node) : ['(', ...selectionMeaning(node), ')'];
