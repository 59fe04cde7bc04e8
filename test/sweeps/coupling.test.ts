/** Two coils, each swept by itself and both in series: circuits solved by ngspice, each coil giving or taking 0.27 H (test/physics/sweeps/README.md). */
import assert from 'node:assert/strict';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import { pickupMagnetics } from '../../server/src/estimates/magnetics.ts';
import { sweptCoupling } from '../../server/src/estimates/sweep-coupling.ts';
import { analysedSample } from '../support/sample-files.ts';
import { referenceCurves } from './reference-sweeps.ts';

const SAMPLE = 'mistakes/reading-contradicts-sweep.pickup';
const truth = (file: string) => Number(referenceCurves.find((each) => each.file.includes(file))?.truth.mutualH);

function couplingOf(edit: (text: string) => string) {
  const analysis = analysedSample(SAMPLE, edit);
  const [{ pickup } = assert.fail()] = analysis.pickups;
  const quick = quickOf(analysis.bench)(pickup);
  const codes = analysis.allFindings().map(({ code }) => code);
  return { coupling: sweptCoupling(quick) ?? assert.fail(), quick, codes, pickup };
}

describe('two coils swept alone and in series', () => {
  it('give the mutual inductance of the circuit with its sign, within what is stated of it', () => {
    const { coupling } = couplingOf((text) => text);
    const { value, sd } = coupling.measured;
    assert.ok(Math.abs(value - 2 * truth('t-series-opposing')) < 2 * sd, `${value} ± ${sd}`);
    assert.ok(sd < 0.03 * Math.abs(value));
  });

  it('tell by it that one of them is joined the other way round', () => {
    const { codes, coupling } = couplingOf((text) => text);
    assert.ok(coupling.expectedH > 0);
    assert.ok(codes.includes('reading/contradicts'));
    // The same sweep of coils that are stated as they were swept says nothing.
    const stated = couplingOf((text) =>
      text.replace('hot grey', 'hot violet').replace('link orange violet', 'link orange grey'),
    );
    assert.ok(stated.coupling.expectedH < 0);
    assert.ok(!stated.codes.includes('reading/contradicts'));
  });
});

describe('the coupling of two coils', () => {
  it('is that of the sweeps wherever it is asked for', () => {
    const { quick, pickup } = couplingOf((text) =>
      text.replace('hot grey', 'hot violet').replace('link orange violet', 'link orange grey'),
    );
    const [a, b] = pickup.coils;
    assert.ok(a && b);
    const found = Math.abs(pickupMagnetics(quick).mutualSameSenseH(a, b));
    assert.ok(Math.abs(found - 0.27) < 0.01, `${found}`);
  });
});
