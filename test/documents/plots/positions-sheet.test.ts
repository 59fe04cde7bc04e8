import assert from 'node:assert/strict';
import { positionsPicture, positionsSheet, positionsTable } from '../../../server/src/documents/positions-sheet.ts';
import { analysedSample, sampleNames } from '../../support/sample-files.ts';
import { elementsOf } from '../svg-reading.ts';
import { assertLegibleDrawing } from './legible.ts';

const WIDTHS = ['wide', 'narrow'] as const;

describe('sheet of all positions', () => {
  for (const name of sampleNames) {
    it(`of ${name} is legible`, () => {
      const analysis = analysedSample(name);
      for (const instrument of analysis.instruments)
        for (const pots of [
          { volume: 10, tone: 10 },
          { volume: 3, tone: 0 },
        ]) {
          const live = instrument.instrument.positions.at(-1)?.key.value;
          const picture = positionsPicture(analysis, instrument, { live, played: pots });
          for (const width of WIDTHS) if (picture !== undefined) assertLegibleDrawing(positionsSheet(picture, width));
        }
    });
  }

  it('has a row for each position, the live one marked', () => {
    const root = assertLegibleDrawing(positionsSheet(quorl('2'), 'wide'));
    const rows = elementsOf(root).filter(({ attributes }) => attributes['data-part']?.startsWith('position:'));
    assert.deepEqual(
      rows.map(({ attributes }) => attributes['data-part']),
      ['position:1', 'position:2', 'position:3', 'position:4', 'position:5'],
    );
    const marked = rows.filter((row) => elementsOf(row).some(({ attributes }) => attributes.class === 'row'));
    assert.deepEqual(marked, [rows[1]]);
  });

  it('moves nothing when another position is live', () => {
    const places = (live: string) =>
      elementsOf(assertLegibleDrawing(positionsSheet(quorl(live), 'wide')))
        .filter(({ attributes }) => attributes.class === 'spark')
        .map(({ attributes }) => attributes.d);
    assert.deepEqual(places('1'), places('5'));
  });

  it('says in words what is heard: a single coil hums, two coils of unlike poles and wind are quiet', () => {
    const words = quorl(undefined).rows.map(({ verdict }) => verdict.sentences.map(({ text }) => text).join(' '));
    assert.equal(words[0], 'In phase. Hum cancels.');
    assert.equal(words[1], 'In phase. Hum cancels in part.');
    assert.equal(words[2], 'A single coil hums by nature.');
  });

  it('tells the reason of a position that is not as it might be under the rows', () => {
    assert.match(quorl(undefined).notes.join(' '), /position 2 .* hum cancels only in part/i);
  });

  it('says the same in rows of text', () => {
    const { columns, rows } = positionsTable(quorl(undefined));
    assert.equal(rows.length, 5);
    for (const row of rows) assert.equal(row.length, columns.length);
    // The sample's own note, worked by hand: 10.54 kohm at the jack in position 1.
    assert.match(rows[0]?.[1] ?? '', /^10\.54 ±/);
  });
});

function quorl(live: string | undefined) {
  const analysis = analysedSample('quorl.pickup');
  const [instrument] = analysis.instruments;
  assert.ok(instrument);
  const picture = positionsPicture(analysis, instrument, { live });
  assert.ok(picture);
  return picture;
}
