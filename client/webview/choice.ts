import { element } from './element.ts';
import { t } from './words.ts';

export interface Option {
  readonly id: string;
  readonly label: string;
}

/** The two states that are compared. */
export const bothSides = (): readonly Option[] => [
  { id: 'before', label: t('A before') },
  { id: 'now', label: t('B now') },
];

export interface Choice {
  readonly node: HTMLFieldSetElement;
  /** Shows these options; the same ones again are left alone, with their focus. */
  show(options: readonly Option[], chosen: string | undefined): void;
}

/** One of a few, side by side: native radio buttons, so that the arrow keys and screen readers know them. */
export function createChoice(legend: string, name: string, chosen: (id: string) => void): Choice {
  const row = element('div', { className: 'seg' });
  const node = element('fieldset', { hidden: true }, [element('legend', { textContent: legend }), row]);
  let shown = '';
  return {
    node,
    show: (options, current) => {
      node.hidden = options.length < 2;
      const key = JSON.stringify(options);
      if (key !== shown) {
        row.replaceChildren(
          ...options.flatMap(({ id, label }, index) => {
            const input = element('input', { type: 'radio', name, id: `${name}-${index}`, value: id });
            input.addEventListener('change', () => chosen(id));
            return [input, element('label', { htmlFor: input.id, textContent: label })];
          }),
        );
      }
      shown = key;
      for (const input of row.querySelectorAll('input')) input.checked = input.value === current;
    },
  };
}
