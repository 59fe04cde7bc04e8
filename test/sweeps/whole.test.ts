/** A pickup that came closed: two coils of which nobody knows anything, swept between its leads; circuits solved by ngspice (test/physics/sweeps/README.md). */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { createAnalyser } from '../../server/src/analysis/analysis.ts';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import { diskHost, uriOf } from '../../server/src/cli/files.ts';
import { impedancePicture } from '../../server/src/documents/impedance-plot.ts';
import { pickupResponsePicture, positionResponsePicture } from '../../server/src/documents/response-plot/from-model.ts';
import { responsePlot } from '../../server/src/documents/response-plot/response-plot.ts';
import { causes } from '../../server/src/estimates/causes.ts';
import { positionPoints } from '../../server/src/estimates/position-points.ts';
import { BY_INDUCTANCE } from '../../server/src/estimates/sources.ts';
import { untoldWords } from '../../server/src/words/untold.ts';
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
  controls {
    volume 500 kohm audio
    tone 500 kohm audio with 22 nF
  }
  cable 4.5 m of 100 pF/m
  input 1 Mohm
  selector {
    1 bridge
    2 bridge.lower
    3 reversed bridge
  }
}

switch lever {
  row a1 a0 a2
  detent up joins a0 a1
  detent down joins a0 a2
}

instrument mole "Mole" {
  pickup bridge closed
  switch ways lever
  controls {
    volume 500 kohm audio
    tone 500 kohm audio with 22 nF
  }
  wiring {
    hot ways.a0
    link bridge.white ways.a1
    link bridge.blue bridge.red ways.a2
    ground bridge.black
  }
  cable 4.5 m of 100 pF/m
  input 1 Mohm
  selector {
    1 bridge, at ways up
    2 bridge.upper, at ways down
  }
}
`;

/** `times`: the load's impedance over the usual one; `other`: the pickup beside the closed one. */
const pair = (positions: string, times: number, other = 'twin') => `
instrument heath "Heath" {
  pickup bridge closed
  pickup neck ${other}
  controls {
    volume ${500 * times} kohm audio
    tone ${500 * times} kohm audio with ${22 / times} nF
  }
  cable 4.5 m of ${100 / times} pF/m
  input ${times} Mohm
  selector {
    ${positions}
  }
}
`;

function analysed(file: string, setUp: string, more: (closed: string) => string = () => '') {
  const [uri, curve] = ['closed.pickup', 'closed.csv'].map((name) => uriOf(path.join(SAMPLES, name)));
  const content = readFileSync(path.resolve(import.meta.dirname, '../physics/sweeps/curves', file), 'utf8');
  const host = diskHost(
    SAMPLES,
    new Map([
      [uri ?? '', `${text(setUp)}${more(text(setUp))}`],
      [curve ?? '', content],
    ]),
  );
  const analysis = createAnalyser().analyse(uri ?? '', host);
  return { analysis, pickup: analysis.pickups[0] ?? assert.fail() };
}

const text = (setUp: string) => spec(`sweep hot to ground "closed.csv" ${setUp}`);
/** The same pickup under another name. */
const twin = (closed: string) => closed.slice(0, closed.indexOf('instrument')).replace('pickup closed', 'pickup twin');

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

describe('a closed pickup that was swept as a whole', () => {
  it('has the resonance under the usual load that ngspice gives the same circuit, though no coil is known', () => {
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

  it('is drawn with its points', () => {
    const { analysis, pickup } = analysed('z-steel-poles.csv', 'impedance');
    const picture = pickupResponsePicture({ analysis, pickup }) ?? assert.fail();
    assert.equal(picture.before, undefined);
    assert.ok(picture.isOfWinding && picture.measured);
    for (const width of ['wide', 'narrow', 'slim'] as const) assertLegibleDrawing(responsePlot(picture, width));
    const { curve, points } = impedancePicture(pickup, quickOf(analysis.bench)) ?? assert.fail();
    assert.ok(curve.length > 100 && points.length > 10);
  });

  it('gives a position that takes it as it was swept what ngspice gives: in words, turned round and as it is soldered', () => {
    const { analysis } = analysed('z-steel-poles.csv', 'impedance');
    const [quay = assert.fail(), mole = assert.fail()] = analysis.instruments;
    const positions = quay.positions();
    for (const at of [positions[0], positions[2], mole.positions()[0]]) {
      const { key, resonanceHz, peakDb, levelDb, resistanceOhm, untold } = at ?? assert.fail();
      assert.ok(resonanceHz && peakDb && resistanceOhm, key);
      assert.ok(Math.abs(resonanceHz.value / loadedPeak.hz - 1) < 0.002, `${key}: ${resonanceHz.value}`);
      assert.ok(Math.abs(peakDb.value - loadedPeak.dbOver10Hz) < 0.05, `${key}: ${peakDb.value}`);
      assert.deepEqual(
        [resonanceHz.basis, peakDb.basis, levelDb, untold],
        ['reading', 'reading', undefined, undefined],
      );
    }
    const points = positionPoints(
      quay.instrument,
      quay.instrument.positions[0]?.selection ?? assert.fail(),
      quickOf(analysis.bench),
    );
    assert.ok(points && points.hz.length > 10);
  });

  it('is a branch of its own beside others: two alike in parallel are one under half the load, in series one under twice of it', () => {
    for (const [positions, times] of [
      ['1 bridge parallel neck', 0.5],
      ['1 bridge series neck', 2],
    ] as const) {
      const { analysis } = analysed(
        'z-steel-poles.csv',
        'impedance',
        (closed) => twin(closed) + pair(positions, times),
      );
      const heath = analysis.instruments.find(({ instrument: { name } }) => name === 'heath') ?? assert.fail();
      const { resonanceHz, peakDb, untold, response, levelDb } = heath.positions()[0] ?? assert.fail();
      assert.ok(resonanceHz && peakDb && response && untold === undefined && levelDb === undefined);
      // Thévenin's theorem; under the usual load of one that is what ngspice gives.
      assert.ok(Math.abs(resonanceHz.value / loadedPeak.hz - 1) < 0.002, `${positions}: ${resonanceHz.value}`);
      assert.ok(Math.abs(peakDb.value - loadedPeak.dbOver10Hz) < 0.05, `${positions}: ${peakDb.value}`);
      assert.ok(resonanceHz.basis === 'reading' && resonanceHz.restsOn.includes(BY_INDUCTANCE));
      const picture = positionResponsePicture({ analysis, instrument: heath }, '1') ?? assert.fail();
      assert.ok(picture.measured && picture.isOfWinding);
      for (const width of ['wide', 'slim'] as const) {
        const svg = responsePlot(picture, width);
        assertLegibleDrawing(svg);
        assert.match(svg, /How loud coils of unknown turns are/);
      }
    }
  });

  it('is as loud beside one of known turns as its inductance says, and that is told as unsure', () => {
    const known = `
