import { element } from './element.ts';
import { lineButton } from './line-button.ts';
import type { Send } from './page-parts.ts';
import { sentence } from './sentence.ts';

/** The bar that says why what is shown may be old. */
export function createNotice(send: Send) {
  const node = element('p', { className: 'stale', role: 'status', hidden: true });
  return {
    node,
    warn: (text: string, line?: number): void => {
      node.replaceChildren(...sentence(text), ...(line === undefined ? [] : [lineButton(line, send)]));
      node.hidden = false;
    },
    clear: (): void => {
      node.hidden = true;
    },
  };
}
