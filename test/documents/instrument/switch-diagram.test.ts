import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import type { Analysis, InstrumentAnalysis } from '../../../server/src/analysis/analysis-types.ts';
import { switchPicture } from '../../../server/src/documents/switch-diagram/from-model.ts';
import { movesBetween } from '../../../server/src/documents/switch-diagram/mending.ts';
import type { SwitchPicture } from '../../../server/src/documents/switch-diagram/picture.ts';
import { switchDiagram, switchTable } from '../../../server/src/documents/switch-diagram/switch-diagram.ts';
import { uniform } from '../../support/chance.ts';
import { analysedSample, analysedText } from '../../support/sample-files.ts';
import { single } from '../../support/shop.ts';
import { assertLegibleDrawing } from '../plots/legible.ts';
import { elementsOf, readSvg } from '../svg-reading.ts';

const WIDTHS = ['wide', 'narrow'] as const;

function own(file: string): readonly [Analysis, InstrumentAnalysis] {
  const [, name = ''] = /([a-z-]+)\.pickup$/.exec(file) ?? [];
  const analysis = analysedSample(file);
  const analysed = analysis.instruments.find(({ written }) => written.name === name);
  assert.ok(analysed);
  return [analysis, analysed];
}

function pictureOf(analysis: Analysis, live?: string): SwitchPicture {
  const [analysed] = analysis.instruments;
  const picture = analysed && switchPicture(analysis, analysed, live);
  assert.ok(picture);
  return picture;
}

describe('the drawing of switches', () => {
  for (const file of ['yarrowby.pickup', 'pennywither.pickup'])
    it(`of ${file} is legible in every position`, () => {
      const [analysis, analysed] = own(file);
      for (const { key } of analysed.written.positions)
        for (const width of WIDTHS) {
          const picture = switchPicture(analysis, analysed, key.value);
          assert.ok(picture);
          assertLegibleDrawing(switchDiagram(picture, width));
        }
    });

  it('shows the live position by its contacts, by what is thicker, and by its label', () => {
    const picture = switchPicture(...own('yarrowby.pickup'), '2');
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
    const picture = switchPicture(...own('pennywither.pickup'), '5');
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
        const picture = pictureOf(analysedText(wiredAtRandom(shelf, part, lugsOf(shelf, part), next)));
        for (const width of WIDTHS) assertLegibleDrawing(switchDiagram(picture, width));
      }
  });

  it('is legible for parts that no shelf has, wired at random: any rows, any names, any contacts', () => {
    const next = uniform(11);
    for (let round = 0; round < 12; round++) {
      const { text, lugs } = partAtRandom(next);
      const picture = pictureOf(analysedText(wiredAtRandom(text, 'any', lugs, next)));
      for (const width of WIDTHS)
        try {
          assertLegibleDrawing(switchDiagram(picture, width));
        } catch (error) {
          throw new Error(`round ${round}, ${width}: ${String(error)}\n${text}`);
        }
    }
  });

  it('lays out the fix of a finding dashed, and says in its table what a position should do', () => {
    const analysis = analysedSample('mistakes/switch-position-differs.pickup');
    const picture = pictureOf(analysis, '3');
    const svg = switchDiagram(picture, 'wide');
    const wrong = elementsOf(readSvg(svg)).filter(({ attributes }) => attributes.class === 'wrongtext');
    // Each once where it is, and once where it belongs.
    assert.deepEqual(wrong.map(({ text }) => text.trim()).sort(), ['bridge VT', 'bridge VT', 'neck VT', 'neck VT']);
    assert.equal([...svg.matchAll(/class="mend"/g)].length, 2);
    const mending = 'Dashed, as it would be mended: Exchange neck.violet and bridge.violet.';
    assert.ok(svg.includes(mending));
    assert.deepEqual(
      switchTable(picture).rows.map(([, , , heard]) => heard),
      [mending, 'bridge, not neck', 'neck ∥ bridge', 'neck, not bridge'],
    );
    assert.deepEqual(
      picture.bodies.flatMap(({ nets }) => nets.filter(({ mended }) => mended).map(({ lugs }) => lugs)),
      [['ways.a1'], ['ways.a2']],
    );
    const shorted = pictureOf(analysedSample('mistakes/switch-hot-shorted.pickup'), '2');
    assert.match(switchDiagram(shorted, 'narrow'), /<title>lug pull\.a0, to be moved<\/title>[\s\S]*?class="ring"/);
    assert.equal(pictureOf(analysedSample('mistakes/switch-positions-same.pickup')).mending, undefined);
  });

  it('tells which ends a fix moves, whatever else lies on their nets', () => {
    const before = [
      ['hot', 's.a0'],
      ['n.1', 's.a1', 's.b1'],
      ['b.1', 's.a2'],
    ];
    const moved = (after: readonly (readonly string[])[], ...likely: readonly string[]) =>
      movesBetween(before, after, new Set(likely));
    const exchanged = [
      ['hot', 's.a0'],
      ['b.1', 's.a1', 's.b1'],
      ['n.1', 's.a2'],
    ];
    assert.deepEqual(moved(exchanged, 'b.1', 'n.1'), [
      { terminal: 'n.1', onto: ['s.a2'] },
      { terminal: 'b.1', onto: ['s.a1', 's.b1'] },
    ]);
    const [hot = [], neck = [], bridge = []] = before;
    assert.deepEqual(moved([hot, ['n.1', 's.a1'], bridge], 's.b1'), [{ terminal: 's.b1', onto: [] }]);
    assert.deepEqual(moved([hot, neck, [...bridge, 's.b2']], 's.b2'), [{ terminal: 's.b2', onto: ['b.1', 's.a2'] }]);
    assert.deepEqual(moved([...before, ['n.2', 's.b2']], 'n.2'), [{ terminal: 'n.2', onto: ['s.b2'] }]);
  });

  it('is none where no wiring is written', () => {
    assert.equal(switchPicture(...own('quorl.pickup')), undefined);
  });
});