pickup known "Known" {
  coil main {
    bobbin rod
    wire w
    turns 7_800
    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
wire w {
  gauge 42 AWG
  enamel plain
}
bobbin rod {
  core 60 x 5.8 mm
  window 11 x 5.2 mm
  poles 6 spread 50 mm
  pole rod alnico-5 4.8 x 16.5 mm
}
`;
    const more = () => known + pair('1 bridge series neck', 1, 'known');
    const { analysis } = analysed('z-steel-poles.csv', 'impedance', more);
    const heath = analysis.instruments.find(({ instrument: { name } }) => name === 'heath') ?? assert.fail();
    const { resonanceHz, peakDb } = heath.positions()[0] ?? assert.fail();
    assert.ok(resonanceHz && peakDb && resonanceHz.basis === 'computed');
    assert.ok(resonanceHz.restsOn.includes(BY_INDUCTANCE) && (resonanceHz.sources?.[causes.loudness] ?? 0) !== 0);
  });

  it('tells nothing of one of its coils, and says which sweep would', () => {
    const { analysis } = analysed('z-steel-poles.csv', 'impedance');
    const [quay = assert.fail(), mole = assert.fail()] = analysis.instruments;
    for (const [position, coil] of [
      [quay.positions()[1], 'lower'],
      [mole.positions()[1], 'upper'],
    ] as const) {
      assert.ok(position?.untold && position.resonanceHz === undefined);
      assert.equal(
        untoldWords(position.untold),
        `The sweep of all of bridge does not tell this: sweep ${coil}.start to ${coil}.finish.`,
      );
      // Half of what both have is a guess, and its ± is one.
      assert.ok(position.resistanceOhm && position.resistanceOhm.sd > 0.05 * position.resistanceOhm.value);
    }
  });

  it('has none where the sweep cannot tell it', () => {
    assert.equal(analysed('e-bare.csv', 'excited over 1 kohm').pickup.estimates().resonanceHz, undefined);
  });
});
