import type { Side } from '../src/features/bench-view/messages.ts';
import { element } from './element.ts';
import type { PageState, Send } from './page-parts.ts';
import { createFigure, type WiringFigure } from './wiring-figure.ts';
import { t } from './words.ts';
import { createZoom, type Zoom } from './zoom.ts';

/** The drawing, and beside it the one of before where two states are compared. */
export interface Drawings {
  readonly node: HTMLElement;
  readonly now: WiringFigure;
  readonly before: WiringFigure;
  readonly zoom: Zoom;
  side(): Side;
  /** `undefined`: nobody has chosen yet. */
  chosen(): Side | undefined;
  choose(side: Side): void;
  /** Which of the two is in sight, and what is marked in them. */
  place(): void;
}

interface DrawingsSources {
  readonly state: PageState;
  readonly send: Send;
  readonly start: { readonly side: Side | undefined; readonly zoom: number | undefined };
  readonly zoomed: () => void;
}

export function createDrawings({ state, send, start, zoomed }: DrawingsSources): Drawings {
  const before = createFigure(t('A before'), 'before', send);
  const now = createFigure(t('B now'), 'now', send);
  let chosen = start.side;
  // Of one text the two drawings are often alike: its former state is shown when asked for.
  const side = (): Side => chosen ?? (state.drawing?.base === undefined ? 'now' : 'both');
  const place = (): void => {
    const { drawing, comparison } = state;
    const compared = drawing?.comparedWith !== undefined && comparison?.svg !== undefined;
    before.figure.hidden = !compared || side() === 'now';
    now.figure.hidden = compared && side() === 'before';
    before.caption(compared);
    now.caption(compared);
    before.mark(compared ? (comparison?.changedBefore ?? []) : []);
    now.mark(compared ? (comparison?.changedNow ?? []) : []);
  };
  return {
    node: element('div', { className: 'drawings' }, [before.figure, now.figure]),
    now,
    before,
    zoom: createZoom([before.frame, now.frame], start.zoom ?? 100, zoomed),
    side,
    chosen: () => chosen,
    choose: (next) => {
      chosen = next;
      place();
    },
    place,
  };
}
