import assert from 'node:assert/strict';
import type { Analysis } from '../../../server/src/analysis/analysis-types.ts';
import { instrumentPicture } from '../../../server/src/documents/instrument-diagram/from-model.ts';
import {
  instrumentDiagram,
  instrumentTable,
} from '../../../server/src/documents/instrument-diagram/instrument-diagram.ts';
import type { Schematic } from '../../../server/src/documents/instrument-diagram/schematic-picture.ts';
import { analysedSample, analysedText, sampleNames } from '../../support/sample-files.ts';
import { single } from '../../support/shop.ts';
import { thorough } from '../../support/thorough.ts';
import { assertLegibleDrawing } from '../plots/legible.ts';
import { elementsOf } from '../svg-reading.ts';
import { madeUpInstrument } from './made-up-instruments.ts';

const WIDTHS = ['wide', 'narrow'] as const;

describe('schematic of an instrument', () => {
  for (const name of sampleNames) {
    it(`of ${name} is legible in every position`, () => {
      const analysis = analysedSample(name);
      for (const instrument of analysis.instruments)
        for (const live of [undefined, ...instrument.instrument.positions.map(({ key }) => key.value)])
          for (const width of WIDTHS)
            assertLegibleDrawing(instrumentDiagram(instrumentPicture(analysis, instrument, { live }), width));
    });
  }

  it('of made-up instruments is legible', () => {
    for (let seed = 1; seed <= thorough(30); seed++) {
      const { text } = madeUpInstrument(seed);
      const analysis = analysedText(text);
      const [instrument] = analysis.instruments;
      assert.ok(instrument && instrument.instrument.positions.length > 0, text);
      const live = instrument.instrument.positions[seed % instrument.instrument.positions.length]?.key.value;
      for (const width of WIDTHS) {
        try {
          assertLegibleDrawing(instrumentDiagram(instrumentPicture(analysis, instrument, { live }), width));
        } catch (error) {
          throw new Error(`seed ${seed}, ${width}, position ${live}: ${String(error)}\n${text}`);
        }
      }
    }
  });

  it('closes the contacts of each position: a split keeps one coil by joining the link to ground', () => {
    const [section] = picture(analysedSample('quorl.pickup'), '2').sections;
    assert.ok(section);
    // By hand: 2 is bridge.slug and middle, 4 is middle and neck.slug.
    assert.deepEqual(contacts(section), [
      'neck VT violet to bus in 4 5',
      'neck GY + TQ link to earth in 4',
      'middle GD gold to bus in 2 3 4',
      'bridge VT violet to bus in 1 2',
      'bridge GY + TQ link to earth in 2',
    ]);
  });

  it('with two volumes it is no taller than wide', () => {
    const analysis = analysedSample('teasel.pickup');
    const [instrument] = analysis.instruments;
    assert.ok(instrument);
    const live = instrument.instrument.positions[0]?.key.value;
    const svg = instrumentDiagram(instrumentPicture(analysis, instrument, { live }), 'wide');
    const [, width, height] = /viewBox="0 0 (\d+) (\d+)"/.exec(svg) ?? [];
    assert.ok(Number(height) <= Number(width), `${width} x ${height}`);
  });

  it('emphasises what sounds', () => {
    const sounding = (live: string) =>
      picture(analysedSample('quorl.pickup'), live).sections.flatMap(({ pickups }) =>
        pickups.flatMap(({ coils }) => coils.filter((coil) => coil.live).map(({ id }) => id)),
      );
    assert.deepEqual(sounding('1'), ['bridge.slug', 'bridge.screw']);
    assert.deepEqual(sounding('2'), ['middle.main', 'bridge.slug']);
    assert.deepEqual(sounding('4'), ['neck.slug', 'middle.main']);
  });

  it('keeps every part in its place whatever position is live', () => {
    const analysis = analysedSample('quorl.pickup');
    const places = (live: string) =>
      elementsOf(assertLegibleDrawing(instrumentDiagram(picture(analysis, live), 'wide')))
        .filter(({ name, attributes }) => name === 'circle' || attributes.class?.startsWith('cell'))
        .map(({ attributes }) => `${attributes.cx ?? attributes.x} ${attributes.cy ?? attributes.y}`);
    assert.deepEqual(places('1'), places('4'));
  });

  it('draws each position by itself where a series would cross the contacts', () => {
    const analysis = analysedSample('bramblewick.pickup');
    assert.equal(picture(analysis, undefined).sections.length, 7);
    const [series] = picture(analysis, '5').sections;
    assert.ok(series);
    assert.equal(contacts(series).length, 0);
    // neck series bridge: neck's hot to the output, neck's ground end on bridge's hot, bridge's ground end at ground.
    const exits = series.pickups.flatMap(({ slot, coils, nodes }) =>
      [...new Set(coils.flatMap(({ top, bottom }) => [top, bottom]))].flatMap((node) =>
        (nodes.get(node)?.exits ?? []).map(({ to }) => `${slot} ${typeof to === 'string' ? to : 'rail'}`),
      ),
    );
    assert.deepEqual(exits, ['neck bus', 'neck rail', 'bridge rail', 'bridge earth']);
  });

  it('puts the controls of one pickup before the selector', () => {
    const analysis = analysedSample('larkspit.pickup', (text) =>
      text.replace('tone 250k audio with 47n', 'tone 250k audio with 47n\n    volume 500k audio for neck'),
    );
    const drawn = elementsOf(assertLegibleDrawing(instrumentDiagram(picture(analysis, '5'), 'wide')));
    const parts = drawn.flatMap(({ attributes }) => attributes['data-part'] ?? []);
    assert.ok(parts.includes('control:neck.volume') && parts.includes('control:volume'), parts.join(', '));
    const [section] = picture(analysis, '5').sections;
    const neck = section?.pickups.find(({ slot }) => slot === 'neck');
    const after = neck?.nodes.get(neck.own?.to ?? '');
    assert.deepEqual(
      after?.exits.map(({ to, contact }) => [to, contact?.closed.length]),
      [['bus', 5]],
    );
  });

  it('hangs a tone on the line that it is wired to, before the volume or at its wiper', () => {
    const heights = (words: string) => {
      const analysis = analysedSample('larkspit.pickup', (text) =>
        text.replace('tone 250k audio with 47n', `tone 250k audio with 47n ${words}`),
      );
      const drawn = elementsOf(assertLegibleDrawing(instrumentDiagram(picture(analysis, '5'), 'wide')));
      const y = (word: string) =>
        Number(drawn.find(({ name, text }) => name === 'text' && text === word)?.attributes.y ?? Number.NaN);
      return { tone: y('tone'), volume: y('volume') };
    };
    const before = heights('');
    assert.ok(before.tone < before.volume, JSON.stringify(before));
    const behind = heights('at wiper');
    assert.ok(behind.tone > behind.volume, JSON.stringify(behind));
  });

  it('feeds the wiper of a volume that is wired wiper to pickup, and takes the signal from the top of its track', () => {
    const volumeOf = (words: string) => {
      const analysis = analysedSample('larkspit.pickup', (text) =>
        text.replace('tone 250k audio with 47n', `tone 250k audio with 47n\n    volume 500k audio ${words} for neck`),
      );
      const drawn = elementsOf(assertLegibleDrawing(instrumentDiagram(picture(analysis, '5'), 'wide')));
      const part = drawn.find(({ attributes }) => attributes['data-part'] === 'control:neck.volume');
      return elementsOf(part ?? drawn[0] ?? assert.fail()).flatMap(({ attributes }) => attributes.d ?? []);
    };
    // The arrowhead points away from where its line comes from.
    const pointsLeft = (paths: readonly string[]) => paths.some((each) => /l11 -5v10Z$/.test(each));
    assert.equal(pointsLeft(volumeOf('')), true);
    assert.equal(pointsLeft(volumeOf('wiper to pickup')), false);
    assert.ok(volumeOf('wiper to pickup').some((each) => /l-11 -5v10Z$/.test(each)));
  });

  it('marks a no-load track, here and in the key, and lists every control in the text form', () => {
    const drawn = (words: string) => {
      const analysis = analysedSample('larkspit.pickup', (text) =>
        text.replace(
          'tone 250k audio with 47n',
          `tone 250k audio ${words} with 47n\n    blend neck bridge 500k two-gang`,
        ),
      );
      const shown = picture(analysis, '5');
      const elements = elementsOf(assertLegibleDrawing(instrumentDiagram(shown, 'wide')));
      return {
        cuts: elements.filter(({ attributes: { class: kind, d } }) => kind === 'gap' && d?.endsWith('h24')).length,
        key: elements.some(({ text }) => text === 'no-load: cut off at 10'),
        parts: elements.flatMap(({ attributes }) => attributes['data-part'] ?? []),
        rows: instrumentTable(shown).rows.map(([, ...row]) => row.join(': ')),
      };
    };
    const plain = drawn('');
    assert.deepEqual([plain.cuts, plain.key], [0, false]);
    const cut = drawn('no-load');
    // The tone's own, and the one that the key explains.
    assert.deepEqual([cut.cuts, cut.key], [2, true]);
    assert.ok(cut.parts.includes('control:neck.blend') && cut.parts.includes('control:bridge.blend'), cut.parts.join());
    for (const row of [
      'neck: blend, with bridge, 500\u202FkΩ linear, two-gang',
      'all: tone, 250\u202FkΩ audio, no-load, with 47\u202FnF',
    ])
      assert.ok(cut.rows.includes(row), cut.rows.join('\n'));
  });

  it('has a place to point at for every coil, contact, control and the jack', () => {
    const root = assertLegibleDrawing(instrumentDiagram(picture(analysedSample('quorl.pickup'), '2'), 'narrow'));
    const parts = elementsOf(root).flatMap(({ attributes }) => attributes['data-part'] ?? []);
    for (const part of [
      'coil:bridge.slug',
      'coil:middle.main',
      'pickup:neck',
      'position:2',
      'control:volume',
      'control:tone',
      'control:bleed',
      'jack',
      'selector',
    ])
      assert.ok(parts.includes(part), `${part} is missing in ${parts.join(', ')}`);
    assert.equal(parts.filter((part) => part.startsWith('contact:')).length, 5);
  });

  it('says the same in rows, and in one breath', () => {
    const drawn = picture(analysedSample('quorl.pickup'), '2');
    assert.match(
      drawn.description,
      /^Position 2, bridge, split, and middle: middle main and bridge slug sound; resistance at the jack 2\.78/,
    );
    const rows = instrumentTable(drawn).rows.map((row) => row.join(' | '));
    assert.ok(
      rows.includes('2 | contact | bridge GY + TQ link to ground: closed in position 2, closed now'),
      rows.join('\n'),
    );
  });

  it('draws what is not known as such', () => {
    const analysis = analysedSample('quorl.pickup', (text) =>
      text.replace('pickup middle quorl-middle at', 'pickup middle nobody at'),
    );
    const root = assertLegibleDrawing(instrumentDiagram(picture(analysis, '5'), 'wide'));
    assert.match(root.text, /nobody is not known/);
  });

  it('lets no markup through', () => {
    const analysis = analysedSample('quorl.pickup', (text) =>
      text.replace('instrument quorl "Quorl"', 'instrument quorl "</title><script>alert(1)</script>"'),
    );
    const svg = instrumentDiagram(picture(analysis, '1'), 'wide');
    assertLegibleDrawing(svg);
    assert.ok(!svg.includes('<script'));
  });
});

