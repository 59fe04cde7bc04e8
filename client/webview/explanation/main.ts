import type { ExplanationBlock } from '../../../server/src/lsp/protocol.ts';
import type { FindingHere, FromExplanation, ToExplanation } from '../../src/features/explanation/messages.ts';
import { element } from '../element.ts';
import { findingText, sentence } from '../sentence.ts';
import { t } from '../words.ts';

/** What VS Code puts into every webview. */
declare function acquireVsCodeApi(): {
  postMessage(message: FromExplanation): void;
  setState(state: { readonly code: string }): void;
};

const editor = acquireVsCodeApi();
const send = (message: FromExplanation): void => editor.postMessage(message);

function pageOf({ page, here }: ToExplanation): readonly Node[] {
  const heading = element('h1', { textContent: page.code, tabIndex: -1 });
  const beside = element('nav', { className: 'exports', ariaLabel: t('Other findings') }, [
    button(`← ${page.previous}`, { type: 'explain', code: page.previous }),
    button(`${page.next} →`, { type: 'explain', code: page.next }),
  ]);
  return [
    element('header', { className: 'top' }, [
      element('div', {}, [heading, element('p', { className: 'q' }, [findingText(page.summary, 'en')])]),
    ]),
    ...(here ? [hereSection(here)] : []),
    ...page.sections.map(({ heading: title, blocks }) =>
      element('section', { lang: 'en' }, [element('h2', { textContent: title }), ...blocks.flatMap(blockOf)]),
    ),
    beside,
  ];
}

/** The finding as it stands in the text, and what can be done about it with one press. */
function hereSection({ file, line, message, fixes }: FindingHere): HTMLElement {
  const place = element('button', { className: 'lk', type: 'button', textContent: t('{0}, line {1}', file, line + 1) });
  place.addEventListener('click', () => send({ type: 'reveal' }));
  const buttons = fixes.map((title) => button(title, { type: 'fix', title }));
  return element('section', { className: 'here' }, [
    element('h2', { textContent: t('Here') }),
    element('p', {}, [...sentence(message), ' ', place]),
    ...(buttons.length > 0
      ? [element('div', { className: 'exports', role: 'group', ariaLabel: t('Fixes') }, buttons)]
      : []),
  ]);
}

function blockOf(block: ExplanationBlock): readonly Node[] {
  switch (block.kind) {
    case 'paragraph':
      return [element('p', {}, sentence(block.text))];
    case 'point':
      return [element('p', { className: 'point' }, ['– ', ...sentence(block.text)])];
    case 'example': {
      const runs = block.runs.map(({ text, colour }) =>
        colour === undefined ? text : element('span', { className: `as-${colour}`, textContent: text }),
      );
      return [element('pre', { tabIndex: 0 }, [element('code', {}, runs)])];
    }
  }
}

function button(text: string, message: FromExplanation): HTMLButtonElement {
  const made = element('button', { className: 'plain', type: 'button' }, sentence(text));
  made.addEventListener('click', () => send(message));
  return made;
}

const root = document.getElementById('page');
if (root) {
  root.className = 'explanation';
  let shown = '';
  window.addEventListener('message', ({ data }: MessageEvent<ToExplanation>) => {
    root.replaceChildren(...pageOf(data));
    editor.setState({ code: data.page.code });
    // Another page begins at its top, and is read out from there.
    if (shown !== '' && shown !== data.page.code) {
      window.scrollTo(0, 0);
      root.querySelector('h1')?.focus();
    }
    shown = data.page.code;
  });
  send({ type: 'ready' });
}
