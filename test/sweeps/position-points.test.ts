/**
 * Points of sweeps in the positions of an instrument. Two alike pickups in parallel under a load are one under half of it (twice the
 * resistances, half the capacitances), in series one under twice of it: Thévenin's theorem.
 */
import assert from 'node:assert/strict';
import { positionResponsePicture } from '../../server/src/documents/response-plot/from-model.ts';
import { levelAt } from '../../server/src/documents/response-plot/measured.ts';
import { responsePlot, responseTable } from '../../server/src/documents/response-plot/response-plot.ts';
import { assertLegibleDrawing } from '../documents/plots/legible.ts';
import { analysedSample } from '../support/sample-files.ts';

/** `times`: the load's impedance over that of the plain one. */
function instrument(positions: string, times = 1, wiring = ''): string {
  return `
pickup yarrow-neck "Yarrow, neck" like yarrow-bridge {
  serial RYD-053
  readings "after potting" 2026-10-06 {
    room 22 degC
    hot to ground 6.23 kohm
    sweep hot to ground "sweeps/yarrow-potted.csv" over 10 kohm
  }
}
instrument yarrow "Yarrow" {
  strings 6
  pickup neck yarrow-neck
  pickup bridge yarrow-bridge
  controls {
    volume ${250 * times} kohm audio
    tone ${500 * times} kohm audio with ${22 / times} nF
  }
  cable 4.5 m of ${100 / times} pF/m
  input ${times} Mohm
${wiring}  selector {
    ${positions}
  }
}
`;
}

function pictureOf(positions: string, times?: number, edit: (text: string) => string = (text) => text, wiring = '') {
  const analysis = analysedSample('yarrow-bridge.pickup', (text) =>
    edit(text.replace(/# expect.*\n/g, '') + instrument(positions, times, wiring)),
  );
  const [made = assert.fail()] = analysis.instruments;
  return positionResponsePicture({ analysis, instrument: made }, '1') ?? assert.fail();
}

function offOf(positions: string, times?: number, wiring?: string): readonly number[] {
  const { measured, now } = pictureOf(positions, times, undefined, wiring);
  const { hz, levelDb } = measured?.points ?? assert.fail(positions);
  return hz.map((each, index) => (levelDb[index] ?? Number.NaN) - levelAt(now.band, each));
}

const furthest = (a: readonly number[], b: readonly number[]) =>
  Math.max(...a.map((each, index) => Math.abs(each - (b[index] ?? Number.NaN))));

describe('the points of sweeps in a position', () => {
  it('lie on the curve, as far off as those of the pickup under that load', () => {
    const off = offOf('1 bridge');
    assert.ok(off.length > 100);
    // What is left of the points is 0.06 %, and near the peak some times that.
    assert.ok(Math.max(...off.map(Math.abs)) < 0.05 && Math.max(...off.map(Math.abs)) > 0.005);
  });

  it('are of all pickups that sound, as the circuit has them', () => {
    assert.ok(furthest(offOf('1 bridge parallel neck'), offOf('1 bridge', 2)) < 1e-3);
    assert.ok(furthest(offOf('1 bridge series neck'), offOf('1 bridge', 0.5)) < 1e-3);
    // Turned round, a pickup that is like another takes nothing but the sign along.
    assert.ok(furthest(offOf('1 reversed bridge'), offOf('1 bridge')) < 1e-3);
  });

  it('are the same where the position is solved by what is soldered', () => {
    const soldered = (...lines: readonly string[]) =>
      `  wiring {\n${lines.map((line) => `    ${line}\n`).join('')}  }\n`;
    const beside = soldered('hot bridge.black neck.black', 'ground bridge.white neck.white');
    assert.ok(furthest(offOf('1 bridge parallel neck', 1, beside), offOf('1 bridge parallel neck')) < 1e-9);
    const row = soldered('hot bridge.black', 'link bridge.white neck.black', 'ground neck.white');
    assert.ok(furthest(offOf('1 bridge series neck', 1, row), offOf('1 bridge series neck')) < 1e-9);
  });

  it('leave a strip of what the fits leave at the jack, as wide as the points scatter, in level and phase', () => {
    const { measured, description } = pictureOf('1 bridge');
    const [level = assert.fail(), phase = assert.fail()] = measured?.strips ?? assert.fail();
    assert.deepEqual([level.unit, phase.unit], ['dB', '°']);
    for (const { off, offSd } of [level, phase]) {
      // Chance alone leaves 95 % within two deviations (JCGM 100:2008, G.1.3), 91 to 99 % of so many points.
      const within = off.filter((each, index) => Math.abs(each) < 2 * (offSd[index] ?? 0)).length / off.length;
      assert.ok(within > 0.9 && within < 0.995, `${within}`);
    }
    assert.match(description, /The circuit holds/);
    // Of two of which each has its own points, both scatter.
    const both = pictureOf('1 bridge parallel neck').measured?.strips[0] ?? assert.fail();
    const middle = (values: readonly number[]) => values[40] ?? Number.NaN;
    const alone = pictureOf('1 bridge', 2).measured?.strips[0] ?? assert.fail();
    assert.ok(Math.abs(middle(both.offSd) / middle(alone.offSd) - Math.SQRT1_2) < 0.01);
  });

  it('are of every coil, where all of them were swept and the whole was not', () => {
    const played = instrument('1 heron')
      .replace(/[\s\S]*(?=instrument)/, '')
      .replace(/ +pickup neck.*\n/, '');
    const measuredOf = (edit: (text: string) => string) => {
      const analysis = analysedSample('mistakes/reading-contradicts-sweep.pickup', (text) =>
        edit(text + played.replace('pickup bridge yarrow-bridge', 'pickup heron heron')),
      );
      const [made = assert.fail()] = analysis.instruments;
      return positionResponsePicture({ analysis, instrument: made }, '1')?.measured;
    };
    const apart = (text: string) => text.replace(/ +sweep hot.*\n/, '');
    const [whole, coils] = [measuredOf((text) => text), measuredOf(apart)];
    assert.match(whole?.verdict ?? '', /^Points: as measured \(sweeps\/t-series-opposing\.csv\)/);
    assert.match(coils?.verdict ?? '', /^Points: as measured \(sweeps\/t-screw\.csv, sweeps\/t-slug\.csv\)/);
    const { off = [] } = coils?.strips[0] ?? {};
    assert.ok(off.length > 100 && Math.max(...off.map(Math.abs)) < 0.1, `${Math.max(...off.map(Math.abs))}`);
    assert.equal(
      measuredOf((text) => apart(text).replace(/ +sweep slug.*\n/, '')),
      undefined,
    );
  });

  it('are not there where something sounds that was not swept', () => {
    const isSwept = (positions: string, edit?: (text: string) => string) => pictureOf(positions, 1, edit).measured;
    const oneOnly = (text: string) => text.replace(/(like yarrow-bridge[^}]*)sweep .*\n/, '$1\n');
    assert.ok(isSwept('1 bridge', oneOnly));
    assert.equal(isSwept('1 neck', oneOnly), undefined);
    assert.equal(isSwept('1 bridge parallel neck', oneOnly), undefined);
  });

  it('are drawn, and named in the table', () => {
    const picture = pictureOf('1 bridge parallel neck');
    assert.match(responsePlot(picture, 'wide'), /data-part="sweep:points"/);
    for (const width of ['wide', 'narrow'] as const) assertLegibleDrawing(responsePlot(picture, width));
    const { rows } = responseTable(picture);
    assert.match(rows[0]?.join(' ') ?? '', /as measured \(sweeps\/yarrow-potted\.csv\)/);
  });
});
