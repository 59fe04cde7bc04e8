/**
 * The drawings are laid out for the usual proportions of an editor's face. Where the face at hand is wider (what some systems fall
 * back to), they are set one size smaller, never below 11 px, so that no words run into each other.
 */
export function markWideFace(body: HTMLElement): void {
  const pen = document.createElement('canvas').getContext('2d');
  if (!pen) return;
  pen.font = `12px ${getComputedStyle(body).fontFamily}`;
  body.classList.toggle('wide-face', pen.measureText(PROBE).width > WIDEST * PROBE_WIDTH_PX);
}

const PROBE = 'the path from ground to hot, start (inner end) to finish 0123456789';
/** Of the probe at 12 px in the face whose widths the drawings know. */
const PROBE_WIDTH_PX = 350.9;
/** What the drawings keep in reserve. */
const WIDEST = 1.05;
