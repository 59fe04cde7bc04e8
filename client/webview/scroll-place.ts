/** Where the page was scrolled to, by what was shown. */
export type ScrollPlaces = Readonly<Record<string, number>>;

/** So many are remembered. */
const MOST_PLACES = 30;

/**
 * Each thing that is shown has its own place in the page, the top at first. The page grows as the numbers come; until the reader moves,
 * it is held where it was left, also over a reload.
 */
export function createScrollPlace(start: ScrollPlaces = {}) {
  const places = new Map(Object.entries(start));
  let shown: string | undefined;
  let wanted: number | undefined;
  const letGo = (): void => {
    wanted = undefined;
  };
  for (const kind of ['wheel', 'keydown', 'pointerdown'] as const) {
    document.addEventListener(kind, letGo, { passive: true });
  }
  const scrolled = (): void => {
    const page = document.scrollingElement;
    // Where the page is long enough for it and yet stands elsewhere, the reader has dragged it there.
    const isReached = page && wanted !== undefined && page.scrollHeight - page.clientHeight >= wanted;
    if (isReached && Math.abs(page.scrollTop - (wanted ?? 0)) > 2) letGo();
  };
  document.addEventListener('scroll', scrolled, { passive: true });
  const note = (): void => {
    if (shown === undefined) return;
    // Behind those of before, so that the oldest is forgotten first.
    places.delete(shown);
    places.set(shown, wanted ?? document.scrollingElement?.scrollTop ?? 0);
  };
  return {
    places: (): ScrollPlaces => {
      note();
      return Object.fromEntries([...places].slice(-MOST_PLACES));
    },
    /** What is about to be shown; the same again moves nothing. */
    turnTo: (next: string): void => {
      if (next === shown) return;
      note();
      shown = next;
      wanted = places.get(next) ?? 0;
    },
    /** Goes back to where it is to be held. */
    hold: (): void => {
      if (wanted !== undefined) document.scrollingElement?.scrollTo({ top: wanted, behavior: 'instant' });
    },
  };
}
