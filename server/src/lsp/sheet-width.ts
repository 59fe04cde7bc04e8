import type { DrawingWidth, PlotWidth } from '../documents/drawing-sheet.ts';
import { SLIM_BELOW, WIDE_FROM } from './bench-view-protocol.ts';

/** The layout of a drawing for a view of so many px. */
export function sheetWidth(width: number): DrawingWidth {
  if (width >= WIDE_FROM) return 'wide';
  return width < SLIM_BELOW ? 'tight' : 'narrow';
}

/** The layout of a plot that stands in a column or in a view that is not wide. */
export const plotWidth = (width: number): PlotWidth => (width < SLIM_BELOW ? 'slim' : 'narrow');
