import type { Settings, WhatIfFigure, WhatIfKnob, WhatIfState, WhatIfView } from '../../server/src/lsp/protocol.ts';
import { button, element } from './element.ts';
import { createListen, type Listen } from './listen.ts';
import type { Send } from './page-parts.ts';
import { createPlot } from './plot.ts';
import { findingText } from './sentence.ts';
import { table } from './table.ts';
import { createKnob, type KnobControl } from './what-if-knob.ts';
import { shownNumber, t } from './words.ts';

export interface WhatIf {
  readonly section: HTMLElement;
  readonly listen: Listen;
  show(content: WhatIfView): void;
  hide(): void;
  /** The exact state of a wish, by its number; `undefined`: there is none that the text can say. */
  settle(asked: number, state: WhatIfState | undefined): void;
}

/** From the last movement to the question for exact numbers: a hand that goes on moving is not in each other's way. */
const REST_MS = 40;

interface Row {
  readonly name: string;
  readonly before: string;
  readonly now: string;
  readonly change: string;
}

/** Knobs that change nothing in the text: estimates as they move, exact numbers once they rest, and a button that writes them. */
export function createWhatIf(send: Send): WhatIf {
  let view: WhatIfView = { knobs: [], figures: [], stay: [] };
  let controls: readonly KnobControl[] = [];
  let rows: readonly Row[] = [];
  let asked = 0;
  let rest: ReturnType<typeof setTimeout> | undefined;

  const knobs = element('div', { className: 'knobs', role: 'group', ariaLabel: t('What may be moved') });
  const numbers = element('div', {});
  const status = element('div', { role: 'status' });
  const write = button(t('Write into the spec'), () => send({ type: 'write what if' }));
  const reset = button(t('Reset'), () => {
    for (const control of controls) control.set(control.knob.now);
    moved();
  });
  const plot = createPlot(t('Response, now and what if'), t('Response as a table'), 'what-if-response');
  const listen = createListen({
    title: t('Listen to what if'),
    name: 'what-if-heard',
    sides: [
      { id: 'before', label: t('now') },
      { id: 'now', label: t('what if') },
    ],
    loud: t('Both are as loud as each other.'),
    ask: (frequencyHz) => send({ type: 'sound', frequencyHz, settings: settings() }),
  });
  const stay = element('div', { className: 'q' });
  const section = element('section', { ariaLabel: t('What if'), hidden: true }, [
    element('h2', { textContent: t('What if') }),
    element('p', { className: 'q', textContent: t('Nothing in the text changes until it is written.') }),
    knobs,
    stay,
    numbers,
    status,
    element('div', { className: 'listen' }, [write, reset]),
    plot.section,
    listen.section,
  ]);

  const settings = (): Settings =>
    Object.fromEntries(controls.flatMap(({ knob, at }) => (at() === knob.now ? [] : [[knob.id, at()]])));
  const isMoved = (): boolean => Object.keys(settings()).length > 0;
  const showRows = (next: readonly Row[]): void => {
    rows = next;
    // Of an instrument nothing is estimated: its table comes with the exact numbers.
    numbers.hidden = rows.length === 0;
    if (numbers.hidden) return;
    numbers.replaceChildren(
      table(
        {
          caption: t('Numbers now, and what if'),
          columns: ['', t('now'), t('what if'), t('change')],
          rows: rows.map(({ name, before, now, change }) => [name, before, element('b', { textContent: now }), change]),
        },
        'what-if',
      ),
    );
  };
  /** At once, from what the server sent along: what is not estimated waits for the exact numbers. */
  const estimate = (): void => {
    const estimated = new Map(view.figures.map((figure, index) => [figure.row, estimateOf(figure, index, controls)]));
    const isStill = !isMoved();
    showRows(
      (rows.length > 0 ? rows : view.figures.map(rowOf)).map((row) => ({
        ...row,
        now: isStill ? row.before : (estimated.get(row.name) ?? '…'),
        change: '',
      })),
    );
  };
  const moved = (): void => {
    estimate();
    clearTimeout(rest);
    asked += 1;
    write.disabled = true;
    reset.disabled = !isMoved();
    if (isMoved()) rest = setTimeout(() => send({ type: 'what if', asked, settings: settings() }), REST_MS);
    else {
      status.replaceChildren();
      plot.show({});
      listen.hide();
    }
  };
  return {
    section,
    listen,
    hide: () => {
      clearTimeout(rest);
      listen.hide();
      section.hidden = true;
      controls = [];
      knobs.replaceChildren();
      rows = [];
    },
    show: (content) => {
      view = content;
      section.hidden = content.knobs.length === 0;
      if (section.hidden) return;
      const next = content.knobs.map((knob) => controlFor(knob, controls, moved));
      // The same controls stay where they are, so that the one in hand does not slip away.
      if (next.length !== controls.length || next.some((control, index) => control !== controls[index]))
        knobs.replaceChildren(...next.map(({ node }) => node));
      controls = next;
      stay.replaceChildren(...content.stay.map((each) => element('p', { textContent: each })));
      numbers.replaceChildren();
      rows = [];
      moved();
    },
    settle: (of, state) => {
      if (of !== asked) return;
      if (state === undefined) {
        status.replaceChildren(element('p', { textContent: t('The text of this pickup cannot say that.') }));
        return;
      }
      write.disabled = false;
      showRows(state.numbers.rows.map(({ name, before = '', now, change = '' }) => ({ name, before, now, change })));
      status.replaceChildren(...wordsOf(state));
      const isOther = state.response.svg !== plot.source();
      plot.show(state.response);
      listen.show(state.response, t('now'));
      if (isOther) listen.changed();
    },
  };
}

