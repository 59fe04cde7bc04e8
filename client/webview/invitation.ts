import type { Invitation } from '../../server/src/lsp/protocol.ts';
import { button, element } from './element.ts';
import type { Send } from './page-parts.ts';

/** What stands in the place of the drawing where a file has none: what the file is, and what can be begun in it. */
export function invitationSection({ says, starts }: Invitation, send: Send): readonly Node[] {
  const buttons = starts.map(({ label }, index) => button(label, () => send({ type: 'begin', index })));
  return [element('p', { textContent: says }), element('div', { className: 'exports' }, buttons)];
}
