import type { UsageRow } from '../../server/src/lsp/protocol.ts';
import { element } from './element.ts';
import { lineButton } from './line-button.ts';
import type { Send } from './page-parts.ts';
import { t } from './words.ts';

/** Who uses each part, what is left on a spool, and the line of the part. */
export function usageSection(rows: readonly UsageRow[], send: Send): readonly Node[] {
  if (rows.length === 0) return [];
  const hasLeft = rows.some(({ left }) => left !== undefined);
  const head = [t('part'), t('used by'), ...(hasLeft ? [t('left')] : []), t('line')].map((text) =>
    element('th', { scope: 'col', textContent: text }),
  );
  const body = rows.map(({ part, usedBy, left, range }) =>
    element('tr', {}, [
      element('th', { scope: 'row', textContent: part }),
      element('td', { textContent: usedBy.length === 0 ? t('nothing') : usedBy.join(', ') }),
      ...(hasLeft ? [element('td', { textContent: left ?? '' })] : []),
      element('td', {}, range === undefined ? [] : [lineButton(range.start.line, send)]),
    ]),
  );
  return [
    element('table', { className: 'usage' }, [
      element('caption', { textContent: t('Used by, in this workspace') }),
      element('thead', {}, [element('tr', {}, head)]),
      element('tbody', {}, body),
    ]),
  ];
}
