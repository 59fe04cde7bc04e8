import type { FromView, ShownDrawing } from '../src/features/preview/messages.ts';
import { element } from './element.ts';

/** A drawing that stands in the page. */
export interface PlacedDrawing {
  readonly source: string | undefined;
  /** Marks the part that the cursor is in; nothing scrolls. */
  highlight(part: string | undefined): void;
}

/**
 * Puts the server's drawing into the page in place of the one before. It is read as SVG, never as HTML; its style sheet is
 * adopted, since the page admits none inside; its parts can be clicked, and walked through with the arrow keys.
 */
export function adoptDrawing(
  frame: HTMLElement,
  { svg: source, parts: order }: Pick<ShownDrawing, 'svg' | 'parts'>,
  before: PlacedDrawing | undefined,
  send: (message: FromView) => void,
): PlacedDrawing {
  if (source === undefined) {
    if (before?.source === undefined) {
      frame.replaceChildren(element('p', { className: 'q', textContent: 'This file declares no pickup to draw.' }));
    }
    return { source, highlight: () => undefined };
  }
  const drawn = readSvg(source);
  const focused = document.activeElement?.closest('[data-part]')?.getAttribute('data-part') ?? undefined;
  const view = { left: frame.scrollLeft, top: document.scrollingElement?.scrollTop ?? 0 };
  frame.replaceChildren(drawn);
  frame.scrollLeft = view.left;
  document.scrollingElement?.scrollTo({ top: view.top, behavior: 'instant' });
  const parts = makeParts(drawn, order, send);
  parts.find((part) => part.getAttribute('data-part') === focused)?.focus({ preventScroll: true });
  return {
    source,
    highlight: (id) => {
      for (const part of parts) part.classList.toggle('here', part.getAttribute('data-part') === id);
    },
  };
}

function readSvg(source: string): SVGSVGElement {
  const { documentElement } = new DOMParser().parseFromString(source, 'image/svg+xml');
  if (!(documentElement instanceof SVGSVGElement)) throw new Error('the server sent no drawing');
  const drawn = document.importNode(documentElement, true);
  const rules = [...drawn.querySelectorAll('style')].map((style) => {
    style.remove();
    return style.textContent ?? '';
  });
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(rules.join('\n'));
  document.adoptedStyleSheets = [sheet];
  for (const foreign of drawn.querySelectorAll('script, foreignObject, a, image, use')) foreign.remove();
  return drawn;
}

/** One part is in the tab order; the arrow keys move on along the path, Home and End to its ends, Enter goes to the text. */
function makeParts(
  drawn: SVGSVGElement,
  order: readonly string[],
  send: (message: FromView) => void,
): readonly SVGElement[] {
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
    stop.setAttribute('role', 'button');
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
    part.addEventListener('click', () => reveal(part));
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
