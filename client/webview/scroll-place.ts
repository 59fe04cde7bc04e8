/** The page grows as the numbers come; until the reader moves, it is held where it was before the reload. */
export function createScrollPlace(start: number | undefined) {
  let wanted = start;
  const letGo = (): void => {
    wanted = undefined;
  };
  for (const kind of ['wheel', 'keydown', 'pointerdown'] as const) {
    document.addEventListener(kind, letGo, { passive: true });
  }
  return {
    top: (): number => wanted ?? document.scrollingElement?.scrollTop ?? 0,
    /** Goes back to where it is to be held. */
    hold: (): void => {
      if (wanted !== undefined) document.scrollingElement?.scrollTo({ top: wanted, behavior: 'instant' });
    },
    letGo,
  };
}
