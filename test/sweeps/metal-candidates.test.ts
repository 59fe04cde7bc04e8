/**
 * Other metal than stated, found by what it takes. The curves are written down by formula from a coil whose metal is known: a coil of
 * 7.2 kohm and 3.4 H with the shorted turns that its cover computes to.
 */
import assert from 'node:assert/strict';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import { computedMagnetics } from '../../server/src/estimates/computed-magnetics.ts';
import { metalCandidates } from '../../server/src/estimates/metal-candidates.ts';
import { newestSwept } from '../../server/src/estimates/sweep-diagnosis.ts';
import { analyse } from '../support/check-fixture.ts';

const spec = (metal: string, sweep = '') => `wire poly-42 { gauge 42 AWG; overall 0.070 mm }
bobbin rod-six {
  core 60.0 x 5.8 mm; window 12.0 x 6.0 mm
  poles 6 spread 50.0 mm; pole rod alnico-5 4.8 x 17.5 mm
  plastic fibre
}
pickup heron "Heron, bridge" {
  coil main {
    bobbin rod-six; wire poly-42; turns 7_700
    wound clockwise; polarity north-up; start black; finish white
  }
  ${metal}
  hookup { hot white; ground black }
  readings "as wound" {
    room 20 degC
    ${sweep}
  }
}
`;

/** As a meter's table: R + jωL (1 − Σ k² jx/(1 + jx)), x = f/corner, beside 110 pF. */
function curveWith(metal: string): string {
  const { pickups, bench } = analyse(spec(metal));
  const [{ pickup } = assert.fail()] = pickups;
  const [coil = assert.fail()] = pickup.coils;
  const loops = computedMagnetics(quickOf(bench)(pickup))
    .eddies()
    .turns.map(({ cornerHz, beside }) => ({ cornerHz, square: (beside.get(coil)?.coupling ?? 0) ** 2 }));
  const rows = Array.from({ length: 200 }, (_, index) => {
    const hz = 20 * 1000 ** (index / 199);
    const omega = 2 * Math.PI * hz;
    let [re, im] = [1, 0];
    for (const { cornerHz, square } of loops) {
      const x = hz / cornerHz;
      re -= (square * x * x) / (1 + x * x);
      im -= (square * x) / (1 + x * x);
    }
    const [zRe, zIm] = [7200 - omega * 3.4 * im, omega * 3.4 * re];
    const size = zRe * zRe + zIm * zIm;
    const [yRe, yIm] = [zRe / size, -zIm / size + omega * 110e-12];
    const square = yRe * yRe + yIm * yIm;
    // Scatter of 0.05 % that goes up and down.
    const by = 1 + 5e-4 * Math.sin(12.9898 * index * index);
    return `${hz},${(by * yRe) / square},${(-by * yIm) / square}`;
  });
  return `frequency Hz,resistance ohm,reactance ohm\n${rows.join('\n')}\n`;
}

const SWEEP = 'sweep hot to ground "sweeps/made.csv" impedance accuracy 0.1 %';
const sweptWith = (really: string, stated: string) =>
  analyse(spec(stated, SWEEP), { 'sweeps/made.csv': curveWith(really) });

function candidatesOf(really: string, stated: string): readonly string[] {
  const { pickups, bench } = sweptWith(really, stated);
  const [{ pickup } = assert.fail()] = pickups;
  const quick = quickOf(bench)(pickup);
  const [swept] = newestSwept(quick);
  assert.ok(swept?.kind === 'coil');
  return metalCandidates(swept, quick).map(({ part, material = 'none' }) => `${part} ${material}`);
}

describe('metal that a sweep shows', () => {
  it('is among what is told, and what it cannot be is not', () => {
    const brass = candidatesOf('cover brass 0.5 mm', '');
    assert.equal(brass[0], 'cover brass', brass.join());
    assert.ok(!brass.includes('cover nickel-silver') && !brass.includes('cover none'));
    const copper = candidatesOf('baseplate copper 0.5 mm', '');
    assert.ok(copper.slice(0, 3).includes('baseplate copper'), copper.join());
    assert.ok(candidatesOf('', 'cover brass 0.5 mm').slice(0, 3).includes('cover none'));
  });

  it('is told with the finding', () => {
    const finding = sweptWith('cover brass 0.5 mm', 'cover none')
      .allFindings()
      .find(({ code }) => code === 'sweep/losses');
    assert.match(finding?.message ?? '', /It would fit a cover of brass, 0\.5 mm/);
  });
});
