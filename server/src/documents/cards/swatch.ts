/** A lead beside its name: two edges keep every colour visible on paper, the letters say it without any colour. */
import { leadColour } from '../../../../grammar/values/lead-name.ts';
import type { Language } from '../../words/languages/language.ts';
import { colourWords } from '../colour-words.ts';
import { type HtmlNode, h, typed } from '../html.ts';
import { element } from '../svg.ts';
import { lead } from '../symbols.ts';

export type Touched = 'lead' | 'shield' | 'metal' | 'coil end';

/** `screw start`, the end in the words of the reader. */
export const pointName = (name: string, what: Touched, t: Language): string =>
  what === 'coil end' ? name.replace(/[^ ]+$/, (end) => t.word(end)) : name;

/** Letters after IEC 60757 in bold, then the name; a metal part as an empty box, an end without a lead as words alone. */
export function leadNodes(name: string, what: Touched, t: Language): readonly HtmlNode[] {
  if (what === 'coil end') return [h('b', {}, typed(pointName(name, what, t)))];
  if (what === 'metal')
    return [
      swatch(element('rect', { class: 'open', x: 1, y: 1, width: 26, height: 8, rx: 1.5 })),
      h('b', {}, typed(t.word(name))),
    ];
  const colour = what === 'lead' ? leadColour(name) : undefined;
  const drawn = swatch(...lead('M0 5H28', what === 'shield' ? { bare: true } : (colour ?? {})));
  if (what === 'shield') return [drawn, h('b', {}, typed(name)), ` ${t(name === 'bare' ? 'drain' : 'shield')}`];
  return colour
    ? [h('span', { class: 's' }, drawn, h('b', {}, colour.code), ` ${colourWords(colour, t)}`)]
    : [drawn, h('b', {}, typed(name))];
}

function swatch(...children: readonly Parameters<typeof element>[2][]): HtmlNode {
  return { svg: element('svg', { class: 'pk sw', viewBox: '0 0 28 10', 'aria-hidden': 'true' }, ...children) };
}
