/** A reading replaces the estimate, and the estimate checks the reading; at whatever temperature; and what is not known stays unknown. */
import assert from 'node:assert/strict';
import { judgeReadings } from '../../server/src/estimates/expected-reading.ts';
import { inductanceMeter } from '../../server/src/estimates/inductance-meter.ts';
import { DEFAULT_BENCH } from '../../server/src/model/bench.ts';
import { ALONE, HUM_CANCELLING, pickupText } from '../support/shop.ts';
import { coilOf, known, near, pickupOf, quickOfText } from './spec-text.ts';

const single = (facts: string, readings = '', more = '') =>
  pickupText([{ coreMm: [63, 5.6], heightMm: 7.2, facts }], { hookup: ALONE, readings, facts: more });
const read = (lines: string) => `  readings "bench" {\n    ${lines}\n  }\n`;
const WOUND = '    packing 0.66\n    turns 5000';

describe('temperature', () => {
  it('a reading at 31 degC is kept at 20 degC: 4.18 kohm there is 4.007 kohm (copper 0.00393 per kelvin, IEC 60028)', () => {
    const ohm = known(coilOf(pickupOf(single(WOUND, read('c1 4.18 kohm at 31 degC')))).resistance20COhm);
    near(ohm.value, 4180 / (1 + 0.00393 * 11), 1e-12);
    assert.equal(ohm.basis, 'reading');
  });

  it('and compared at 31 degC with what the turns make there', () => {
    const quick = quickOfText(single(WOUND, read('c1 4.18 kohm at 31 degC')));
    const computed = known([...quick.windings.values()][0]?.computed20COhm);
    const [line] = judgeReadings(quick, undefined)[0]?.lines ?? [];
    near(known(line?.expected).value, computed.value * (1 + 0.00393 * 11), 1e-12);
    assert.equal(line?.temperature.celsius, 31);
  });

  it('a spool measured at 25 degC has 1.9 % less at 20 degC', () => {
    const shelf = (at: string) =>
      `wire r {\n  gauge 42 AWG\n  overall 0.07 mm\n}\nspool R1 {\n  wire r\n  measures 5.52 ohm/m${at}\n}\n`;
    const coil = (at: string) =>
      coilOf(
        pickupOf(
          pickupText([{ facts: '    spool R1\n    turns 5000' }], { hookup: ALONE, bench: shelf(at) }).replace(
            '    wire w1\n',
            '',
          ),
        ),
      );
    near(known(coil(' at 25 degC').ohmPerM20C).value, 5.52 / (1 + 0.00393 * 5), 1e-12);
    // Without its temperature it is known less well, and says so.
    assert.ok(known(coil('').ohmPerM20C).sd > known(coil(' at 20 degC').ohmPerM20C).sd);
    assert.match(known(coil('').ohmPerM20C).restsOn.join(), /at 20.°C, assumed/);
  });
});

describe('a spool', () => {
  it('replaces the table, and says what diameter that means', () => {
    const shelf =
      'wire r {\n  gauge 42 AWG\n  overall 0.07 mm\n}\nspool R1 {\n  wire r\n  measures 5.90 ohm/m at 20 degC\n}\n';
    const quick = quickOfText(
      pickupText([{ facts: '    spool R1\n    turns 5000' }], { hookup: ALONE, bench: shelf }).replace(
        '    wire w1\n',
        '',
      ),
    );
    const [winding] = [...quick.windings.values()];
    assert.equal(winding?.ohmPerM20C?.basis, 'reading');
    // d = √(4ρ/(π·5.90)), ρ = 1/58 ohm mm²/m (IEC 60028): 0.0610 mm, the thin end of 42 AWG.
    near(known(winding?.bareDiameterM).value, 0.061e-3, 1e-3);
    near(known(winding?.resistance20COhm).value, known(winding?.wireLengthM).value * 5.9, 1e-9);
  });
});

describe('a tapped coil', () => {
  const tapped = (readings = '') =>
    pickupText([{ coreMm: [63, 5.6], heightMm: 7.2, facts: `${WOUND}\n    tap 2_500 turns orange` }], {
      hookup: `${ALONE}\n    free orange`,
      readings,
    });

  it('has less than half of its wire in the inner half of its turns', () => {
    const { leadReadings } = pickupOf(tapped()).estimates();
    const between = (a: string, b: string) =>
      known(leadReadings.find(({ leads }) => leads.includes(a) && leads.includes(b))?.resistanceOhm, `${a} to ${b}`)
        .value;
    const [inner, outer, whole] = [between('a1', 'orange'), between('orange', 'b1'), between('a1', 'b1')];
    near(inner + outer, whole, 1e-12);
    // Build 4.05 mm: mean turns 125.9 and 138.7 mm long, 2 (57.4 mm) + 2π (2.8 mm + a quarter, three quarters of the build).
    const buildM = (5000 * Math.PI * 0.07e-3 ** 2) / 4 / (0.66 * 7.2e-3);
    const turn = (share: number) => 2 * 57.4e-3 + 2 * Math.PI * (2.8e-3 + share * buildM);
    near(inner / outer, turn(1 / 4) / turn(3 / 4), 1e-9);
  });

  it('has the inductance and the resonance of the same coil without a tap', () => {
    const [with_, without] = [pickupOf(tapped()).estimates(), pickupOf(single(WOUND)).estimates()];
    near(known(with_.inductanceH).value, known(without.inductanceH).value, 1e-9);
    near(known(with_.resonanceHz).value, known(without.resonanceHz).value, 1e-3);
  });
});

