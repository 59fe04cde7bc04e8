import type { FromView } from '../src/features/bench-view/messages.ts';
import { element } from './element.ts';

/** Goes to a line of the text. */
export function lineButton(line: number, send: (message: FromView) => void): HTMLButtonElement {
  const button = element('button', { className: 'lk', type: 'button', textContent: `line ${line + 1}` });
  button.addEventListener('click', () => send({ type: 'reveal line', line }));
  return button;
}
