import type { ComparisonView } from '../../server/src/lsp/protocol.ts';
import { element } from './element.ts';
import { lineButton } from './line-button.ts';
import type { Send } from './page-parts.ts';
import { findingText } from './sentence.ts';
import { t } from './words.ts';

/** Each changed fact beside its revision bar, with what it was. */
export function changesSection({ facts }: ComparisonView, label: string, send: Send): readonly Node[] {
  const heading = element('h2', { textContent: t('Changed since {0}', label) });
  if (facts.length === 0) {
    return [heading, element('p', { textContent: t('No fact has changed; order, layout and comments do not count.') })];
  }
  return [
    heading,
    element(
      'ul',
      { className: 'changes' },
      facts.map(({ where, was, is, range }) =>
        element('li', { className: 'change' }, [
          element('div', {}, [
            element('span', { className: 'q' }, [element('bdi', { textContent: where })]),
            ...(is === undefined
              ? [element('p', {}, [element('b', { textContent: `${t('gone')} ` }), ...told(was)])]
              : [
                  element('p', {}, [element('b', {}, [element('bdi', { textContent: is })])]),
                  element('p', { className: 'q' }, was === undefined ? [t('new')] : [`${t('was')} `, ...told(was)]),
                ]),
          ]),
          ...(range === undefined ? [] : [lineButton(range.start.line, send)]),
        ]),
      ),
    ),
  ];
}

const told = (text: string | undefined): readonly Node[] =>
  text === undefined ? [] : [element('bdi', { textContent: text })];

/** Findings that the change has settled. */
export function settledItems({ settled }: ComparisonView, label: string): readonly HTMLLIElement[] {
  return settled.map(({ code, message, foreign }) =>
    element('li', { className: 'find settled' }, [
      element('p', {}, [
        element('b', { textContent: `${t('Settled since {0}.', label)} ` }),
        findingText(message, foreign),
        ' ',
        element('span', { className: 'q', textContent: code }),
      ]),
    ]),
  );
}
