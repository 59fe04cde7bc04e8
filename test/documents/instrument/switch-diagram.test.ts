import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import type { InstrumentAnalysis } from '../../../server/src/analysis/analysis-types.ts';
import { switchPicture } from '../../../server/src/documents/switch-diagram/from-model.ts';
import { switchDiagram, switchTable } from '../../../server/src/documents/switch-diagram/switch-diagram.ts';
import { uniform } from '../../support/chance.ts';
import { analysedSample, analysedText } from '../../support/sample-files.ts';
import { single } from '../../support/shop.ts';
import { assertLegibleDrawing } from '../plots/legible.ts';
import { elementsOf, readSvg } from '../svg-reading.ts';

const WIDTHS = ['wide', 'narrow'] as const;

function own(file: string): InstrumentAnalysis {
  const [, name = ''] = /([a-z-]+)\.pickup$/.exec(file) ?? [];
  const analysed = analysedSample(file).instruments.find(({ written }) => written.name === name);
  assert.ok(analysed);
  return analysed;
}

describe('the drawing of switches', () => {
  for (const file of ['yarrowby.pickup', 'pennywither.pickup'])
    it(`of ${file} is legible in every position`, () => {
      const analysed = own(file);
      for (const { key } of analysed.written.positions)
        for (const width of WIDTHS) {
          const picture = switchPicture(analysed, key.value);
          assert.ok(picture);
          assertLegibleDrawing(switchDiagram(picture, width));
        }
    });

  it('shows the live position by its contacts, by what is thicker, and by its label', () => {
    const picture = switchPicture(own('yarrowby.pickup'), '2');
    assert.ok(picture);
    const svg = switchDiagram(picture, 'wide');
    const texts = elementsOf(readSvg(svg)).filter(({ attributes }) => attributes.class === 'livetext');
    assert.deepEqual(
      texts.map(({ text }) => text.trim()),
      ['hot', 'bridge VT', 'middle GD'],
    );
    assert.equal([...svg.matchAll(/class="lit"/g)].length, 3);
    assert.equal([...svg.matchAll(/class="hid"/g)].length, 1);
    assert.match(svg, /<desc[^>]*>In lever 2 the contacts join a0–a2, b0–b2, c0–c2; heard is bridge slug ∥ middle\./);
  });

  it('has a table that says the same', () => {
    const picture = switchPicture(own('pennywither.pickup'), '5');
    assert.ok(picture);
    const { columns, rows } = switchTable(picture);
    assert.equal(columns.length, 5);
    assert.deepEqual(rows[0], [
      '1 neck',
      'ways up, pull down',
      'ways.a0–ways.a1',
      'neck',
      'open on ground: bridge.screw and bridge.slug',
    ]);
    assert.deepEqual(
      rows.map(([position]) => position?.[0]),
      ['1', '2', '3', '4', '5', '6'],
    );
  });

  it('is legible for any part of the shelf, wired at random', () => {
    const shelf = readFileSync(new URL('../../../samples/parts/switches.pickup', import.meta.url), 'utf8');
    const next = uniform(7);
    for (const part of [...shelf.matchAll(/^switch (\S+)/gm)].map(([, name]) => name ?? ''))
      for (let round = 0; round < 3; round++) {
        const analysed = analysedText(wiredAtRandom(shelf, part, next)).instruments[0];
        const picture = analysed && switchPicture(analysed);
        assert.ok(picture, part);
        for (const width of WIDTHS) assertLegibleDrawing(switchDiagram(picture, width));
      }
  });

  it('rings the ends that a finding would move, and says in its table what a position should do', () => {
    const analysed = analysedSample('mistakes/switch-position-differs.pickup').instruments[0];
    const picture = analysed && switchPicture(analysed, '3');
    assert.ok(picture);
    const svg = switchDiagram(picture, 'wide');
    const wrong = elementsOf(readSvg(svg)).filter(({ attributes }) => attributes.class === 'wrongtext');
    assert.deepEqual(wrong.map(({ text }) => text.trim()).sort(), ['bridge VT', 'neck VT']);
    assert.deepEqual(
      switchTable(picture).rows.map(([, , , heard]) => heard),
      ['bridge, not neck', 'neck ∥ bridge', 'neck, not bridge'],
    );
    const shorted = analysedSample('mistakes/switch-hot-shorted.pickup').instruments[0];
    const ringed = shorted && switchPicture(shorted, '2');
    assert.ok(ringed);
    assert.match(switchDiagram(ringed, 'narrow'), /<title>lug pull\.a0, to be moved<\/title>[\s\S]*?class="ring"/);
  });

  it('is none where no wiring is written', () => {
    const analysed = analysedSample('quorl.pickup').instruments[0];
    assert.ok(analysed);
    assert.equal(switchPicture(analysed), undefined);
  });
});

/** Each lug on one of a few nets, or on none. */
function wiredAtRandom(shelf: string, part: string, next: () => number): string {
  const block = new RegExp(`^switch ${part} [\\s\\S]*?^}`, 'm').exec(shelf)?.[0] ?? '';
  const model = /like (\S+)/.exec(block)?.[1];
  const rows = model ? (new RegExp(`^switch ${model} [\\s\\S]*?^}`, 'm').exec(shelf)?.[0] ?? '') : block;
  const lugs = [...new Set([...rows.matchAll(/\b[a-d]\d\b/g)].map(([lug]) => `lever.${lug}`))];
  const heads = ['hot', 'ground neck.grey', 'link neck.violet', 'link bridge.violet bridge.grey', 'link'];
  const nets = heads.map((head) => [head]);
  for (const lug of lugs) nets[Math.floor(next() * (nets.length + 2))]?.push(lug);
  const lines = nets
    .filter((net) => net.length > 1 && !(net[0] === 'link' && net.length < 3))
    .map((net) => `    ${net.join(' ')}`);
  return `${shelf}${single('wren')}instrument juniper {
  pickup neck wren
  pickup bridge wren
  switch lever ${part}
  wiring {
${lines.join('\n')}
  }
  selector {
    1 neck
  }
}
`;
}
