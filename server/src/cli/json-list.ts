/** A list in JSON that is written as it comes, in the layout of `jsonText`. */
import { jsonText } from './visible.ts';

export function jsonList(schema: string, name: string) {
  const begin = `{\n  "schema": "${schema}",\n  "${name}": [`;
  return {
    /** What comes before the first entry, or between two. */
    before: (isFirst: boolean): string => (isFirst ? `${begin}\n` : ',\n'),
    end: (isEmpty: boolean): string => (isEmpty ? `${begin}]\n}\n` : '\n  ]\n}\n'),
  };
}

/** One entry, as it stands in the list. */
export const jsonEntry = (value: unknown): string => jsonText(value).trimEnd().replace(/^/gm, '    ');
