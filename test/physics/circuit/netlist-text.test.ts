import assert from 'node:assert/strict';
import { circuit, ground } from '../../../server/src/physics/circuit/circuit.ts';
import { networkOf } from '../../../server/src/physics/circuit/network.ts';
import { netlistText } from '../../support/netlist-text.ts';
import { ngspiceSweep } from '../../support/ngspice.ts';
import { capacitor, coil, coupling, potentiometer, resistor, wire } from '../../support/spice-components.ts';

const screw = coil({ name: 'bridge.screw', start: ground, finish: 'link', ohm: 4090, henry: 2.12, farad: 61e-12 });
const slug = coil({ name: 'bridge.slug', start: 'link', finish: 'hot', ohm: 4010, henry: 2.03 });
const example = circuit([
  screw,
  slug,
  coupling('bridge', screw, slug, 0.125),
  wire({ name: 'switch', from: 'hot', to: 'volume in' }),
  potentiometer({
    name: 'volume',
    high: 'volume in',
    wiper: 'out',
    low: ground,
    trackOhm: 5e5,
    taper: 'linear',
    rotation: 8,
  }),
  capacitor({ name: 'cable', from: 'out', to: ground, farad: 4.7e-10 }),
]);

describe('netlist text', () => {
  it('is SPICE, one element a line, with a title and the joined nodes under one name', () => {
    const { text, nodeName } = netlistText(example, 'two coils\nin series', { 'bridge.screw': 1, 'bridge.slug': -0.9 });
    assert.equal(nodeName('volume in'), 'hot');
    assert.equal(nodeName(ground), '0');
    assert.equal(nodeName('nowhere'), undefined);
    assert.equal(
      text,
      [
        '* two coils in series',
        'V_bridge_screw _bridge_screw__e 0 dc 0 ac 1',
        'L_bridge_screw _bridge_screw__e _bridge_screw__w 2.12',
        'R_bridge_screw _bridge_screw__w link 4090',
        'C_bridge_screw 0 link 6.1e-11',
        'V_bridge_slug _bridge_slug__e link dc 0 ac -0.9',
        'L_bridge_slug _bridge_slug__e _bridge_slug__w 2.03',
        'R_bridge_slug _bridge_slug__w hot 4010',
        'K_bridge L_bridge_screw L_bridge_slug 0.125',
        'R_volume__upper hot out 100000',
        'R_volume__lower out 0 400000',
        'C_cable out 0 4.7e-10',
        '.end',
        '',
      ].join('\n'),
    );
  });

  it('keeps apart what differs only in case, accents, or in letters SPICE does not take', () => {
    const names = ['Hot', 'hot', 'hot lead', 'hot-lead', 'gnd', '弦', '絃'];
    const { nodeName } = netlistText(
      circuit(names.map((name, index) => resistor({ name: `r ${index}`, from: name, to: ground, ohm: 1000 }))),
      'names',
    );
    const labels = names.map((name) => nodeName(name)?.toLowerCase());
    assert.equal(new Set([...labels, '0', 'gnd']).size, names.length + 2);
  });

  it('is the same text for the same circuit', () => {
    assert.equal(netlistText(example, 'again').text, netlistText(example, 'again').text);
    assert.equal(networkOf(example).sources.join(), 'bridge.screw,bridge.slug');
  });

  it('is what ngspice reads', () => {
    const { text } = netlistText(example, 'read', { 'bridge.screw': 1 });
    const sweep = ngspiceSweep(text, 'out', { pointsPerDecade: 10, fromHz: 100, toHz: 1000 });
    assert.equal(sweep.frequencyHz.length, 11);
    assert.ok(sweep.levelDb.every(Number.isFinite));
  });
});
