/** A sweep in the response plot. */
import assert from 'node:assert/strict';
import { given } from '../../grammar/values/present.ts';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import { impedancePicture, impedancePlot } from '../../server/src/documents/impedance-plot.ts';
import { pickupResponsePicture } from '../../server/src/documents/response-plot/from-model.ts';
import { levelAt, type NumberRow } from '../../server/src/documents/response-plot/measured.ts';
import {
  type ResponsePicture,
  responsePlot,
  responseTable,
} from '../../server/src/documents/response-plot/response-plot.ts';
import { type Language, languageOf } from '../../server/src/words/languages/language.ts';
import { assertLegibleDrawing } from '../documents/plots/legible.ts';
import { textsOf } from '../documents/svg-reading.ts';
import { analysedSample } from '../support/sample-files.ts';

const SAMPLE = 'yarrow-bridge.pickup';

function pictureOf(edit: (text: string) => string = (text) => text, cableF?: number, t?: Language): ResponsePicture {
  const analysis = analysedSample(SAMPLE, edit);
  const [pickup = assert.fail()] = analysis.pickups;
  return pickupResponsePicture({ analysis, pickup, cableF }, undefined, given({ t })) ?? assert.fail();
}

/** With rows that are called by a sentence. */
function longNamed(picture: ResponsePicture): ResponsePicture {
  const { numbers, ...measured } = picture.measured ?? assert.fail();
  const rows = (numbers?.rows ?? []).map(
    ([, ...rest]): NumberRow => ['what all of this metal takes at 3 kHz', ...rest],
  );
  return { ...picture, measured: { ...measured, ...given({ numbers: numbers && { ...numbers, rows } }) } };
}

