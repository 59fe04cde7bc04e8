import type { SectionContents } from '../../server/src/lsp/protocol.ts';
import { element } from './element.ts';
import { table } from './table.ts';
import { t } from './words.ts';

/** Each number with its ±; two states side by side where there are two. What a number rests on stands in its tip. */
export function numbersSection(
  { caption, rows }: SectionContents['numbers'],
  names: { readonly before: string | undefined },
): readonly Node[] {
  if (rows.length === 0) return [];
  const compared = names.before !== undefined && rows.some(({ before }) => before !== undefined);
  const columns = compared ? ['', `A ${names.before}`, t('B now'), t('change')] : ['', ''];
  const made = table(
    {
      caption,
      columns,
      rows: rows.map(({ name, now, before, change, restsOn }) => {
        const value = element('b', { title: restsOn }, [numberCell(now)]);
        return compared ? [name, numberCell(before ?? t('not there')), value, numberCell(change ?? '')] : [name, value];
      }),
    },
    'numbers',
  );
  if (!compared) made.tHead?.remove();
  const isUncertain = rows.some((row) => [row.now, row.before, row.change].some((text) => text?.includes('±')));
  return isUncertain
    ? [made, element('p', { className: 'q', textContent: t('± is one standard deviation.') })]
    : [made];
}

/** A number with its ± stays on one line; what is said of it may go on to the next. */
function numberCell(text: string): Node {
  const [number = '', ...words] = text.split(', ');
  if (!/\d/.test(number)) return document.createTextNode(text);
  return element('span', {}, [
    element('span', { className: 'number', textContent: number }),
    ...words.map((each) => `, ${each}`),
  ]);
}
