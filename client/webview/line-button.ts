import { button } from './element.ts';
import type { Send } from './page-parts.ts';
import { t } from './words.ts';

/** Goes to a line of the text. */
export function lineButton(line: number, send: Send): HTMLButtonElement {
  return button(t('line {0}', line + 1), () => send({ type: 'reveal line', line }), 'lk');
}
