/** Runs in the page: how text stands out from what is painted under it. */
import { contrast } from '../documents/contrast.ts';

/** Least contrast (WCAG 2.2) of the text of each element, by the colours that are painted; 0 where that cannot be told. */
export const measuredContrasts = (selectors: readonly string[]): readonly number[] =>
  selectors.map((selector) => {
    const element = document.querySelector(selector);
    if (element instanceof SVGTextContentElement) return ofDrawnText(element);
    if (element === null || getComputedStyle(element).backgroundImage !== 'none') return 0;
    const ground = boxUnder(element);
    const ink = painted(getComputedStyle(element).color, 1, ground);
    return ink === undefined ? 0 : contrast(ink, ground);
  });

const pen = new OffscreenCanvas(1, 1).getContext('2d', { willReadFrequently: true });

/** A colour of any notation laid over another, as `#rrggbb`; `undefined` for none at all. */
function painted(colour: string, opacity: number, under: string): string | undefined {
  if (pen === null || colour === 'none' || colour === '') return undefined;
  for (const [each, alpha] of [
    [under, 1],
    [colour, opacity],
  ] as const) {
    pen.globalAlpha = alpha;
    pen.fillStyle = each;
    pen.fillRect(0, 0, 1, 1);
  }
  const [red = 0, green = 0, blue = 0] = pen.getImageData(0, 0, 1, 1).data;
  return `#${[red, green, blue].map((each) => each.toString(16).padStart(2, '0')).join('')}`;
}

/** What the boxes around an element paint, from the outermost in. */
function boxUnder(element: Element): string {
  const around: Element[] = [];
  for (let at: Element | null = element; at !== null; at = at.parentElement) around.unshift(at);
  return around.reduce((ground, each) => {
    if (each instanceof SVGElement && !(each instanceof SVGSVGElement)) return ground;
    return painted(getComputedStyle(each).backgroundColor, 1, ground) ?? ground;
  }, '#ffffff');
}

const SHAPES = 'path, rect, circle, ellipse, line, polygon';
/** A rim narrower than this leaves the letters on what is under them. */
const LEAST_RIM_PX = 3;

function ofDrawnText(text: SVGTextContentElement): number {
  const svg = text.ownerSVGElement;
  if (svg === null) return 0;
  const { fill, fillOpacity, stroke, strokeWidth, paintOrder } = getComputedStyle(text);
  const box = text.getBoundingClientRect();
  const shapes = [...svg.querySelectorAll<SVGGeometryElement>(SHAPES)].filter(
    (shape) =>
      (shape.compareDocumentPosition(text) & Node.DOCUMENT_POSITION_FOLLOWING) !== 0 &&
      meet(shape.getBoundingClientRect(), box),
  );
  const hasRim = stroke !== 'none' && paintOrder.startsWith('stroke') && Number.parseFloat(strokeWidth) >= LEAST_RIM_PX;
  const paper = boxUnder(svg);
  const ratios = [0.1, 0.3, 0.5, 0.7, 0.9].map((across) => {
    const [x, y] = [box.left + across * box.width, box.top + 0.5 * box.height];
    const under = shapes.reduce((ground, shape) => shapeAt(shape, x, y, ground), paper);
    const ground = (hasRim ? painted(stroke, 1, under) : undefined) ?? under;
    const ink = painted(fill, Number(fillOpacity), ground);
    return ink === undefined ? 0 : contrast(ink, ground);
  });
  return Math.min(...ratios);
}

const meet = (a: DOMRect, b: DOMRect): boolean =>
  a.left <= b.right && a.right >= b.left && a.top <= b.bottom && a.bottom >= b.top;

/** What lies at a point of the window once a shape is painted over what was there. */
function shapeAt(shape: SVGGeometryElement, x: number, y: number, under: string): string {
  const matrix = shape.getScreenCTM();
  if (matrix === null) return under;
  const point = new DOMPoint(x, y).matrixTransform(matrix.inverse());
  const { fill, fillOpacity, stroke, strokeOpacity } = getComputedStyle(shape);
  const filled = shape.isPointInFill(point) ? painted(fill, Number(fillOpacity), under) : undefined;
  const ground = filled ?? under;
  const isStroked = stroke !== 'none' && shape.isPointInStroke(point);
  return (isStroked ? painted(stroke, Number(strokeOpacity), ground) : undefined) ?? ground;
}
