import type { DrawnFinding } from '../../server/src/lsp/protocol.ts';
import { button, element } from './element.ts';
import { lineButton } from './line-button.ts';
import type { Send } from './page-parts.ts';
import { findingText, sentence } from './sentence.ts';
import { t } from './words.ts';

/**
 * Each finding with its code, which opens its page, and its line: in a sentence, or by its number where the drawing tells it; below
 * them what the change has settled.
 */
export function findingsSection(
  findings: readonly DrawnFinding[],
  settled: readonly HTMLLIElement[],
  come: readonly DrawnFinding[],
  send: Send,
): Node {
  const isNew = ({ code, message }: DrawnFinding): boolean =>
    come.some((each) => each.code === code && each.message === message);
  const items = findings.map((finding) => {
    const { code, severity, message, foreign, range, mark } = finding;
    const page = button(code, () => send({ type: 'explain', code }), 'lk');
    const word = t((isNew(finding) ? NEW_WORDS : WORDS)[severity]);
    const told = mark === undefined ? [findingText(message, foreign), ' '] : [`${t('{0} in the drawing:', mark)} `];
    return element('li', { className: `find ${severity}` }, [
      element('p', {}, [element('b', { textContent: mark === undefined ? `${word}. ` : `${word} ` }), ...told, page]),
      lineButton(range.start.line, send),
    ]);
  });
  const none = element('li', { className: 'find' }, [
    element('p', {}, [element('b', { textContent: t('No findings.') })]),
  ]);
  return element('ul', { className: 'finds' }, [...(items.length > 0 ? items : [none]), ...settled]);
}

/** What the work that settles the findings can do to a person: in sight before the work is, as the drawing proposes it. */
export function cautionsSection(cautions: readonly string[]): Node {
  const mind = cautions.map((each) => element('li', {}, sentence(each)));
  const words = element('summary', { textContent: t('Mind at the bench') });
  return element('details', { className: 'mind', open: true }, [words, element('ul', {}, mind)]);
}

const WORDS = { error: 'Fault', warning: 'Warning', information: 'Note', hint: 'Hint' } as const;
const NEW_WORDS = { error: 'New fault', warning: 'New warning', information: 'New note', hint: 'New hint' } as const;
