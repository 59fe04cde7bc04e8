import assert from 'node:assert/strict';
import { group, render, type SvgElement } from '../../server/src/documents/svg.ts';
import { blade, dimension, earth, flow, lead, pole, vector } from '../../server/src/documents/symbols.ts';
import { elementsOf, readSvg } from './svg-reading.ts';

describe('symbols', () => {
  it('marks north up by a dot, south up by a cross, unknown by nothing', () => {
    assert.deepEqual(classesOf(pole(0, 0, 9.5, 'north-up')), ['open', 'solid']);
    assert.deepEqual(classesOf(pole(0, 0, 9.5, 'south-up')), ['open', 'w2']);
    assert.deepEqual(classesOf(pole(0, 0, 9.5, undefined)), ['open']);
  });

  it('gives a screw a second ring, a rod a broad one, a blade three marks', () => {
    assert.deepEqual(classesOf(pole(0, 0, 9.5, undefined, 'screw')), ['open', 'w1']);
    assert.deepEqual(classesOf(pole(0, 0, 9.5, undefined, 'rod')), ['open', 'tint', 'w1']);
    assert.deepEqual(classesOf(blade(0, 200, 0, 8, 'north-up')), ['open', 'solid', 'solid', 'solid']);
  });

  it('edges every colour of lead with ink, and stripes the second colour', () => {
    assert.deepEqual(classesOf(lead('M0 0H9', { base: 'WH' })), ['halo', 'edge', 'core WH']);
    assert.deepEqual(classesOf(lead('M0 0H9', { base: 'GN', stripe: 'YE' })), [
      'halo',
      'edge',
      'core GN',
      'core second YE',
      'seam',
    ]);
    assert.deepEqual(classesOf(lead('M0 0H9', { bare: true })), ['halo', 'edge', 'core bare', 'lay']);
  });

  it('points arrowheads the way they say', () => {
    assert.equal(flow(10, 20, 'right').attributes.d, 'M4 15L17 20L4 25Z');
    assert.equal(flow(10, 20, 'left').attributes.d, 'M16 15L3 20L16 25Z');
  });

  it('draws vectors both ways to one scale and a bar for none', () => {
    assert.deepEqual(
      vector(0, 100, 0).map(({ attributes }) => attributes.d),
      ['M0 0H90', 'M100 0L88 -5V5Z'],
    );
    assert.deepEqual(
      vector(100, 0, 0).map(({ attributes }) => attributes.d),
      ['M100 0H10', 'M0 0L12 -5V5Z'],
    );
    assert.equal(vector(50, 50, 0).length, 1);
  });

  it('leaves a dimension line out where the value fills the space', () => {
    assert.equal(dimension(0, 0, 100, 20, 50).length, 2);
    assert.equal(dimension(0, 0, 30, 20, 15).length, 0);
  });

  it('is well-formed', () => {
    const all = group({}, earth(0, 0), ...blade(0, 200, 0, 8, 'north-up'), ...lead('M0 0H9', { bare: true }));
    assert.ok(elementsOf(readSvg(render(all))).length > 8);
  });
});

function classesOf(elements: readonly SvgElement[]): readonly (string | number | undefined)[] {
  return elements.map(({ attributes }) => attributes.class);
}
