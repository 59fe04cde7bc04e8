import assert from 'node:assert/strict';
import { type Component, circuit, ground } from '../../../server/src/physics/circuit/circuit.ts';
import { resistanceBetween } from '../../../server/src/physics/circuit/dc.ts';
import { networkOf } from '../../../server/src/physics/circuit/network.ts';
import { responseFigures, responseOf } from '../../../server/src/physics/circuit/response.ts';
import { uniform } from '../../support/chance.ts';
import { examples } from '../../support/example-circuits.ts';
import { netlistText } from '../../support/netlist-text.ts';
import { ngspiceOperatingPoint, ngspiceSweep } from '../../support/ngspice.ts';
import { currentSource, inductor, resistor } from '../../support/spice-components.ts';

describe('circuit against ngspice: response', () => {
  for (const { title, circuit, values, output } of examples) {
    it(title, () => {
      const network = networkOf(circuit);
      const { text, nodeName } = netlistText(circuit, title, values);
      const node = nodeName(output);
      assert.ok(node !== undefined);
      const sweep = ngspiceSweep(text, node, { pointsPerDecade: 1000, fromHz: 10, toHz: 100_000 });

      const ours = responseOf(network, output, values, sweep.frequencyHz);
      assert.ok(typeof ours === 'object');
      sweep.frequencyHz.forEach((hz, index) => {
        if (hz > 20_000) return;
        const difference = Math.abs((ours.levelDb[index] ?? 0) - (sweep.levelDb[index] ?? Number.NaN));
        assert.ok(difference < 0.02, `${difference} dB apart at ${hz} Hz`);
      });

      const figures = responseFigures(network, output, values);
      assert.ok(typeof figures === 'object');
      const peakHz = highestHz(sweep);
      if (peakHz === null) assert.equal(figures.peakHz, null);
      else {
        const relative = Math.abs((figures.peakHz ?? Number.NaN) / peakHz - 1);
        assert.ok(relative < 1e-3, `ours peaks at ${figures.peakHz} Hz, ngspice at ${peakHz} Hz`);
      }
    });
  }
});

/** The highest point between 200 Hz and 100 kHz, on ngspice's own grid by the parabola through its neighbours. */
function highestHz({ frequencyHz, levelDb }: { frequencyHz: Float64Array; levelDb: Float64Array }): number | null {
  const low = levelDb[0] ?? 0;
  const first = frequencyHz.findIndex((hz) => hz >= 200);
  let best = first;
  for (let index = first; index < levelDb.length; index++)
    if ((levelDb[index] ?? 0) > (levelDb[best] ?? 0)) best = index;
  const [before, top, after] = [levelDb[best - 1], levelDb[best], levelDb[best + 1]];
  if (best === first || before === undefined || top === undefined || after === undefined) return null;
  if (top - low < 0.01) return null;
  const shift = (before - after) / (2 * (before - 2 * top + after));
  const step = (frequencyHz[best + 1] ?? Number.NaN) / (frequencyHz[best] ?? Number.NaN);
  return (frequencyHz[best] ?? Number.NaN) * step ** shift;
}

describe('circuit against ngspice: resistance of random networks', () => {
  for (let seed = 1; seed <= 12; seed++)
    it(`network ${seed}`, () => {
      const components = randomLadder(seed);
      const measured = circuit([...components, currentSource({ name: 'meter', from: ground, to: 'red' })]);
      const { text, nodeName } = netlistText(measured, `network ${seed}`);
      const node = nodeName('red');
      assert.ok(node !== undefined);
      const [spiceOhm = Number.NaN] = ngspiceOperatingPoint(text.replace(/^(I_meter .*)dc 0/m, '$1dc 1'), [node]);
      const ours = resistanceBetween(networkOf(circuit(components)), 'red', ground);
      assert.ok(ours !== null);
      assert.ok(Math.abs(ours / spiceOhm - 1) < 1e-8, `ours ${ours}, ngspice ${spiceOhm}`);
    });
});

/** Branches between red probe and ground, each split again in series or in parallel: resistors and coils. */
function randomLadder(seed: number): Component[] {
  const random = uniform(seed);
  const components: Component[] = [];
  const part = (from: string, to: string, depth: number): void => {
    const name = `r${components.length}`;
    if (depth === 0 || random() < 0.2) {
      const ohm = 10 ** (1 + 5 * random());
      components.push(
        random() < 0.5
          ? resistor({ name, from, to, ohm })
          : inductor({ name, from, to, ohm, henry: 0.5 + 4 * random() }),
      );
      return;
    }
    const middle = `n${components.length}-${depth}`;
    const series = random() < 0.5;
    part(from, series ? middle : to, depth - 1);
    part(series ? middle : from, to, depth - 1);
  };
  part('red', ground, 4);
  return components;
}
