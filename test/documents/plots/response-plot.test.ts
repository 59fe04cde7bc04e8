import assert from 'node:assert/strict';
import type { Analysis } from '../../../server/src/analysis/analysis-types.ts';
import {
  pickupResponsePicture,
  positionResponsePicture,
} from '../../../server/src/documents/response-plot/from-model.ts';
import {
  type ResponsePicture,
  responsePlot,
  responseTable,
} from '../../../server/src/documents/response-plot/response-plot.ts';
import { analysedSample, sampleNames } from '../../support/sample-files.ts';
import { elementsOf } from '../svg-reading.ts';
import { assertLegibleDrawing } from './legible.ts';

const WIDTHS = ['wide', 'narrow'] as const;

describe('response plot', () => {
  for (const name of sampleNames) {
    it(`of every pickup and position of ${name} is legible`, () => {
      for (const picture of pictures(analysedSample(name)))
        for (const width of WIDTHS) assertLegibleDrawing(responsePlot(picture, width));
    });
  }

  it('is none where coils cancel or the volume is down: rounding is no response', () => {
    const cancelled = analysedSample('mistakes/phase-coils-cancel.pickup');
    const [pickup] = cancelled.pickups;
    assert.ok(pickup);
    assert.equal(pickupResponsePicture({ analysis: cancelled, pickup }), undefined);
    const analysis = analysedSample('quorl.pickup');
    const [instrument] = analysis.instruments;
    assert.ok(instrument);
    const pots = { volume: 0, tone: 10 };
    assert.equal(positionResponsePicture({ analysis, instrument }, '1', { played: pots }), undefined);
  });

  it('marks the resonance with its value, its ± and its height', () => {
    const picture = quorlBridge();
    const root = assertLegibleDrawing(responsePlot(picture, 'wide'));
    const mark = elementsOf(root).find(({ attributes }) => attributes['data-part'] === 'resonance:now');
    assert.match(mark?.text ?? '', /\d ± 0\.\d+\u202FkHz/);
    assert.match(mark?.text ?? '', /\+\d\.\d ± 0\.\d\u202FdB/);
  });

  it('stands on its curve: the mark lies where axis and curve put it', () => {
    const picture = quorlBridge();
    const root = assertLegibleDrawing(responsePlot(picture, 'wide'));
    const circle = elementsOf(root).find(({ name }) => name === 'circle');
    const hz = picture.now.resonanceHz?.value ?? 0;
    // Three decades from 20 Hz to 20 kHz over the width of the plot, 76 to 896.
    assert.ok(Math.abs(Number(circle?.attributes.cx) - (76 + (820 * Math.log10(hz / 20)) / 3)) <= 0.1);
  });

  it('draws the same bytes again', () => {
    assert.equal(responsePlot(quorlBridge(), 'wide'), responsePlot(quorlBridge(), 'wide'));
  });

  it('tells a difference with an uncertainty smaller than that of two unrelated resonances', () => {
    const picture = beforeAndNow();
    const { now, before } = picture;
    const svg = responsePlot(picture, 'wide');
    assertLegibleDrawing(svg);
    const [, value = '', sd = ''] = svg.match(/differ by ([\d.]+) ± ([\d.]+)\u202FkHz/) ?? [];
    assert.equal(
      Number(value).toFixed(2),
      (Math.abs((now.resonanceHz?.value ?? 0) - (before?.resonanceHz?.value ?? 0)) / 1000).toFixed(2),
    );
    assert.ok(Number(sd) * 1000 < Math.hypot(now.resonanceHz?.sd ?? 0, before?.resonanceHz?.sd ?? 0));
  });

  it('draws what was before dashed and with dotted limits, what is now solid with its band', () => {
    const parts = new Map(
      elementsOf(assertLegibleDrawing(responsePlot(beforeAndNow(), 'narrow'))).map((each) => [
        each.attributes['data-part'],
        each,
      ]),
    );
    const classes = (part: string) => parts.get(part)?.children.flatMap(({ attributes }) => attributes.class ?? []);
    assert.deepEqual(classes('response:before'), ['limit', 'limit', 'was']);
    assert.deepEqual(classes('response:now'), ['band', 'now']);
  });

  it('keeps its axes where they are whatever is compared', () => {
    const ticks = (picture: ResponsePicture) =>
      elementsOf(assertLegibleDrawing(responsePlot(picture, 'wide')))
        .filter(({ name, text }) => name === 'text' && /^(50|100|200|500|[125]\u202Fk|10\u202Fk)$/.test(text))
        .map(({ attributes, text }) => `${text} ${attributes.x}`);
    assert.deepEqual(ticks(beforeAndNow()), ticks(quorlBridge()));
  });

  it('says the same in rows', () => {
    const { columns, rows } = responseTable(beforeAndNow());
    assert.deepEqual(columns, ['', 'before', 'now']);
    assert.deepEqual(rows.map(([first]) => first).slice(0, 3), ['resonance', 'resonance peak', '20\u202FHz']);
    for (const row of rows) assert.equal(row.length, columns.length);
  });
});

function pictures(analysis: Analysis): readonly ResponsePicture[] {
  const pickups = analysis.pickups.map((pickup) => pickupResponsePicture({ analysis, pickup }));
  const positions = analysis.instruments.flatMap((instrument) =>
    instrument.instrument.positions.flatMap(({ key }, index) => {
      const pots = index % 2 === 0 ? { volume: 10, tone: 10 } : { volume: 6, tone: 0 };
      return positionResponsePicture({ analysis, instrument }, key.value, { played: pots });
    }),
  );
  return [...pickups, ...positions].flatMap((each) => each ?? []);
}

function quorlBridge(): ResponsePicture {
  const [picture] = pictures(analysedSample('quorl.pickup'));
  assert.ok(picture);
  return picture;
}

function beforeAndNow(): ResponsePicture {
  const state = (analysis: Analysis) => {
    const [pickup] = analysis.pickups;
    assert.ok(pickup);
    return { analysis, pickup };
  };
  const now = state(analysedSample('ottlewick-neck.pickup'));
  const before = state(analysedSample('ottlewick-neck.pickup', (text) => text.replace('turns 8_200', 'turns 6_400')));
  const picture = pickupResponsePicture(now, before);
  assert.ok(picture?.before);
  return picture;
}
