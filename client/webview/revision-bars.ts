import type { ChangedPart } from '../../server/src/lsp/protocol.ts';

const SVG = 'http://www.w3.org/2000/svg';
/** Left of the part, in the drawing's units. */
const GAP = 6;
/** A line that runs flat has no height of its own. */
const LEAST = 8;

/** A bar beside each part of a drawing that has changed; its tip tells the other state. Takes the bars of before away. */
export function markRevisions(drawn: SVGSVGElement, changed: readonly ChangedPart[]): void {
  for (const bar of drawn.querySelectorAll('.rev')) bar.remove();
  for (const { part, words } of changed) {
    const pieces = [...drawn.querySelectorAll<SVGGraphicsElement>('[data-part]')].filter(
      (each) => each.getAttribute('data-part') === part,
    );
    // A part may be drawn in several pieces far from each other: each has its own bar.
    for (const piece of pieces) {
      const { x, y, width, height } = piece.getBBox();
      if (width === 0 && height === 0) continue;
      drawn.append(barBeside(Math.max(x - GAP, 2), y, Math.max(height, LEAST), words));
    }
  }
}

function barBeside(x: number, y: number, height: number, words: string): SVGElement {
  const bar = document.createElementNS(SVG, 'path');
  bar.setAttribute('class', 'rev');
  bar.setAttribute('d', `M${x.toFixed(1)} ${y.toFixed(1)}v${height.toFixed(1)}`);
  const title = document.createElementNS(SVG, 'title');
  title.textContent = words;
  bar.append(title);
  return bar;
}
