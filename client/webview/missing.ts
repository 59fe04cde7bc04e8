import { type NextReadingRow, type SectionContents, unbroken } from '../../server/src/lsp/protocol.ts';
import { element } from './element.ts';
import { lineButton } from './line-button.ts';
import type { Send } from './page-parts.ts';
import { sentence } from './sentence.ts';
import { t } from './words.ts';

/** What would be known after one more reading: which points, what to expect, the line to write. */
export function missingSection({ readings, why }: SectionContents['missing'], send: Send): readonly Node[] {
  if (readings.length === 0) {
    return [
      element('h2', { textContent: t('Readings') }),
      element('p', { textContent: why ?? t('Nothing is left to read of coils, leads, poles and positions.') }),
    ];
  }
  return [
    element('h2', { textContent: t('Readings still missing') }),
    element(
      'ul',
      { className: 'missing' },
      readings.map(({ settles, how, expected, line, range }) =>
        element('li', { className: 'find' }, [
          element('div', {}, [
            element('p', {}, [element('b', { textContent: `${capital(settles)}. ` }), ...sentence(how)]),
            element('p', { className: 'q' }, [
              ...(expected === undefined ? [] : sentence(`${t('Expect {0}.', expected)} `)),
              `${t('Write:')} `,
              element('code', { textContent: unbroken(line) }),
            ]),
          ]),
          ...(range === undefined ? [] : [lineButton(range.start.line, send)]),
        ]),
      ),
    ),
  ];
}

/** The one reading that settles most for the least handling. */
export function nextSection(reading: NextReadingRow | undefined, send: Send): readonly Node[] {
  if (reading === undefined) return [];
  const { settles, how, handling, line, range } = reading;
  return [
    element('h2', { textContent: t('Measure next') }),
    element('ul', { className: 'missing' }, [
      element('li', { className: 'find' }, [
        element('div', {}, [
          element('p', {}, [element('b', { textContent: `${capital(settles)}. ` }), ...sentence(how)]),
          element('p', { className: 'q' }, [
            ...sentence(`${capital(handling)}. `),
            `${t('Write:')} `,
            element('code', { textContent: unbroken(line) }),
          ]),
        ]),
        ...(range === undefined ? [] : [lineButton(range.start.line, send)]),
      ]),
    ]),
  ];
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
