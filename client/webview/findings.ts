import type { DrawnFinding } from '../../server/src/lsp/protocol.ts';
import type { ShownDrawing } from '../src/features/bench-view/messages.ts';
import { button, element } from './element.ts';
import { lineButton } from './line-button.ts';
import type { Send } from './page-parts.ts';
import { sentence } from './sentence.ts';

/**
 * Each finding in a sentence, with its code, which opens its page, and its line; below them what the change has settled, and what to
 * mind at the work that they ask for.
 */
export function findingsSection(
  { findings, cautions }: Pick<ShownDrawing, 'findings' | 'cautions'>,
  settled: readonly HTMLLIElement[],
  come: readonly DrawnFinding[],
  send: Send,
): readonly Node[] {
  const isNew = ({ code, message }: DrawnFinding): boolean =>
    come.some((each) => each.code === code && each.message === message);
  const items = findings.map((finding) => {
    const { code, severity, message, range } = finding;
    const page = button(code, () => send({ type: 'explain', code }), 'lk');
    const word = isNew(finding) ? `New ${WORDS[severity].toLowerCase()}` : WORDS[severity];
    return element('li', { className: `find ${severity}` }, [
      element('p', {}, [element('b', { textContent: `${word}. ` }), ...sentence(message), ' ', page]),
      lineButton(range.start.line, send),
    ]);
  });
  const none = element('li', { className: 'find' }, [
    element('p', {}, [element('b', { textContent: 'No findings.' })]),
  ]);
  const list = element('ul', { className: 'finds' }, [...(items.length > 0 ? items : [none]), ...settled]);
  if (cautions.length === 0) return [list];
  const mind = cautions.map((each) => element('li', {}, sentence(each)));
  const words = element('summary', { textContent: 'Mind at the bench' });
  return [list, element('details', { className: 'mind', open: true }, [words, element('ul', {}, mind)])];
}

const WORDS = { error: 'Fault', warning: 'Warning', information: 'Note', hint: 'Hint' } as const;