function picture(analysis: Analysis, live: string | undefined) {
  const [instrument] = analysis.instruments;
  assert.ok(instrument);
  return instrumentPicture(analysis, instrument, { live });
}

function contacts(section: Schematic): readonly string[] {
  return section.pickups.flatMap(({ slot, nodes }) =>
    [...nodes.values()].flatMap(({ label, exits }) =>
      exits.flatMap(({ to, contact }) => {
        if (contact === undefined) return [];
        const closed = section.keys.filter((_, index) => contact.closed[index]);
        return `${slot} ${label.map(({ text }) => text).join('')} to ${String(to)} in ${closed.join(' ')}`;
      }),
    ),
  );
}

describe('the schematic of a wired instrument', () => {
  const WIRED = `${single('heron')}${single('finch')}${single('wren')}instrument juniper {
  pickup heron heron
  pickup finch finch
  pickup wren wren
  controls {
    volume loud 500 kohm
    tone 250 kohm with 22 nF
  }
  wiring {
    hot heron.violet loud.input
    link heron.grey finch.violet wren.violet
    link loud.wiper jack
    ground finch.grey wren.grey loud.low
    resistor 10 kohm heron.grey to hot
    capacitor 10 nF heron.grey to ground
  }
  selector {
    1 heron
  }
}
`;

  it('draws coils, parts and controls between the nets that they lie on, legible in both widths', () => {
    const analysis = analysedText(WIRED);
    const [instrument] = analysis.instruments;
    assert.ok(instrument);
    const picture = instrumentPicture(analysis, instrument, { live: '1' });
    assert.deepEqual(
      picture.sections[0]?.pickups.flatMap(({ slot, coils }) =>
        coils.map(({ name, top, bottom, live }) => [slot, name, top, bottom, live]),
      ),
      [
        ['heron', 'main coil', 'hot', 'heron.grey', true],
        ['finch', 'main coil', 'heron.grey', 'earth', true],
        ['wren', 'main coil', 'heron.grey', 'earth', true],
        ['resistor', '10\u202FkΩ', 'hot', 'heron.grey', true],
        ['capacitor', '10\u202FnF', 'heron.grey', 'earth', true],
        ['loud', 'input to wiper', 'hot', 'out', true],
        ['loud', 'wiper to low', 'out', 'earth', true],
        ['tone', 'input to wiper', 'hot', 'wiper 1', true],
        ['tone', '22\u202FnF', 'wiper 1', 'earth', true],
      ],
    );
    for (const width of ['wide', 'narrow'] as const) assertLegibleDrawing(instrumentDiagram(picture, width));
  });
});
