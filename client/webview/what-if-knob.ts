import type { WhatIfKnob } from '../../server/src/lsp/protocol.ts';
import { element } from './element.ts';
import { shownNumber, t } from './words.ts';

export interface KnobControl {
  readonly node: HTMLElement;
  readonly knob: WhatIfKnob;
  at(): number | string;
  /** Out of reach, it stands where the knob is now. */
  set(to: number | string): void;
}

/** A native slider or a list: arrow keys and screen readers know them. */
export const createKnob = (knob: WhatIfKnob, moved: () => void): KnobControl =>
  knob.slider ? createSlider(knob, knob.slider, moved) : createList(knob, moved);

function createSlider(
  knob: WhatIfKnob,
  { fewest, most, step, unit }: NonNullable<WhatIfKnob['slider']>,
  moved: () => void,
): KnobControl {
  // No output element: a label would name that, and leave the slider without a name.
  const output = element('span', { className: 'at', ariaHidden: 'true' });
  const input = element('input', { type: 'range', min: String(fewest), max: String(most), step: String(step) });
  const show = (): void => {
    const number = inGroups(input.value);
    input.setAttribute('aria-valuetext', t('{0} {1}, now {2}', number, unit, inGroups(String(knob.now))));
    output.textContent = `${number}\u202F${unit}`;
  };
  input.addEventListener('input', () => {
    show();
    moved();
  });
  return {
    knob,
    node: element('label', { className: 'knob' }, [element('span', { textContent: knob.label }), output, input]),
    at: () => Number(input.value),
    set: (to) => {
      input.value = String(typeof to === 'number' && to >= fewest && to <= most ? to : knob.now);
      show();
    },
  };
}

function createList(knob: WhatIfKnob, moved: () => void): KnobControl {
  const choices = knob.choices ?? [];
  const input = element(
    'select',
    {},
    choices.map(({ id, label }) =>
      element('option', { value: id, textContent: id === knob.now ? t('{0} (now)', label) : label }),
    ),
  );
  input.addEventListener('input', moved);
  return {
    knob,
    node: element('label', { className: 'knob' }, [element('span', { textContent: knob.label }), input]),
    at: () => input.value,
    set: (to) => {
      input.value = choices.some(({ id }) => id === to) ? String(to) : String(knob.now);
    },
  };
}

const inGroups = (number: string): string => shownNumber(number).replace(/\B(?=(\d{3})+$)/g, '\u202F');
