/** Drawings in German: words are longer there, and still none lies on another or out of the sheet. */
import assert from 'node:assert/strict';
import { instrumentPicture } from '../../server/src/documents/instrument-diagram/from-model.ts';
import { instrumentDiagram } from '../../server/src/documents/instrument-diagram/instrument-diagram.ts';
import { positionsPicture, positionsSheet } from '../../server/src/documents/positions-sheet.ts';
import { pickupResponsePicture } from '../../server/src/documents/response-plot/from-model.ts';
import { responsePlot } from '../../server/src/documents/response-plot/response-plot.ts';
import { switchPicture } from '../../server/src/documents/switch-diagram/from-model.ts';
import { switchDiagram } from '../../server/src/documents/switch-diagram/switch-diagram.ts';
import { pickupPicture } from '../../server/src/documents/wiring-diagram/from-model.ts';
import { drawPickup } from '../../server/src/documents/wiring-diagram/wiring-diagram.ts';
import { languageOf } from '../../server/src/words/languages/language.ts';
import { analysedSample } from '../support/sample-files.ts';
import { assertLegibleDrawing } from './plots/legible.ts';
import { assertLegible } from './wiring-diagram/legible.ts';

const t = languageOf('de');
const WIDTHS = ['wide', 'narrow'] as const;

describe('drawings in German', () => {
  for (const sample of ['hesk-neck', 'withen-bridge', 'foundling', 'cinder-bridge', 'sallowfen', 'fennel-bridge'])
    it(`the wiring and the response of ${sample} can be read in both widths`, () => {
      const analysis = analysedSample(`${sample}.pickup`);
      for (const pickup of analysis.pickups) {
        const response = pickupResponsePicture({ analysis, pickup }, undefined, { t });
        for (const width of WIDTHS) {
          assertLegible(drawPickup(pickupPicture(analysis, pickup, t), width));
          if (response) assertLegibleDrawing(responsePlot(response, width));
        }
      }
    });

  for (const sample of ['quorl', 'larkspit', 'bramblewick'])
    it(`the schematic and the positions of ${sample} can be read in both widths`, () => {
      const analysis = analysedSample(`${sample}.pickup`);
      for (const instrument of analysis.instruments)
        for (const width of WIDTHS) {
          const live = instrument.instrument.positions.at(-1)?.key.value;
          assertLegibleDrawing(instrumentDiagram(instrumentPicture(analysis, instrument, { live, t }), width));
          const positions = positionsPicture(analysis, instrument, { live, t });
          if (positions) assertLegibleDrawing(positionsSheet(positions, width));
        }
    });

  it('the switches of yarrowby can be read in both widths', () => {
    const analysis = analysedSample('yarrowby.pickup');
    const [instrument] = analysis.instruments;
    const picture = instrument && switchPicture(analysis, instrument, '2', t);
    assert.ok(picture);
    for (const width of WIDTHS) assertLegibleDrawing(switchDiagram(picture, width));
  });
});
