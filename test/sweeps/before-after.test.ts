/** Two sweeps of one pickup: circuits solved by ngspice before and after potting, one recorder (test/physics/sweeps/README.md). */
import assert from 'node:assert/strict';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import { beforeAfterPicture } from '../../server/src/documents/response-plot/before-after.ts';
import { responsePlot, responseTable } from '../../server/src/documents/response-plot/response-plot.ts';
import { DEFAULT_LOAD } from '../../server/src/estimates/pickup-estimates.ts';
import { changesOf, sweptInBoth, sweptTwice } from '../../server/src/estimates/sweep-comparison.ts';
import { languageOf } from '../../server/src/words/languages/language.ts';
import { assertLegibleDrawing } from '../documents/plots/legible.ts';
import { analyse } from '../support/check-fixture.ts';
import { leftInEnglish } from '../support/left-in-english.ts';
import { referenceCurves } from './reference-sweeps.ts';

const spec = (...blocks: readonly string[]) => `bench {
  recorder input 1 Mohm with 150 pF ± 30 pF
}
pickup heron "Heron, bridge" {
  strings 6
  coil main { start black; finish white }
  hookup { hot white; ground black }
${blocks.map((lines, index) => `  readings "${index === 0 ? 'as wound' : 'after work'}" {\n    room 20 degC\n    ${lines}\n  }\n`).join('')}}
`;

const BARE = 'hot to ground 7.707 kohm; sweep hot to ground "sweeps/d-100k.csv" through 100 kohm';
const WAXED = 'hot to ground 7.725 kohm; sweep hot to ground "sweeps/f-waxed.csv" through 100 kohm';
const SHORTED = 'hot to ground 7.092 kohm; sweep hot to ground "sweeps/f-shorted-8.csv" through 100 kohm';

function quickFor(...blocks: readonly string[]) {
  const { pickups, bench } = analyse(spec(...blocks));
  const [{ pickup } = assert.fail()] = pickups;
  return { quick: quickOf(bench)(pickup), pickup };
}

function pictured(...blocks: readonly string[]) {
  const { quick, pickup } = quickFor(...blocks);
  const pair = sweptTwice(quick) ?? assert.fail();
  return { pair, picture: beforeAfterPicture(pair, pickup, DEFAULT_LOAD), pickup };
}

const truthOf = (file: string) =>
  (referenceCurves.find((each) => each.file === `curves/${file}.csv`)?.truth ?? assert.fail()) as {
    readonly loadedPeak: { readonly hz: number; readonly dbOver10Hz: number };
    readonly capacitanceF: number;
  };

describe('a pickup swept before and after some work', () => {
  it('tells the change of both better than either, the recorder being the same', () => {
    const { pair, picture } = pictured(BARE, WAXED);
    const { capacitanceF } = changesOf(pair);
    const [was, is] = [truthOf('d-100k'), truthOf('f-waxed')];
    assert.ok(capacitanceF && capacitanceF.sd < pair.swept.after.capacitanceF.sd / 8);
    assert.ok(Math.abs(capacitanceF.value - (is.capacitanceF - was.capacitanceF)) < 2 * capacitanceF.sd);
    const { now, before, measured } = picture;
    assert.ok(now.resonanceHz && before?.resonanceHz && measured?.strips[0]);
    // One resistor and one recorder served both: what neither reading tells, both together do.
    const { inductanceH } = changesOf(pair);
    assert.ok(Math.abs(inductanceH.value) < 2 * inductanceH.sd && inductanceH.sd < 0.001);
    // Behind 100 kohm neither peak is known to better than the recorder's capacitance; both move alike with it.
    assert.ok(Math.abs(now.resonanceHz.value - is.loadedPeak.hz) < 2 * now.resonanceHz.sd);
    assert.ok(Math.abs(before.resonanceHz.value - was.loadedPeak.hz) < 2 * before.resonanceHz.sd);
    const moved = now.resonanceHz.value - before.resonanceHz.value;
    assert.ok(Math.abs(moved - (is.loadedPeak.hz - was.loadedPeak.hz)) < 10, `${moved} Hz`);
    const doubt = Math.max(...measured.strips[0].offSd.slice(0, -40));
    assert.ok(doubt < Math.max(...now.band.levelSdDb) / 5, `${doubt} dB`);
  });

  it('says in words what has changed, and what does so', () => {
    const said = (...blocks: readonly string[]) =>
      (pictured(...blocks).picture.measured?.verdict ?? '').replaceAll('\u202F', ' ');
    assert.match(
      said(BARE, WAXED),
      /^Capacitance has risen by 5\d\.\d ± \d\.\d pF, as wax between the turns, more cable or metal beside the coil makes it\. Under this load they differ by up to [−+]\d/,
    );
    assert.match(said(WAXED, BARE), /^Capacitance has fallen by 5/);
    assert.match(said(BARE, BARE), /^Nothing has changed beyond what is known.* agree within what is known/);
    assert.match(
      said(BARE, SHORTED),
      /^Inductance and resistance have fallen together, as \d\.\d % fewer turns make them\..* Metal near the coil takes \d+\.\d+ ± \d\.\d+ % more of the inductance at 3 kHz, as a cover, a baseplate or shorted turns do/,
    );
  });

  it('is the same as rows, and is drawn without colour alone', () => {
    const { picture } = pictured(BARE, WAXED);
    const { columns, rows } = responseTable(picture);
    assert.deepEqual(columns, ['', 'as wound', 'after work', 'change']);
    assert.ok(rows.every((row) => row.length === columns.length));
    const cells = rows.map((row) => row.join(' | ').replaceAll('\u202F', ' '));
    assert.ok(
      cells.some((row) => /^inductance \| 3\.8\d.* H \| 3\.8\d.* H \| −?0\.\d ± 0\.\d mH$/.test(row)),
      cells.join('\n'),
    );
    assert.match(cells.find((row) => row.startsWith('5.000 kHz')) ?? cells.join('\n'), /−1\.\d/);
    for (const width of ['wide', 'narrow', 'slim'] as const) {
      const svg = responsePlot(picture, width);
      for (const part of ['sweep:points-before', 'sweep:points', 'sweep:change']) assert.ok(svg.includes(part));
      for (const name of ['as wound', 'after work'])
        assert.match(svg, new RegExp(`<tspan[^>]*>${name}: |>${name}: \\d[^<]*</t`), `${name}, ${width}`);
    }
    assertLegibleDrawing(responsePlot(picture, 'wide'));
    assertLegibleDrawing(responsePlot(picture, 'narrow'));
    const { pair, pickup } = pictured(BARE, WAXED);
    const german = beforeAfterPicture(pair, pickup, DEFAULT_LOAD, languageOf('de'));
    assert.deepEqual(
      leftInEnglish(
        responsePlot(german, 'narrow').replaceAll(/<style>[^<]*<.style>|<[^>]*>/g, ' | '),
        spec(BARE, WAXED),
      ),
      [],
    );
    assertLegibleDrawing(responsePlot(german, 'narrow'));
  });

  it('is told of two states of a text as of two readings of one, and of one curve that both rest on nothing', () => {
    const apart = sweptInBoth(quickFor(BARE).quick, quickFor(WAXED).quick) ?? assert.fail();
    const twice = pictured(BARE, WAXED).pair;
    assert.deepEqual(changesOf(apart).capacitanceF?.value, changesOf(twice).capacitanceF?.value);
    assert.equal(sweptInBoth(quickFor(BARE).quick, quickFor(BARE).quick), undefined);
    assert.equal(sweptTwice(quickFor(BARE).quick), undefined);
  });
});
