import type { DrawnFinding } from '../../server/src/lsp/protocol.ts';
import type { FromView } from '../src/features/bench-view/messages.ts';
import { element } from './element.ts';
import { lineButton } from './line-button.ts';

/** Each finding in a sentence, with its code, which opens its page, and its line; below them what the change has settled. */
export function findingsSection(
  findings: readonly DrawnFinding[],
  settled: readonly HTMLLIElement[],
  come: readonly DrawnFinding[],
  send: (message: FromView) => void,
): readonly Node[] {
  const isNew = ({ code, message }: DrawnFinding): boolean =>
    come.some((each) => each.code === code && each.message === message);
  const items = findings.map((finding) => {
    const { code, severity, message, range } = finding;
    const page = element('button', { className: 'lk', type: 'button', textContent: code });
    page.addEventListener('click', () => send({ type: 'explain', code }));
    const word = isNew(finding) ? `New ${WORDS[severity].toLowerCase()}` : WORDS[severity];
    return element('li', { className: `find ${severity}` }, [
      element('p', {}, [element('b', { textContent: `${word}. ` }), message, ' ', page]),
      lineButton(range.start.line, send),
    ]);
  });
  const none = element('li', { className: 'find' }, [
    element('p', {}, [element('b', { textContent: 'No findings.' })]),
  ]);
  return [element('ul', { className: 'finds' }, [...(items.length > 0 ? items : [none]), ...settled])];
}

const WORDS = { error: 'Fault', warning: 'Warning', information: 'Note', hint: 'Hint' } as const;