describe('the plot of a sweep', () => {
  it('has its points on the curve, under whatever load', () => {
    for (const cableF of [undefined, 1e-9]) {
      const { measured, now } = pictureOf(undefined, cableF);
      const { hz: points, levelDb } = measured?.points ?? assert.fail();
      assert.ok(points.length > 100);
      // What is left of the points is 0.06 %, and near the peak some times that.
      points.forEach((hz, index) => {
        const off = (levelDb[index] ?? Number.NaN) - levelAt(now.band, hz);
        assert.ok(Math.abs(off) < 0.05, `${off} dB at ${hz} Hz`);
      });
    }
  });

  it('stands beside what is computed, and says whether the circuit holds', () => {
    const picture = pictureOf();
    assert.equal(picture.now.name, 'measured');
    assert.equal(picture.before?.name, 'computed');
    assert.match(picture.description, /The circuit holds/);
    const { rows, columns } = responseTable(picture);
    assert.deepEqual(columns, ['', 'computed', 'measured', 'rest', 'rest of the phase']);
    const cells = rows.map((row) => row.join(' | ').replaceAll('\u202F', ' '));
    assert.ok(cells.includes('inductance | 2.46 ± 0.09 H | 2.526 ± 0.009 H |  | '), cells.join('\n'));
    for (const row of [
      /^lost to metal at 3 kHz \| [\d.]+ ± [\d.]+ % \| [\d.]+ ± [\d.]+ % \|/,
      /^lost far above \| [\d.]+ ± [\d.]+ % \| [\d.]+ ± [\d.]+ % \|/,
      /^corner of that loss \| [\d.]+ kHz \| [\d.]+ ± [\d.]+ kHz \|/,
      /^1 kHz \|.* dB \| [−\d.]+ ± [\d.]+ dB \| [−\d.]+ ± [\d.]+°$/,
    ])
      assert.ok(
        cells.some((cell) => row.test(cell)),
        cells.join('\n'),
      );
    for (const width of ['wide', 'narrow', 'slim'] as const) {
      const svg = responsePlot(picture, width);
      assert.match(svg, /data-part="sweep:points"/);
      assert.match(svg, /data-part="sweep:rest"/);
      assert.match(svg, /data-part="sweep:phase"/);
      assertLegibleDrawing(svg);
    }
  });

  it('has a dot for every number on a line of four deviations, a triangle at its end for one that lies beyond', () => {
    const far = pictureOf((text) => text.replace(/turns \d[\d_]*/, 'turns 14_000'));
    const [near, beyond] = [pictureOf(), far].map((picture) => {
      const apart = (picture.measured?.numbers?.rows ?? []).flatMap(([, , , , deviations]) => deviations ?? []);
      const svg = responsePlot(picture, 'wide');
      const dots = svg.match(/<circle class="solid"/g)?.length ?? 0;
      const triangles = svg.match(/<path class="solid" d="M[\d.]+ [\d.]+L[\d.]+ [\d.]+V/g)?.length ?? 0;
      assert.equal(dots + triangles, apart.length);
      assert.equal(triangles, apart.filter((each) => Math.abs(each) > 4).length);
      return { dots, triangles };
    });
    assert.ok(near && near.dots >= 4 && near.triangles === 0);
    assert.ok(beyond && beyond.triangles >= 2);
    assertLegibleDrawing(responsePlot(far, 'wide'));
  });

  it('keeps its numbers apart, whatever they are called, in either language and in the widest face of an editor', () => {
    const notUsed = (text: string) => text.replaceAll(' over 10 kohm', ' through 100 kohm');
    const long = pictureOf(undefined, undefined, languageOf('de'));
    for (const picture of [pictureOf(), pictureOf(notUsed), long, longNamed(pictureOf())])
      for (const width of ['wide', 'narrow', 'slim'] as const) {
        const texts = textsOf(assertLegibleDrawing(responsePlot(picture, width))).filter(({ words }) => words !== '');
        const cells = new Set(picture.measured?.numbers?.rows.flatMap((row) => row.map(String)));
        for (const { words, box } of texts.filter((each) => cells.has(each.words)))
          for (const other of texts.filter((each) => Math.abs(each.box.y - box.y) < 1 && each.box.x > box.x))
            assert.ok(other.box.x - box.x - box.width > 8, `${width}: "${words}" touches "${other.words}"`);
      }
  });

  it('marks what lies beyond the strip at its edge, and says so', () => {
    const picture = pictureOf();
    const { strips, ...measured } = picture.measured ?? assert.fail();
    const beyond = strips.map((strip) => ({ ...strip, off: strip.off.with(40, 3).with(80, -3) }));
    assert.deepEqual(
      strips.map(({ unit }) => unit),
      ['dB', '°'],
    );
    const svg = responsePlot({ ...picture, measured: { ...measured, strips: beyond } }, 'wide');
    assert.equal(svg.match(/<path class="pt"/g)?.length, 4);
    assert.match(svg, /Triangles at its edge/);
    assert.doesNotMatch(responsePlot(picture, 'wide'), /Triangles/);
    assertLegibleDrawing(svg);
  });

  it('is not there without a sweep, nor of one that is not used', () => {
    assert.equal(pictureOf((text) => text.replaceAll(/.*yarrow-\w+\.csv.*\n/g, '')).measured, undefined);
    assert.equal(pictureOf((text) => text.replaceAll('readings "', 'readings found "')).measured, undefined);
  });
});

describe('the plot of an impedance', () => {
  const pictureFor = (edit?: (text: string) => string) => {
    const { bench, pickups } = analysedSample(SAMPLE, edit);
    const [pickup = assert.fail()] = pickups;
    return impedancePicture(pickup, quickOf(bench)) ?? assert.fail();
  };

  it('has the points of a sweep on the curve that the whole circuit makes', () => {
    const { points, curve, verdict } = pictureFor();
    assert.ok(points.length > 100 && verdict?.includes('holds'));
    for (const { hz, ohm } of points) {
      // Where the impedance is greatest it changes by a tenth from one drawn point to the next.
      if (hz > 20_000 || (hz > 8500 && hz < 10_500)) continue;
      const near = curve.reduce((best, each) => (Math.abs(each.hz - hz) < Math.abs(best.hz - hz) ? each : best));
      assert.ok(Math.abs(Math.log(near.ohm / ohm)) < 0.1, `${ohm} at ${hz} Hz, drawn ${near.ohm}`);
    }
  });

  it('is legible in both widths, with a sweep and without', () => {
    const computed = pictureFor((text) => text.replaceAll(/.*yarrow-\w+\.csv.*\n/g, ''));
    assert.equal(computed.verdict, undefined);
    for (const picture of [pictureFor(), computed])
      for (const width of ['wide', 'narrow'] as const) assertLegibleDrawing(impedancePlot(picture, width));
  });
});
