import type { ChangedPart } from '../../server/src/lsp/protocol.ts';
import { element } from './element.ts';
import { frameParts } from './mark-frame.ts';
import type { Send } from './page-parts.ts';
import { markRevisions } from './revision-bars.ts';
import { putSvg } from './svg-in-page.ts';

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
  walkable(frame, (part) => send({ type: 'reveal', part }));
  return {
    figure,
    frame,
    show: (source, order) => {
      if (source === shown) return;
      const focused = nameOf(partAround(document.activeElement, frame));
      shown = source;
      drawn = source === undefined ? undefined : putSvg(frame, source, place, (next) => makeParts(next, order));
      if (drawn === undefined) frame.replaceChildren();
      else if (focused !== undefined)
        stopsOf(drawn)
          .find((stop) => nameOf(stop) === focused)
          ?.focus({ preventScroll: true });
    },
    highlight: (id) => {
      if (drawn === undefined) return;
      frameParts(
        drawn,
        partsOf(drawn).filter((part) => nameOf(part) === id),
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

const nameOf = (part: Element | undefined): string | undefined => part?.getAttribute('data-part') ?? undefined;

/** Pieces of what has a line in the text; a part may be drawn in several. */
const partsOf = (drawn: Element): readonly SVGElement[] => [...drawn.querySelectorAll<SVGElement>('[data-part].line')];

/** What the keyboard stops at, in the order in which it goes on. */
const stopsOf = (drawn: Element): readonly SVGElement[] =>
  [...drawn.querySelectorAll<SVGElement>('[data-stop]')].sort((a, b) => stopOf(a) - stopOf(b));

const stopOf = (part: Element): number => Number(part.getAttribute('data-stop'));

function partAround(target: EventTarget | null, frame: Element): Element | undefined {
  const part = target instanceof Element ? target.closest('[data-part].line') : null;
  return part !== null && frame.contains(part) ? part : undefined;
}

/** A click or Enter goes to the text; the arrow keys move on along the path, Home and End to its ends. */
function walkable(frame: HTMLElement, reveal: (part: string) => void): void {
  frame.addEventListener('click', ({ target }) => {
    const name = nameOf(partAround(target, frame));
    if (name !== undefined) reveal(name);
  });
  frame.addEventListener('keydown', (event) => {
    const part = partAround(event.target, frame);
    const name = nameOf(part);
    if (part === undefined || name === undefined) return;
    const stops = stopsOf(frame);
    const at = stopOf(part);
    const moves: Readonly<Record<string, number>> = {
      ArrowRight: at + 1,
      ArrowDown: at + 1,
      ArrowLeft: at - 1,
      ArrowUp: at - 1,
      Home: 0,
      End: stops.length - 1,
    };
    const move = moves[event.key];
    if (event.key === 'Enter' || event.key === ' ') reveal(name);
    else if (move !== undefined) {
      const next = stops[(move + stops.length) % stops.length];
      for (const stop of stops) stop.setAttribute('tabindex', stop === next ? '0' : '-1');
      next?.focus();
    } else return;
    event.preventDefault();
  });
}

/** One part is in the tab order. */
function makeParts(drawn: SVGSVGElement, order: readonly string[]): void {
  const parts = [...drawn.querySelectorAll<SVGElement>('[data-part]')].filter((part) =>
    order.includes(nameOf(part) ?? ''),
  );
  for (const part of parts) part.classList.add('line');
  // A part may be drawn in several pieces; the first of them takes the focus.
  const stops = order.flatMap((id) => parts.find((part) => nameOf(part) === id) ?? []);
  for (const [at, stop] of stops.entries()) {
    stop.setAttribute('data-stop', String(at));
    stop.setAttribute('tabindex', at === 0 ? '0' : '-1');
    // Inside a button nothing else can be pressed; a part that holds others is a link to its line.
    stop.setAttribute('role', stop.querySelector('[data-part]') === null ? 'button' : 'link');
    nameStop(stop);
  }
  // Inside an image nothing can be focused; with its parts it is a group.
  if (stops.length > 0) drawn.setAttribute('role', 'group');
}

/** What is written on a part is what it is called, so that it can be spoken to by that; its title tells the rest. */
function nameStop(stop: SVGElement): void {
  const title = stop.querySelector(':scope > title')?.textContent ?? stop.getAttribute('data-part') ?? '';
  const written = [...stop.querySelectorAll('text')].map((text) => text.textContent).join(' ');
  stop.setAttribute('aria-label', written === '' ? title : written);
  if (written !== '') stop.setAttribute('aria-description', title);
}
