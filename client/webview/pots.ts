import type { Knob, Pots } from '../../server/src/lsp/protocol.ts';
import { element } from './element.ts';
import { shownNumber, t } from './words.ts';

export interface PotControls {
  readonly node: HTMLElement;
  show(knobs: readonly Knob[], pots: Pots): void;
}

/** Each control of the instrument from 0 to 10: native sliders, by arrow keys in steps of a half. Sends where all of them stand. */
export function createPots(turned: (pots: Pots) => void): PotControls {
  const node = element('div', { className: 'pots', role: 'group', ariaLabel: t('Pots'), hidden: true });
  let sliders: readonly Slider[] = [];
  const turn = () => turned(Object.fromEntries(sliders.map(({ knob, at }) => [knob.id, at()])));
  return {
    node,
    show: (knobs, pots) => {
      // The same sliders stay, so that the one in hand does not slip away.
      if (
        !isSame(
          knobs,
          sliders.map(({ knob }) => knob),
        )
      ) {
        sliders = knobs.map((knob) => createSlider(knob, turn));
        node.replaceChildren(...sliders.map((slider) => slider.node));
      }
      node.hidden = knobs.length === 0;
      for (const { knob, set } of sliders) set(standsAt(knob, pots));
    },
  };
}

interface Slider {
  readonly knob: Knob;
  readonly node: HTMLElement;
  at(): number;
  set(at: number): void;
}

function createSlider(knob: Knob, turned: () => void): Slider {
  // No output element: a label would name that, and leave the slider without a name.
  const output = element('span', { className: 'at', ariaHidden: 'true' });
  const input = element('input', { type: 'range', min: '0', max: '10', step: '0.5' });
  const show = (): void => {
    input.setAttribute('aria-valuetext', t('{0} of 10', shownNumber(input.value)));
    output.textContent = shownNumber(input.value);
  };
  input.addEventListener('input', () => {
    show();
    turned();
  });
  return {
    knob,
    node: element('label', { className: 'knob' }, [element('span', { textContent: knob.label }), output, input]),
    at: () => Number(input.value),
    set: (at) => {
      input.value = String(at);
      show();
    },
  };
}

/** One of a slot stands with all of its kind until it is turned by itself. */
const standsAt = ({ id, rest }: Knob, pots: Pots): number => pots[id] ?? pots[id.replace(/^.*\./, '')] ?? rest;

const isSame = (a: readonly Knob[], b: readonly Knob[]): boolean =>
  a.length === b.length && a.every(({ id, label }, index) => b[index]?.id === id && b[index].label === label);
