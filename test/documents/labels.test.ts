import assert from 'node:assert/strict';
import { type Label, placeLabels } from '../../server/src/documents/labels.ts';

const SHEET = { x: 0, y: 0, width: 400, height: 200 };
const label = (text: string, more: Partial<Label> = {}): Label => ({
  wordings: [[{ text }]],
  spots: [{ x: 100, y: 100, anchor: 'start' }],
  size: 12,
  rank: 5,
  mayDrop: false,
  rim: true,
  ...more,
});

describe('placing labels', () => {
  it('gives the more important label the better place', () => {
    const spots = [
      { x: 100, y: 100, anchor: 'start' },
      { x: 100, y: 120, anchor: 'start' },
    ] as const;
    const { placed } = placeLabels(
      [label('rest', { spots, rank: 7 }), label('finding', { spots, rank: 0 })],
      [],
      SHEET,
    );
    assert.deepEqual(
      placed.map(({ runs, spot }) => [runs[0]?.text, spot.y]),
      [
        ['finding', 100],
        ['rest', 120],
      ],
    );
  });

  it('falls back to a shorter wording', () => {
    const wall = { x: 130, y: 80, width: 40, height: 40 };
    const wordings = [[{ text: 'VT violet' }], [{ text: 'VT' }]];
    assert.equal(placeLabels([label('', { wordings })], [wall], SHEET).placed[0]?.runs[0]?.text, 'VT');
  });

  it('drops what may be dropped and reports what may not', () => {
    const wall = { x: 90, y: 80, width: 100, height: 40 };
    const { dropped, overlapping, placed } = placeLabels(
      [label('names', { mayDrop: true }), label('hot')],
      [wall],
      SHEET,
    );
    assert.deepEqual(
      dropped.map(({ wordings }) => wordings[0]?.[0]?.text),
      ['names'],
    );
    assert.deepEqual(
      overlapping.map(({ runs }) => runs[0]?.text),
      ['hot'],
    );
    assert.equal(placed.length, 1);
  });

  it('keeps labels on the sheet', () => {
    const spots = [
      { x: 395, y: 100, anchor: 'start' },
      { x: 395, y: 100, anchor: 'end' },
    ] as const;
    assert.equal(placeLabels([label('ground', { spots })], [], SHEET).placed[0]?.spot.anchor, 'end');
  });
});
