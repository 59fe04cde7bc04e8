import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { computedMagnetics } from '../../server/src/estimates/computed-magnetics.ts';
import { type CoilText, pickupText } from '../support/shop.ts';
import { drawnSpec } from '../sweeps/spec-coverage.ts';
import { sweptSpec } from '../sweeps/spec-sweeps.ts';
import { coilOf, known, pickupOf } from './spec-text.ts';

/** Whole pickups by their drawings, dimensions drawn 4,000 times outside this project; `lo` and `hi` hold 10 to 90 %. */
const { pickups: references } = JSON.parse(
  readFileSync(new URL('../physics/reference/capacitance.json', import.meta.url), 'utf8'),
) as { readonly pickups: readonly { readonly id: string; readonly name: string; lo_pF: number; hi_pF: number }[] };

const faradOf = (text: string) => {
  const { capacitanceF } = pickupOf(text).estimates();
  assert.ok(capacitanceF);
  return { pF: capacitanceF.value * 1e12, sd: capacitanceF.sd * 1e12, restsOn: capacitanceF.restsOn };
};

const WAX = '  potting {\n    wax paraffin 80 % beeswax 20 %\n    bath 63 degC\n    soak 20 min\n  }\n';
const single: CoilText = {
  coreMm: [63, 5.8],
  heightMm: 11,
  overallMm: 0.0711,
  pole: 'poles 6 spread 52 mm\n  pole rod alnico-5 4.8 x 17 mm',
  facts: '    turns 7600\n    packing 0.71',
};
const half: CoilText = {
  coreMm: [63, 6.4],
  heightMm: 7.2,
  overallMm: 0.0711,
  pole: 'poles 6 spread 52 mm\n  pole slug steel 4.8 x 12 mm',
  facts: '    turns 5000\n    packing 0.71',
};
const STARTS_OUTERMOST = '    hot a2\n    link b1 b2\n    ground a1 bare';
const STARTS_JOINED = '    hot b2\n    link a1 a2\n    ground b1 bare';
const one = (more: { readings?: string; facts?: string } = {}) =>
  pickupText([single], { hookup: '    hot b1\n    ground a1', ...more });
const two = (hookup: string, cover: string, potting = '') =>
  pickupText([half, half], {
    hookup,
    facts: `  shield bare\n  baseplate nickel-silver tied to bare\n  cover ${cover}\n  cable 0.33 m`,
    readings: potting,
  });

const foiled = (hookup: string) =>
  pickupText([{ ...single, facts: `${single.facts}\n    foil tied to sh` }], {
    hookup,
    facts: '  shield sh\n  cable 0.27 m pair',
  });

const TEXTS: Readonly<Record<string, string>> = {
  'p-02': foiled('    hot b1\n    ground a1 sh'),
  'p-00': one(),
  'p-07': one({ readings: WAX }),
  'p-04': two(STARTS_JOINED, 'none'),
  'p-05': two(STARTS_OUTERMOST, 'nickel-silver tied to bare'),
  'p-09': two(STARTS_OUTERMOST, 'none', WAX),
  'p-10': two(STARTS_JOINED, 'none', WAX),
  'p-12': two(STARTS_JOINED, 'nickel-silver tied to bare', WAX),
};

