/** What was measured by a sweep stands in the place of what is computed. The sample's curve is invented: 2.53 H, 74 pF, then 117 pF by the wax. */
import assert from 'node:assert/strict';
import { hover } from '../../server/src/features/hover.ts';
import { toPlainText } from '../../server/src/features/rich-text.ts';
import { analysedSample } from '../support/sample-files.ts';

const SAMPLE = 'yarrow-bridge.pickup';

function numbersOf(edit: (text: string) => string) {
  const [pickup = assert.fail()] = analysedSample(SAMPLE, edit).pickups;
  const { inductanceH, capacitanceF, resonanceHz } = pickup.estimates();
  assert.ok(inductanceH && capacitanceF && resonanceHz);
  return { inductanceH, capacitanceF, resonanceHz };
}

const line = (name: string) => new RegExp(`.*${name}.*\\n`);

describe('a measured sweep', () => {
  it('gives the numbers of its pickup, the newest before the others', () => {
    const { inductanceH, capacitanceF, resonanceHz } = numbersOf((text) => text);
    assert.equal(inductanceH.basis, 'reading');
    assert.deepEqual(inductanceH.restsOn, ['sweep sweeps/yarrow-potted.csv over 10 kohm, 2026-10-06']);
    assert.ok(Math.abs(inductanceH.value - 2.53) < 2 * inductanceH.sd, `${inductanceH.value} ± ${inductanceH.sd}`);
    assert.ok(Math.abs(capacitanceF.value - 117e-12) < 2 * capacitanceF.sd, `${capacitanceF.value}`);
    const before = numbersOf((text) => text.replace(line('yarrow-potted'), ''));
    assert.ok(
      Math.abs(before.capacitanceF.value - 74e-12) < 2 * before.capacitanceF.sd,
      `${before.capacitanceF.value}`,
    );
    const computed = numbersOf((text) => text.replaceAll(/.*yarrow-\w+\.csv.*\n/g, ''));
    assert.equal(computed.inductanceH.basis, 'computed');
    assert.ok(resonanceHz.sd < computed.resonanceHz.sd / 3, 'the resonance is known better');
    assert.ok(before.resonanceHz.value > resonanceHz.value, 'wax lowers it');
  });

  it('of another state, or of a circuit that it could not tell, is not used', () => {
    const found = numbersOf((text) => text.replaceAll('readings "', 'readings found "'));
    assert.equal(found.inductanceH.basis, 'computed');
    // By an exciter alone, the shape of the resonance is one number fewer.
    const excited = numbersOf((text) => text.replaceAll('over 10 kohm', 'excited over 10 kohm'));
    assert.equal(excited.inductanceH.basis, 'computed');
  });

  it('counts before a line of the same, and is what a position of an instrument plays with', () => {
    const { inductanceH } = numbersOf((text) =>
      text.replace('room 22 degC', 'room 22 degC\n    inductance hot to ground 2.6 H at 1 kHz'),
    );
    assert.ok(Math.abs(inductanceH.value - 2.53) < 0.02);
    const played = (edit: (text: string) => string) => {
      const instrument =
        '\ninstrument yarrow "Yarrow" {\n  pickup bridge yarrow-bridge\n  cable 4.5 m of 100 pF/m ± 1 %\n  controls {\n    volume 250 kohm audio\n  }\n  selector {\n    1 bridge\n  }\n}\n';
      const [made = assert.fail()] = analysedSample(SAMPLE, (text) => edit(text) + instrument).instruments;
      const { resonanceHz } = made.positions()[0] ?? assert.fail();
      return resonanceHz ?? assert.fail();
    };
    const measured = played((text) => text);
    const computed = played((text) => text.replaceAll(/.*yarrow-\w+\.csv.*\n/g, ''));
    assert.ok(measured.sd < 0.7 * computed.sd, `${measured.sd} against ${computed.sd}`);
  });

  it('tells of a coil whose turns and bobbin nobody knows as much as of a known one', () => {
    const unknown = (text: string) => text.replaceAll(/^ +(bobbin|wire|turns|packing|wound|polarity) .*\n/gm, '');
    const { inductanceH, capacitanceF, resonanceHz } = numbersOf(unknown);
    const known = numbersOf((text) => text);
    assert.equal(inductanceH.value, known.inductanceH.value);
    assert.ok(Math.abs(capacitanceF.value / known.capacitanceF.value - 1) < 1e-9);
    // What metal takes from the string's field is all that is left to be computed.
    assert.ok(Math.abs(resonanceHz.value / known.resonanceHz.value - 1) < 0.005, `${resonanceHz.value}`);
    const [pickup = assert.fail()] = analysedSample(SAMPLE, unknown).pickups;
    assert.equal(pickup.estimates().coils.get('main')?.inductanceAirH, undefined);
  });

  it('gives the resistance where no meter read it, and turns that follow from that', () => {
    const withoutMeter = (text: string) => text.replaceAll(/^ +hot to ground .*\n/gm, '');
    const pickupOf = (edit: (text: string) => string) => analysedSample(SAMPLE, edit).pickups[0] ?? assert.fail();
    // The curve's circuit has 6.173 kohm at 20 degC, and the resistor is one of 1 %.
    const { resistance20COhm } = pickupOf(withoutMeter).estimates();
    assert.ok(resistance20COhm && Math.abs(resistance20COhm.value - 6173) < 2 * resistance20COhm.sd);
    assert.equal(resistance20COhm.basis, 'reading');
    assert.match(resistance20COhm.restsOn.join(), /low end of the sweep sweeps\/yarrow-potted\.csv at 22 degC/);
    assert.ok(resistance20COhm.sd > 30 && resistance20COhm.sd < 100, `${resistance20COhm.sd}`);
    const turns = (edit: (text: string) => string) =>
      pickupOf((text) => edit(text).replace(/ +turns .*\n/, ''))
        .estimates()
        .coils.get('main')?.turns;
    const [bySweep, byMeter] = [turns(withoutMeter), turns((text) => text)];
    assert.ok(bySweep && byMeter && Math.abs(bySweep.value / byMeter.value - 1) < 0.02);
    // Of a coil of which nobody knows more than its sweep, the response is known all the same.
    const bare = pickupOf((text) =>
      withoutMeter(text).replaceAll(/^ +(bobbin|wire|turns|packing|wound|polarity) .*\n/gm, ''),
    );
    assert.ok(bare.estimates().resonanceHz);
  });

  it('shows at its line what it measured beside what is computed', () => {
    const analysis = analysedSample(SAMPLE);
    const shown = hover(analysis, analysis.text.indexOf('sweeps/yarrow-potted'));
    const text = toPlainText(shown?.text ?? []).replaceAll('\u202F', ' ');
    assert.match(text, /inductance.*2\.526 ± 0\.009 H/);
    assert.match(text, /computed 2\.46 ± 0\.09 H, 0\.\d deviations apart/);
    assert.match(text, /The circuit holds/);
  });
});