describe('inductance and capacitance as measured', () => {
  const pair = (readings: string) =>
    pickupText([{ facts: WOUND }, { facts: WOUND }], {
      hookup: HUM_CANCELLING,
      readings,
      facts: '  shield bare',
    }).replace('ground a1', 'ground a1 bare');

  it('stand in the place of the estimate, and move the resonance', () => {
    const [computed, measured] = ['', read('inductance hot to ground 3.2 H at 120 Hz\n    capacitance 160 pF')].map(
      (readings) => pickupOf(pair(readings)).estimates(),
    );
    assert.equal(measured?.capacitanceF?.basis, 'reading');
    assert.equal(measured?.inductanceH?.basis, 'reading');
    // A meter in series mode shows L − R²C, even at 120 Hz.
    const inSeries = 3.2 + known(measured?.resistance20COhm).value ** 2 * 160e-12;
    near(known(measured?.inductanceH).value, inSeries, 1e-3);
    // The load's 450 pF is beside both: f goes with 1/√(L (C + 450 pF)), but for damping.
    const ratio = Math.sqrt(
      (known(computed?.inductanceH).value * (known(computed?.capacitanceF).value + 450e-12)) /
        (inSeries * (160e-12 + 450e-12)),
    );
    near(known(measured?.resonanceHz).value / known(computed?.resonanceHz).value, ratio, 0.02);
  });

  it('at 1 kHz are brought to low frequency: L = L″/(1 + ω²L″C), L″ = L′ + R²C', () => {
    const estimates = pickupOf(
      pair(read('inductance hot to ground 3.2 H at 1 kHz\n    capacitance 160 pF')),
    ).estimates();
    const omega = 2 * Math.PI * 1000;
    const inSeries = 3.2 + known(estimates.resistance20COhm).value ** 2 * 160e-12;
    near(known(estimates.inductanceH).value, inSeries / (1 + omega ** 2 * inSeries * 160e-12), 1e-6);
  });

  it('and what a meter would show of the result at 1 kHz is what was read', () => {
    const quick = quickOfText(pair(read('inductance hot to ground 3.2 H at 1 kHz\n    capacitance 160 pF')));
    near(known(inductanceMeter(quick, undefined)?.at(1000)?.inductanceH).value, 3.2, 0.003);
  });
});

describe('the cable of the pickup itself', () => {
  const withCable = (facts: string, ground = 'ground a1') =>
    pickupOf(pickupText([{ facts: WOUND }], { hookup: ALONE.replace('ground a1', ground), facts })).estimates()
      .capacitanceF;

  it('is as stated: 0.5 m of 100 pF/m are 20 pF more than 0.3 m of it', () => {
    const [short, long] = [
      known(withCable('  cable 0.3 m of 100 pF/m')),
      known(withCable('  cable 0.5 m of 100 pF/m')),
    ];
    near(long.value - short.value, 20e-12, 1e-9);
  });

  it('is of the kind that shield and conductors say where nothing is stated, and says so', () => {
    const braid = known(withCable('  shield bare', 'ground a1 bare'));
    assert.match(braid.restsOn.join(), /its cable of 0\.33 m, assumed: one conductor in a braid, 90 to 127 pF\/m/);
    // 0.33 m of 108.5 pF/m against 0.33 m of a pair, 40 pF/m, by hand.
    near(braid.value - known(withCable('')).value, 0.33 * 68.5e-12, 1e-9);
  });
});

describe('what is not known', () => {
  it('of coils: what meters read of them from hot to ground is told all the same, with the doubt of unseen metal', () => {
    const closed = (line: string) =>
      pickupOf(
        single('', read(`hot to ground 7.9 kohm at 20 degC\n    capacitance 120 pF\n    ${line}`)).replace(
          / {4}(bobbin|wire) .*\n/g,
          '',
        ),
      ).estimates();
    const low = closed('inductance hot to ground 4.4 H at 120 Hz');
    near(known(low.capacitanceF).value, 120e-12, 1e-9);
    // L″ = L′ + R²C, L = L″/(1 + ω²L″C), by hand: 4.4062 H; no more than a thousandth of it is metal's at 120 Hz.
    near(known(low.inductanceH).value, 4.4062, 1e-3);
    const high = known(closed('inductance hot to ground 4.4 H at 1 kHz').inductanceH);
    // By hand 4.317 H where there is no metal; 5 % more where it is as much as under a cover.
    assert.ok(Math.abs(high.value - 4.317) < 2 * high.sd && Math.abs(high.value - 4.317 * 1.05) < 2 * high.sd);
    assert.equal(high.basis, 'reading');
  });

  it('without wire: turns as stated, resistance as read, everything else unknown', () => {
    const coil = coilOf(
      pickupOf(single('    turns 5000', read('c1 4.05 kohm at 20 degC')).replace('    wire w1\n', '')),
    );
    assert.equal(coil.turns?.value, 5000);
    assert.equal(coil.resistance20COhm?.value, 4050);
    assert.deepEqual(
      [coil.wireLengthM, coil.buildM, coil.inductanceH, coil.capacitanceF],
      [undefined, undefined, undefined, undefined],
    );
  });

  it('without turns and reading: no resistance, no resonance, nothing made up', () => {
    const estimates = pickupOf(single('')).estimates();
    assert.deepEqual(
      [estimates.resistance20COhm, estimates.inductanceH, estimates.resonanceHz, estimates.signalDb],
      [undefined, undefined, undefined, undefined],
    );
  });

  it('without a bench the usual room and meter are taken', () => {
    const ohm = known(coilOf(pickupOf(single(WOUND, read('c1 4.05 kohm')))).resistance20COhm);
    assert.match(ohm.restsOn.join(), new RegExp(`at the bench's ${DEFAULT_BENCH.roomC}.°C, assumed`));
  });
});
