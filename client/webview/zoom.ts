import { button, element } from './element.ts';
import { t } from './words.ts';

const ZOOMS = [50, 75, 100, 125, 150, 200, 300] as const;
/** As wide as the pane. */
const WHOLE = 100;

export type Zoom = ReturnType<typeof createZoom>;

interface Point {
  readonly x: number;
  readonly y: number;
}

/**
 * Enlarges what stands in the frames; the page around it keeps its size. What is under the pointer stays there, or what is in the
 * middle of the window where no pointer says better. Ctrl and the wheel, or + and - on the drawing; 0 is back to the pane's width.
 */
export function createZoom(frames: readonly HTMLElement[], start: number, changed: () => void) {
  let percent: number = ZOOMS.find((step) => step === start) ?? WHOLE;
  const whole = button('', () => set(WHOLE, middle()), 'plain zoom');
  const apply = (): void => {
    for (const frame of frames) frame.style.setProperty('--zoom', String(percent / 100));
    whole.textContent = `${percent} %`;
    whole.ariaLabel = t('Zoom {0} %, back to the width of the pane', percent);
  };
  const set = (next: number, about: Point): void => {
    if (next === percent) return;
    const frame = frames.find((each) => isAround(each.getBoundingClientRect(), about)) ?? frames.find(isSeen);
    const stay = frame && anchor(frame, about);
    percent = next;
    apply();
    stay?.();
    changed();
  };
  const step = (by: 1 | -1, about: Point): void => {
    const at = ZOOMS.findIndex((each) => each >= percent) + by;
    set(ZOOMS[Math.min(Math.max(at, 0), ZOOMS.length - 1)] ?? WHOLE, about);
  };
  for (const frame of frames) {
    frame.addEventListener(
      'wheel',
      (event) => {
        if (!event.ctrlKey && !event.metaKey) return;
        event.preventDefault();
        step(event.deltaY < 0 ? 1 : -1, { x: event.clientX, y: event.clientY });
      },
      { passive: false },
    );
    frame.addEventListener('keydown', ({ key, ctrlKey, metaKey, altKey }) => {
      if (ctrlKey || metaKey || altKey) return;
      if (key === '+' || key === '=') step(1, middle());
      else if (key === '-') step(-1, middle());
      else if (key === '0') set(WHOLE, middle());
    });
  }
  apply();
  const stepper = (text: string, ariaLabel: string, by: 1 | -1): HTMLButtonElement =>
    Object.assign(
      button(text, () => step(by, middle()), 'plain zoom'),
      { ariaLabel },
    );
  return {
    buttons: element('div', { className: 'zooms', role: 'group', ariaLabel: t('Zoom') }, [
      stepper('−', t('Smaller'), -1),
      whole,
      stepper('+', t('Larger'), 1),
    ]),
    percent: (): number => percent,
  };
}

const middle = (): Point => ({ x: window.innerWidth / 2, y: window.innerHeight / 2 });

const isSeen = (frame: HTMLElement): boolean => frame.getClientRects().length > 0;

const isAround = ({ left, right, top, bottom }: DOMRect, { x, y }: Point): boolean =>
  left <= x && x <= right && top <= y && y <= bottom;

/** Remembers which point of the drawing lies at `about`; the answer brings it back there. */
function anchor(frame: HTMLElement, about: Point): () => void {
  const drawn = frame.firstElementChild;
  if (drawn === null) return () => undefined;
  const was = drawn.getBoundingClientRect();
  const [across, down] = [(about.x - was.left) / (was.width || 1), (about.y - was.top) / (was.height || 1)];
  return () => {
    const is = drawn.getBoundingClientRect();
    frame.scrollLeft += is.left + across * is.width - about.x;
    document.scrollingElement?.scrollBy({ top: is.top + down * is.height - about.y, behavior: 'instant' });
  };
}
