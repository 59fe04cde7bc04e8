/** A pickup that came closed: two coils of which nobody knows anything, swept between its leads; circuits solved by ngspice (test/physics/sweeps/README.md). */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { createAnalyser } from '../../server/src/analysis/analysis.ts';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import { diskHost, uriOf } from '../../server/src/cli/files.ts';
import { impedancePicture } from '../../server/src/documents/impedance-plot.ts';
import { pickupResponsePicture } from '../../server/src/documents/response-plot/from-model.ts';
import { responsePlot } from '../../server/src/documents/response-plot/response-plot.ts';
import { assertLegibleDrawing } from '../documents/plots/legible.ts';
import { SAMPLES } from '../support/sample-files.ts';
import { referenceCurves } from './reference-sweeps.ts';

const spec = (sweep: string) => `pickup closed "Closed, two leads" {
  coil upper {
    start black
    finish blue
  }
  coil lower {
    start red
    finish white
  }
  hookup {
    hot white
    link blue red
    ground black
  }
  readings "as received" {
    room 20 degC
    ${sweep}
  }
}

instrument quay "Quay" {
  pickup bridge closed
  selector {
    1 bridge
    2 bridge.lower
  }
}
`;

function analysed(file: string, setUp: string) {
  const [uri, curve] = ['closed.pickup', 'closed.csv'].map((name) => uriOf(path.join(SAMPLES, name)));
  const text = readFileSync(path.resolve(import.meta.dirname, '../physics/sweeps/curves', file), 'utf8');
  const host = diskHost(
    SAMPLES,
    new Map([
      [uri ?? '', spec(`sweep hot to ground "closed.csv" ${setUp}`)],
      [curve ?? '', text],
    ]),
  );
  const analysis = createAnalyser().analyse(uri ?? '', host);
  return { analysis, pickup: analysis.pickups[0] ?? assert.fail() };
}

describe('a closed pickup that was swept as a whole', () => {
  it('has the resonance under the usual load that ngspice gives the same circuit, though no coil is known', () => {
    const [reference = assert.fail()] = referenceCurves.filter(({ file }) => file.endsWith('z-steel-poles.csv'));
    const {
      inductanceH: henry,
      capacitanceF: farad,
      loadedPeak,
    } = reference.truth as unknown as {
      readonly inductanceH: number;
      readonly capacitanceF: number;
      readonly loadedPeak: { readonly hz: number; readonly dbOver10Hz: number };
    };
    const { pickup } = analysed('z-steel-poles.csv', 'impedance');
    const { inductanceH, capacitanceF, resonanceHz, peakDb, coils } = pickup.estimates();
    assert.ok(inductanceH && capacitanceF && resonanceHz && peakDb);
    assert.ok(Math.abs(inductanceH.value / henry - 1) < 0.005, `${inductanceH.value}`);
    assert.ok(Math.abs(capacitanceF.value / farad - 1) < 0.01, `${capacitanceF.value}`);
    assert.ok(Math.abs(resonanceHz.value / loadedPeak.hz - 1) < 0.002, `${resonanceHz.value}`);
    assert.ok(Math.abs(peakDb.value - loadedPeak.dbOver10Hz) < 0.05, `${peakDb.value}`);
    assert.ok(resonanceHz.basis === 'reading' && resonanceHz.sd > 1);
    // Pots of 20 % make most of the doubt, so that it is far above what the fit leaves.
    assert.ok(peakDb.sd > 0.1, `${peakDb.sd}`);
    for (const coil of ['upper', 'lower']) assert.equal(coils.get(coil)?.inductanceH, undefined);
  });

  it('is drawn with its points, and positions that need its coils stay unknown', () => {
    const { analysis, pickup } = analysed('z-steel-poles.csv', 'impedance');
    const picture = pickupResponsePicture({ analysis, pickup }) ?? assert.fail();
    assert.equal(picture.before, undefined);
    assert.ok(picture.isOfWinding && picture.measured);
    for (const width of ['wide', 'narrow', 'slim'] as const) assertLegibleDrawing(responsePlot(picture, width));
    const { curve, points } = impedancePicture(pickup, quickOf(analysis.bench)) ?? assert.fail();
    assert.ok(curve.length > 100 && points.length > 10);
    for (const { key, resonanceHz } of analysis.instruments[0]?.positions() ?? [])
      assert.equal(resonanceHz, undefined, key);
  });

  it('has none where the sweep cannot tell it', () => {
    assert.equal(analysed('e-bare.csv', 'excited over 1 kohm').pickup.estimates().resonanceHz, undefined);
  });
});
