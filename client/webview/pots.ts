import type { Pots } from '../../server/src/lsp/protocol.ts';
import { element } from './element.ts';

export interface PotControls {
  readonly node: HTMLElement;
  show(pots: Pots): void;
}

/** Volume and tone from 0 to 10: native sliders, by arrow keys in steps of a half. */
export function createPots(start: Pots, turned: (pots: Pots) => void): PotControls {
  let pots = start;
  const knobs = (['volume', 'tone'] as const).map((name) => {
    const output = element('output', {});
    const input = element('input', { type: 'range', min: '0', max: '10', step: '0.5' });
    const show = (): void => {
      input.value = String(pots[name]);
      input.setAttribute('aria-valuetext', `${pots[name]} of 10`);
      output.textContent = String(pots[name]);
    };
    input.addEventListener('input', () => {
      pots = { ...pots, [name]: Number(input.value) };
      show();
      turned(pots);
    });
    show();
    return {
      node: element('label', { className: 'knob' }, [element('span', { textContent: name }), output, input]),
      show,
    };
  });
  return {
    node: element(
      'div',
      { className: 'pots', role: 'group', ariaLabel: 'Pots', hidden: true },
      knobs.map(({ node }) => node),
    ),
    show: (next) => {
      pots = next;
      for (const { show } of knobs) show();
    },
  };
}
