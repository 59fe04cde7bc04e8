import type { ChangedPart } from '../../server/src/lsp/protocol.ts';
import { element } from './element.ts';
import { frameParts } from './mark-frame.ts';
import type { Send } from './page-parts.ts';
import { markRevisions } from './revision-bars.ts';
import { readSvg } from './svg-in-page.ts';

/** A wiring drawing in the page: its parts can be clicked, and walked through with the arrow keys. */
export interface WiringFigure {
  readonly figure: HTMLElement;
  readonly frame: HTMLElement;
  /** Puts a drawing, or none, in place of the one before; the same again is left alone, with its focus and its place. */
  show(source: string | undefined, parts: readonly string[]): void;
  /** Frames the part that the cursor is in; nothing scrolls. */
  highlight(part: string | undefined): void;
  /** Bars beside the parts that have changed. */
  mark(changed: readonly ChangedPart[]): void;
  /** The name of the state, where two stand side by side. */
  caption(isShown: boolean): void;
  source(): string | undefined;
}

/** `place` tells the figures of one page apart. */
export function createFigure(name: string, place: string, send: Send): WiringFigure {
  const caption = element('figcaption', { textContent: name, hidden: true });
  const frame = element('div', { className: 'sheet-frame' });
  const figure = element('figure', {}, [caption, frame]);
  let shown: string | undefined;
  let drawn: SVGSVGElement | undefined;
  let parts: readonly SVGElement[] = [];
  return {
    figure,
    frame,
    show: (source, order) => {
      if (source === shown) return;
      if (source === undefined) {
        frame.replaceChildren();
        parts = [];
        shown = undefined;
        drawn = undefined;
        return;
      }
      const next = readSvg(source, place);
      const focused = frame.contains(document.activeElement)
        ? document.activeElement?.closest('[data-part]')?.getAttribute('data-part')
        : undefined;
      const view = { left: frame.scrollLeft, top: document.scrollingElement?.scrollTop ?? 0 };
      frame.replaceChildren(next);
      frame.scrollLeft = view.left;
      document.scrollingElement?.scrollTo({ top: view.top, behavior: 'instant' });
      parts = makeParts(next, order, send);
      parts.find((part) => part.getAttribute('data-part') === focused)?.focus({ preventScroll: true });
      shown = source;
      drawn = next;
    },
    highlight: (id) => {
      if (drawn === undefined) return;
      frameParts(
        drawn,
        parts.filter((part) => part.getAttribute('data-part') === id),
      );
    },
    mark: (changed) => {
      // What is not laid out has no boxes.
      if (drawn !== undefined && !figure.hidden) markRevisions(drawn, changed);
    },
    caption: (isShown) => {
      caption.hidden = !isShown;
    },
    source: () => shown,
  };
}

/** One part is in the tab order; the arrow keys move on along the path, Home and End to its ends, Enter goes to the text. */
function makeParts(drawn: SVGSVGElement, order: readonly string[], send: Send): readonly SVGElement[] {
  const parts = [...drawn.querySelectorAll<SVGElement>('[data-part]')].filter((part) =>
    order.includes(part.getAttribute('data-part') ?? ''),
  );
  // A part may be drawn in several pieces; the first of them takes the focus.
  const stops = order.flatMap((id) => parts.find((part) => part.getAttribute('data-part') === id) ?? []);
  const reveal = (part: Element): void => send({ type: 'reveal', part: part.getAttribute('data-part') ?? '' });
  const focus = (at: number): void => {
    const next = stops[(at + stops.length) % stops.length];
    for (const stop of stops) stop.setAttribute('tabindex', stop === next ? '0' : '-1');
    next?.focus();
  };
  for (const [at, stop] of stops.entries()) {
    stop.setAttribute('tabindex', at === 0 ? '0' : '-1');
    // Inside a button nothing else can be pressed; a part that holds others is a link to its line.
    stop.setAttribute('role', stop.querySelector('[data-part]') === null ? 'button' : 'link');
    nameStop(stop);
    stop.addEventListener('keydown', (event) => {
      const moves: Readonly<Record<string, number>> = {
        ArrowRight: at + 1,
        ArrowDown: at + 1,
        ArrowLeft: at - 1,
        ArrowUp: at - 1,
        Home: 0,
        End: stops.length - 1,
      };
      const move = moves[event.key];
      if (event.key === 'Enter' || event.key === ' ') reveal(stop);
      else if (move !== undefined) focus(move);
      else return;
      event.preventDefault();
    });
  }
  for (const part of parts) {
    part.classList.add('line');
    part.addEventListener('click', (event) => {
      event.stopPropagation();
      reveal(part);
    });
  }
  // Inside an image nothing can be focused; with its parts it is a group.
  if (stops.length > 0) drawn.setAttribute('role', 'group');
  return parts;
}

/** What is written on a part is what it is called, so that it can be spoken to by that; its title tells the rest. */
function nameStop(stop: SVGElement): void {
  const title = stop.querySelector(':scope > title')?.textContent ?? stop.getAttribute('data-part') ?? '';
  const written = [...stop.querySelectorAll('text')].map((text) => text.textContent).join(' ');
  stop.setAttribute('aria-label', written === '' ? title : written);
  if (written !== '') stop.setAttribute('aria-description', title);
}