/** What a screen reader tells, findings in the language of findings, once the numbers stand. */
function wordsOf({ numbers, come, settled }: WhatIfState): readonly Node[] {
  const changed = numbers.rows.filter(({ change = '' }) => change !== '');
  const told = changed.map(({ name, before = '', now }) => t('{0}: {1} now, {2} what if', name, before, now));
  return [
    element('p', { className: 'q', textContent: told.length === 0 ? t('No number changes.') : `${told.join('; ')}.` }),
    ...come.map((each) =>
      element('p', { className: 'stale' }, [`${t('It would bring:')} `, findingText(each.what, each.foreign)]),
    ),
    ...settled.map((each) => element('p', {}, [`${t('It would settle:')} `, findingText(each.what, each.foreign)])),
  ];
}

const rowOf = ({ row, text }: WhatIfFigure): Row => ({ name: row, before: text, now: text, change: '' });

/** The figure now with what each knob does to it by itself; `undefined` where a knob's table does not say. */
function estimateOf(
  { now, decimals, isLevel }: WhatIfFigure,
  index: number,
  controls: readonly KnobControl[],
): string | undefined {
  let value = now;
  for (const { knob, at } of controls) {
    if (at() === knob.now) continue;
    const effect = effectAt(knob, index, at());
    if (effect === undefined) return undefined;
    value = isLevel ? value + effect : value * effect;
  }
  return Number.isFinite(value) ? `≈ ${shownNumber(value.toFixed(decimals))}` : undefined;
}

/** From the knob's table, between two of its places by a straight line. */
function effectAt({ at, effects }: WhatIfKnob, figure: number, to: number | string): number | undefined {
  const values = effects[figure] ?? [];
  if (typeof to === 'string') return values[at.indexOf(to)] ?? undefined;
  const above = Math.max(
    1,
    at.findIndex((place) => Number(place) >= to),
  );
  const [low, high] = [Number(at[above - 1]), Number(at[above])];
  const [from, next] = [values[above - 1] ?? undefined, values[above] ?? undefined];
  return from === undefined || next === undefined ? undefined : from + ((to - low) / (high - low)) * (next - from);
}

/** The one that stands there already, as long as the knob is the same; else a new one where the old one was moved to. */
function controlFor(knob: WhatIfKnob, controls: readonly KnobControl[], moved: () => void): KnobControl {
  const old = controls.find((control) => control.knob.id === knob.id);
  if (old && JSON.stringify(old.knob) === JSON.stringify(knob)) return old;
  const control = createKnob(knob, moved);
  control.set(old && old.at() !== old.knob.now ? old.at() : knob.now);
  return control;
}
