import type { DrawnFinding } from '../../server/src/lsp/protocol.ts';
import type { FromView } from '../src/features/preview/messages.ts';
import { lineButton } from './bench.ts';
import { element } from './element.ts';

/** Each finding in a sentence, with its code, which opens its page, and its line. */
export function findingsSection(findings: readonly DrawnFinding[], send: (message: FromView) => void): readonly Node[] {
  if (findings.length === 0) {
    return [element('p', { className: 'find', textContent: 'No findings.' })];
  }
  return [
    element(
      'ul',
      { className: 'finds' },
      findings.map(({ code, severity, message, range }) => {
        const page = element('button', { className: 'lk', type: 'button', textContent: code });
        page.addEventListener('click', () => send({ type: 'explain', code }));
        return element('li', { className: `find ${severity}` }, [
          element('p', {}, [element('b', { textContent: `${WORDS[severity]}. ` }), message, ' ', page]),
          lineButton(range.start.line, send),
        ]);
      }),
    ),
  ];
}

const WORDS = { error: 'Fault', warning: 'Warning', information: 'Note', hint: 'Hint' } as const;
