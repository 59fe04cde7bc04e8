import type { Subject } from '../../server/src/lsp/protocol.ts';
import { isKind } from '../src/features/bench-view/from-view.ts';
import type { ShownDrawing, Side, ViewCommand } from '../src/features/bench-view/messages.ts';
import { bothSides, createChoice } from './choice.ts';
import { button, element } from './element.ts';
import type { Send } from './page-parts.ts';
import { t } from './words.ts';

interface HeaderSources {
  readonly send: Send;
  readonly sideChosen: (side: Side) => void;
  readonly tools: readonly Node[];
}

/** Which pickup or instrument this is, and what it is compared with. */
export function createHeader({ send, sideChosen, tools }: HeaderSources) {
  // The drawing carries its own title; up here stands which one it is.
  const title = element('h1', {});
  const about = element('p', { className: 'q' });
  const chooser = element('select', { ariaLabel: t('Pickup or instrument'), hidden: true });
  chooser.addEventListener('change', () => {
    const subject = subjectOf(chooser.value);
    if (subject) send({ type: 'choose', subject });
  });
  const sides = createChoice(t('compare'), 'side', (id) => sideChosen(id === 'before' || id === 'both' ? id : 'now'));
  const end = commandButton(t('End'), 'endComparison', send);
  end.ariaLabel = t('End the comparison');
  const start = element('details', { className: 'menu' }, [
    element('summary', { textContent: t('Compare …') }),
    element('div', {}, [
      commandButton(t('with the last commit'), 'compareWithLastCommit', send),
      commandButton(t('with a revision …'), 'compareWithRevision', send),
      commandButton(t('with another file …'), 'compareWithFile', send),
    ]),
  ]);
  start.addEventListener('click', (event) => {
    if (event.target instanceof HTMLButtonElement) start.open = false;
  });
  start.addEventListener('keydown', (event) => {
    if (event.key !== 'Escape' || !start.open) return;
    start.open = false;
    start.querySelector('summary')?.focus();
  });
  const node = element('header', { className: 'top' }, [
    element('div', {}, [title, about]),
    element('div', { className: 'tools' }, [chooser, sides.node, end, start, ...tools]),
  ]);
  return {
    node,
    show: (drawing: ShownDrawing, side: Side): void => {
      const { subject, file, comparedWith } = drawing;
      const isNamed = subject !== undefined && subject.kind !== 'parts';
      title.textContent = isNamed ? subject.name : file;
      about.textContent = [
        ...(isNamed ? [file] : []),
        ...(comparedWith === undefined ? [] : [t('compared with {0}', comparedWith)]),
      ].join(' · ');
      fillChooser(chooser, drawing);
      sides.show(comparedWith === undefined ? [] : [...bothSides(), { id: 'both', label: t('A and B') }], side);
      end.hidden = drawing.base === undefined;
    },
  };
}

export function commandButton(text: string, command: ViewCommand, send: Send): HTMLButtonElement {
  return button(text, () => send({ type: 'command', command }));
}

function fillChooser(chooser: HTMLSelectElement, { subjects, subject }: ShownDrawing): void {
  chooser.hidden = subjects.length < 2;
  chooser.replaceChildren(
    ...subjects.map((each) =>
      element('option', {
        value: `${each.kind} ${each.name}`,
        textContent: each.kind === 'instrument' ? t('{0} (instrument)', each.title) : each.title,
        selected: each.kind === subject?.kind && each.name === subject.name,
      }),
    ),
  );
}

function subjectOf(value: string): Subject | undefined {
  const [kind = '', ...name] = value.split(' ');
  return isKind(kind) ? { kind, name: name.join(' ') } : undefined;
}
