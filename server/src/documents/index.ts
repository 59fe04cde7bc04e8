/** Drawings as SVG text, and the same facts as rows. */
export { instrumentPicture } from './instrument-diagram/from-model.ts';
export { instrumentDiagram, instrumentTable } from './instrument-diagram/instrument-diagram.ts';
export { positionsPicture, positionsSheet, positionsTable } from './positions-sheet.ts';
export { pickupResponsePicture, positionResponsePicture } from './response-plot/from-model.ts';
export { responsePlot, responseTable } from './response-plot/response-plot.ts';