function lugsOf(shelf: string, part: string): readonly string[] {
  const block = new RegExp(`^switch ${part} [\\s\\S]*?^}`, 'm').exec(shelf)?.[0] ?? '';
  const model = /like (\S+)/.exec(block)?.[1];
  const rows = model ? (new RegExp(`^switch ${model} [\\s\\S]*?^}`, 'm').exec(shelf)?.[0] ?? '') : block;
  return [...new Set([...rows.matchAll(/\b[a-d]\d\b/g)].map(([lug]) => lug))];
}

/** A rotary, a slide, a toggle or what nobody has seen yet: up to four rows of two to eight lugs, each detent with groups of its own. */
function partAtRandom(next: () => number): { readonly text: string; readonly lugs: readonly string[] } {
  const below = (count: number) => Math.floor(next() * count);
  const stem = ['a', 'pole-', 'common-of-wafer-'][below(3)];
  const rows = Array.from({ length: 1 + below(4) }, (_, row) =>
    Array.from({ length: 2 + below(7) }, (_unused, lug) => `${stem}${row + 1}${'abcdefgh'[lug]}`),
  );
  const lugs = rows.flat();
  const detents = Array.from({ length: 2 + below(7) }, (_, detent) => {
    const groups = new Map<number, string[]>();
    for (const lug of lugs) {
      const group = below(4 + rows.length);
      groups.set(group, [...(groups.get(group) ?? []), lug]);
    }
    const joins = [...groups.values()].filter((group) => group.length > 1).slice(0, below(4));
    const what = joins.length === 0 ? 'open' : joins.map((group) => `joins ${group.join(' ')}`).join(', ');
    return `  detent ${detent + 1} ${what}`;
  });
  const text = ['switch any "made up" {', ...rows.map((row) => `  row ${row.join(' ')}`), ...detents, '}', ''].join(
    '\n',
  );
  return { text, lugs };
}

/** Each lug on one of a few nets, or on none. */
function wiredAtRandom(shelf: string, part: string, names: readonly string[], next: () => number): string {
  const lugs = names.map((lug) => `lever.${lug}`);
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
