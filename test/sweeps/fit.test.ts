/** The fit against curves whose truth is known: circuits solved by ngspice (test/physics/sweeps/README.md). */
import assert from 'node:assert/strict';
import { fitSweeps } from '../../server/src/physics/sweep/sweep-fit.ts';
import { capacitanceAlone } from '../../server/src/physics/sweep/sweep-start.ts';
import { judged } from './judge.ts';
import { figuresOf, recorderFigures, referenceCurves, sweepsFor } from './reference-sweeps.ts';

describe('the fit of a sweep', () => {
  let values = 0;
  let near = 0;
  const curves = referenceCurves.filter(({ fault }) => fault !== 'open');
  for (const entry of curves)
    it(`${entry.file} lies as near to the truth as it can, and says how near`, () => {
      const sweeps = sweepsFor(entry);
      const fit = fitSweeps(sweeps);
      assert.ok(fit);
      const figures = entry.setup.kind === 'alone' ? recorderFigures(fit, sweeps) : figuresOf(fit);
      // An exciter by itself states neither; the numbers of a pickup leave them out as well.
      const isOneExciter = entry.setup.kind === 'exciter' && sweeps.curves.length === 1;
      const stated = isOneExciter ? { ...figures, inductanceH: undefined, capacitanceF: undefined } : figures;
      const verdict = judged(entry, stated);
      assert.deepEqual(verdict.faults, []);
      values += verdict.values;
      near += verdict.near;
      const ratio = fit.rest / fit.scatter;
      assert.ok(ratio < 1.5, `rest is ${ratio} times the scatter`);
    });

  it('lies within two stated deviations nine times of ten', () => {
    assert.ok(values > 180 && near / values > 0.9, `${near} of ${values}`);
  });

  it('tells a broken coil by what is left: a capacitance', () => {
    const entry = referenceCurves.find(({ fault }) => fault === 'open') ?? assert.fail();
    const sweeps = sweepsFor(entry);
    const [curve = assert.fail()] = sweeps.curves;
    const { farad } = capacitanceAlone(curve, sweeps.recorder) ?? assert.fail();
    // The winding's share and the recorder's own, which is known to 30 pF.
    assert.ok(Math.abs(farad - Number(entry.truth.capacitanceF)) < 3 * 30e-12, `${farad}`);
    for (const other of curves.slice(0, 8)) {
      const [first = assert.fail()] = sweepsFor(other).curves;
      assert.equal(capacitanceAlone(first, sweeps.recorder), undefined, other.file);
    }
  });
});
