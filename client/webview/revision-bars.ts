import type { ChangedPart } from '../../server/src/lsp/protocol.ts';

const SVG = 'http://www.w3.org/2000/svg';
/** Left of the part, in the drawing's units. */
const GAP = 6;

/** A bar beside each part of a drawing that has changed; its tip tells the other state. Takes the bars of before away. */
export function markRevisions(drawn: SVGSVGElement, changed: readonly ChangedPart[]): void {
  for (const bar of drawn.querySelectorAll('.rev')) bar.remove();
  for (const { part, words } of changed) {
    const pieces = [...drawn.querySelectorAll<SVGGraphicsElement>('[data-part]')].filter(
      (each) => each.getAttribute('data-part') === part,
    );
    const boxes = pieces.map((piece) => piece.getBBox()).filter(({ width, height }) => width > 0 || height > 0);
    if (boxes.length === 0) continue;
    const left = Math.max(Math.min(...boxes.map(({ x }) => x)) - GAP, 2);
    const top = Math.min(...boxes.map(({ y }) => y));
    const bottom = Math.max(...boxes.map(({ y, height }) => y + height));
    const bar = document.createElementNS(SVG, 'path');
    bar.setAttribute('class', 'rev');
    bar.setAttribute('d', `M${left.toFixed(1)} ${top.toFixed(1)}V${Math.max(bottom, top + 8).toFixed(1)}`);
    const title = document.createElementNS(SVG, 'title');
    title.textContent = words;
    bar.append(title);
    drawn.append(bar);
  }
}