describe('capacitance of a whole pickup', () => {
  for (const { id, name, lo_pF, hi_pF } of references) {
    const text = TEXTS[id];
    if (text === undefined) continue;
    it(`${name}: within what drawn dimensions give, and its ± as wide`, () => {
      const { pF, sd } = faradOf(text);
      assert.ok(pF > lo_pF && pF < hi_pF, `${pF} pF, not ${lo_pF} to ${hi_pF}`);
      // 10 to 90 % of a normal distribution are 1.28 standard deviations on either side.
      const spread = (hi_pF - lo_pF) / 2 / 1.28;
      assert.ok(sd > 0.6 * spread && sd < 1.6 * spread, `± ${sd} against ${spread}`);
    });
  }

  it('counts the start to grounded poles by the square of its voltage', () => {
    const grounded = (hookup: string) =>
      faradOf(
        pickupText([{ ...single, coreMm: [63, 5.0] }], {
          hookup,
          facts: '  baseplate steel tied to sh\n  shield sh',
        }),
      ).pF;
    const startHot = grounded('    hot a1\n    ground b1 sh');
    const startGrounded = grounded('    hot b1\n    ground a1 sh');
    // 31 to 68 pF as laid on 0.1 mm of tape over the magnets (see the reference values).
    const counted = startHot - startGrounded;
    assert.ok(counted > 31 && counted < 68, `${counted} pF`);
  });

  it('counts foil by which end is hot: hundreds of picofarads at the outer one, nothing at the inner', () => {
    const outerHot = faradOf(foiled('    hot b1\n    ground a1 sh')).pF;
    const innerHot = faradOf(foiled('    hot a1\n    ground b1 sh')).pF;
    // 335 pF (260 to 455) by the reference values.
    assert.ok(outerHot - innerHot > 260 && outerHot - innerHot < 455, `${outerHot} and ${innerHot} pF`);
  });

  it('takes the kind of cable that is stated', () => {
    const cabled = (kind: string) => faradOf(one({ facts: `  cable 1 m ${kind}` })).pF;
    // The middles of 90 to 127 and of 30 to 50 pF/m.
    assert.ok(Math.abs(cabled('braid') - cabled('pair') - 68.5) < 1e-6);
  });

  it('lets a reading replace it all', () => {
    const { pF, restsOn } = faradOf(one({ readings: '  readings "bench" {\n    capacitance 131 pF\n  }\n' }));
    assert.ok(Math.abs(pF - 131) < 1e-9);
    assert.deepEqual(restsOn, ['reading 131 pF']);
  });

  it('takes what was read across one coil for its winding', () => {
    const text = (readings: string) => two(STARTS_JOINED, 'none', readings);
    const pickup = pickupOf(text('  readings apart "bench" {\n    capacitance a1 to b1 60 pF\n  }\n'));
    const [read, other] = ['c1', 'c2'].map((name) => known(coilOf(pickup, name).capacitanceF));
    assert.ok(read && other);
    assert.ok(Math.abs(read.value - 60e-12) < 1e-15 && read.basis === 'reading');
    const before = pickupOf(text(''));
    assert.equal(other.value, known(coilOf(before, 'c2').capacitanceF).value);
    // Of two like coils in series each counts by the square of its half of the voltage.
    const more = known(pickup.estimates().capacitanceF).value - known(before.estimates().capacitanceF).value;
    const winding = 60e-12 - known(coilOf(before, 'c1').capacitanceF).value;
    assert.ok(Math.abs(more - winding / 4) < 0.05 * Math.abs(winding), `${more}, ${winding / 4}`);
  });

  it('counts the turns of a pass where the machine is known', () => {
    const guided = (traverse: string) =>
      known(
        coilOf(
          pickupOf(
            pickupText([{ ...single, facts: `${single.facts}${traverse}` }], { hookup: '    hot b1\n    ground a1' }),
          ),
        ).capacitanceF,
      );
    // The closed form by hand: 11 mm at 0.1 mm are 110 turns of the 154.7 that stand side by side, against 60 of a guide of which
    // nobody says anything (5 % more): (1 + (110/154.7)²/3) (1 + 0.2 (154.7/770)²) over 1.05 (1 + (60/154.7)²/3) (1 + 0.2 (154.7/420)²).
    const outer = 10e-12 * known(coilOf(pickupOf(one())).meanTurnM).value;
    const ratio = (guided('\n    traverse 0.1 mm').value - outer) / (guided('').value - outer);
    assert.ok(Math.abs(ratio - (1.1685 * 1.0081) / (1.05 * 1.0501 * 1.0271)) < 2e-3, `${ratio}`);
  });

  it('is that of the circuit where unlike coils lie side by side, however the current parts between them', () => {
    // Against the solver of circuits, at 3 kHz: what all capacitances add to the susceptance there.
    for (const seed of [2, 4]) {
      const { truth, capacitanceOf } = sweptSpec(drawnSpec('in parallel', seed), seed);
      const { capacitanceF } = computedMagnetics(truth);
      const whole = capacitanceOf(2);
      assert.ok(Math.abs(known(capacitanceF).value / whole - 1) < 1e-4, `${capacitanceF?.value}, ${whole}`);
    }
  });
});
