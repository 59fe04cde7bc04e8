/** Knobs that are moved by hand: what they may be set to, what the models at hand say at once, and the state that the text would make. */
import assert from 'node:assert/strict';
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { ComparedStates } from '../../server/src/lsp/compared-states.ts';
import type { Settings, WhatIfKnob } from '../../server/src/lsp/protocol.ts';
import { sound } from '../../server/src/lsp/sound.ts';
import { movedStates, whatIfView } from '../../server/src/lsp/what-if.ts';
import { whatIfState } from '../../server/src/lsp/what-if-state.ts';
import { ENGLISH } from '../../server/src/words/languages/language.ts';
import { analysed, MAIN } from '../features/analysed.ts';

const PAIR = `use "parts.pickup"
wire fine-43 {
  gauge 43 AWG
  overall 0.0625 mm
}
bobbin bar-six {
  core 58.0 x 5.2 mm
  window 7.1 x 4.4 mm
  poles 6 spread 49.5 mm
  pole slug steel 4.8 x 12 mm
}
magnet bar-2 {
  material alnico-2
  size 63.5 x 12.7 x 3.2 mm
}
pickup wren "Wren" {
  strings 6
  coil one {
    bobbin bar-six
    wire plain-42
    turns 5_000 # as planned
    wound clockwise
    start grey
    finish violet
  }
  coil two like one {
    start pink
    finish orange
  }
  magnet bar-5 north toward one
  cover none
  hookup {
    hot violet
    link grey pink
    ground orange
  }
}
`;

const SUBJECT = { kind: 'pickup', name: 'wren' } as const;
const ASKED = { protocol: 3, uri: MAIN, subject: SUBJECT, pots: {}, width: 900 };

function statesOf(text: string): ComparedStates {
  const now = analysed(text);
  return { t: ENGLISH, document: TextDocument.create(MAIN, 'pickup', 1, text), now, before: undefined };
}

describe('what if', () => {
  const states = statesOf(PAIR);
  const view = whatIfView(states, ASKED);
  const knob = (id: string): WhatIfKnob => {
    const found = view.knobs.find((each) => each.id === id);
    assert.ok(found, id);
    return found;
  };
  const stateOf = (settings: Settings) => whatIfState(states, { ...ASKED, settings });
  const textOf = (settings: Settings): string =>
    TextDocument.applyEdits(
      states.document,
      (stateOf(settings)?.edits ?? []).map(({ range: { start, end }, newText }) => ({
        range: { start, end },
        newText,
      })),
    );
  const written = (settings: Settings): readonly string[] =>
    textOf(settings)
      .slice(PAIR.indexOf('pickup wren'))
      .split('\n')
      .flatMap((line) => (/turns|wire|magnet/.test(line) ? [line.trim()] : []));
  const row = (settings: Settings, name: string) =>
    stateOf(settings)?.numbers.rows.find((each) => each.name.startsWith(name));

  it('turns and wire of each coil that is still to be wound, and the bar, as the text has them', () => {
    assert.deepEqual(
      view.knobs.map(({ id, now }) => [id, now]),
      [
        ['one.turns', 5000],
        ['one.wire', 'wire plain-42'],
        ['two.turns', 5000],
        ['two.wire', 'wire plain-42'],
        ['magnet', 'bar-5'],
        ['poles.bar-six', '12'],
      ],
    );
    const lines = knob('one.wire').choices?.map(({ id }) => id);
    assert.deepEqual(lines, ['spool RYD-W7', 'wire fine-43', 'wire plain-42']);
    assert.deepEqual(view.stay, []);
  });

  it('what is counted or measured is no question any more', () => {
    const counted = statesOf(PAIR.replace('start pink', 'counted 5_010\n    start pink'));
    const { knobs, stay } = whatIfView(counted, ASKED);
    assert.deepEqual(
      knobs.map(({ id }) => id),
      ['one.turns', 'one.wire', 'magnet', 'poles.bar-six'],
    );
    assert.deepEqual(stay, ['The two coil is wound: its turns and its wire stay as they are.']);
  });

  it('the lines of one coil change; one that takes them over by `like` keeps what it had, or states its own', () => {
    assert.deepEqual(written({ 'one.turns': 4500 }), [
      'wire plain-42',
      'turns 4_500 # as planned',
      'turns 5_000',
      'magnet bar-5 north toward one',
    ]);
    assert.deepEqual(written({ 'two.turns': 6000, 'one.wire': 'wire fine-43', magnet: 'bar-2' }), [
      'wire fine-43',
      'turns 5_000 # as planned',
      'turns 6_000',
      'wire plain-42',
      'magnet bar-2 north toward one',
    ]);
  });

  it('numbers stand beside those of now, and findings that it would bring or settle are told', () => {
    // Resistance goes with the length of the wire: somewhat less than in proportion to the turns, whose last ones are the longest.
    const { before, now } = row({ 'one.turns': 4500 }, 'one coil, resistance') ?? {};
    assert.deepEqual([before, now], ['3.70 ± 0.15', '3.30 ± 0.13']);
    assert.match(
      stateOf({ 'one.turns': 4500 })
        ?.come.map(({ what }) => what)
        .join() ?? '',
      /^Hum cancels only in part/,
    );
    assert.match(
      stateOf({ 'two.turns': 6000 })
        ?.come.map(({ what }) => what)
        .join() ?? '',
      /build 5\.1\smm deep/,
    );
    const uneven = { ...statesOf(textOf({ 'one.turns': 4500 })) };
    const evened = whatIfState(uneven, { ...ASKED, settings: { 'one.turns': 5000 } });
    assert.match(evened?.settled.map(({ what }) => what).join() ?? '', /^Hum cancels only in part/);
  });

  it('both curves stand in the response, named; both are heard', () => {
    const { svg = '', table } = stateOf({ 'one.turns': 4500 })?.response ?? {};
    assert.match(svg, /<title>what if: /);
    assert.match(svg, /<title>now: /);
    assert.ok(table);
    const moved = movedStates(states, SUBJECT, { 'one.turns': 3000, 'two.turns': 3000 });
    assert.ok(moved);
    const heard = sound(moved.states, { ...ASKED, frequencyHz: 110 });
    assert.ok(heard.now && heard.before && heard.now !== heard.before);
    const plain = sound(states, { ...ASKED, frequencyHz: 110 });
    assert.equal(plain.now?.length, heard.before?.length);
  });

  it('an instrument: pots, capacitor and cable as fitted, and the pickups in it, heard at the jack', () => {
    const text = `${PAIR}instrument hut {
  pickup bridge wren at 42 mm
  controls {
    volume 500 kohm audio
    tone 500 kohm audio with 22 nF
  }
  selector {
    1 bridge
  }
  cable 4.5 m of 100 pF/m
}
`;
    const asked = { ...ASKED, subject: { kind: 'instrument', name: 'hut' } as const };
    const instrument = statesOf(text);
    const { knobs } = whatIfView(instrument, asked);
    assert.deepEqual(
      knobs.slice(-5).map(({ id, label, now }) => [id, label, now]),
      [
        ['poles.bar-six', 'height of the poles of bar-six, mm', '12'],
        ['volume.0', 'volume', '500 kohm'],
        ['tone.1', 'tone', '500 kohm'],
        ['capacitor.1', 'capacitor', '22 nF'],
        ['cable', 'cable', '4.5 m'],
      ],
    );
    const settings = {
      'tone.1': '250 kohm',
      'capacitor.1': '47 nF',
      cable: '3 m',
      'poles.bar-six': '14',
      'wren/one.turns': 4000,
    };
    const state = whatIfState(instrument, { ...asked, settings });
    const edits = state?.edits ?? [];
    const after = TextDocument.applyEdits(
      instrument.document,
      edits.map(({ range: { start, end }, newText }) => ({ range: { start, end }, newText })),
    );
    for (const line of [
      '  pole slug steel 4.8 x 14 mm',
      '    turns 4_000 # as planned',
      '    volume 500 kohm audio',
      '    tone 250 kohm audio with 47 nF',
      '  cable 3 m of 100 pF/m',
    ])
      assert.ok(after.includes(`\n${line}\n`), line);
    const resonance = (cable: string) =>
      Number.parseFloat(
        whatIfState(instrument, { ...asked, settings: { cable } })?.numbers.rows.find(({ name }) =>
          name.startsWith('resonance,'),
        )?.now ?? '',
      );
    // A shorter cable has less capacitance: the resonance lies higher.
    assert.ok(resonance('3 m') > resonance('10 m'));
  });

  it('nothing moved, and what no knob can be set to, is no state', () => {
    for (const settings of [
      {},
      { 'one.turns': 5000 },
      { 'one.turns': 4500.5 },
      { 'one.turns': 1 },
      { 'one.turns': '4500' },
      { 'one.wire': 'wire "}' },
      { magnet: 'bar-9' },
      { 'three.turns': 4500 },
    ] as Settings[])
      assert.equal(stateOf(settings), undefined, JSON.stringify(settings));
  });

  it('what the models at hand say at once is near what the analysis says', () => {
    const cases = [
      [{ 'one.turns': 4500 }, 'one.turns', 4500],
      [{ 'two.turns': 6000 }, 'two.turns', 6000],
      [{ 'one.wire': 'wire fine-43' }, 'one.wire', 'wire fine-43'],
    ] as const;
    for (const [settings, id, to] of cases)
      for (const [index, figure] of view.figures.entries()) {
        const { at, effects } = knob(id);
        const effect = effects[index]?.[at.indexOf(to)] ?? Number.NaN;
        const estimate = figure.isLevel ? figure.now + effect : figure.now * effect;
        const exact = Number.parseFloat(row(settings, figure.row)?.now ?? '');
        // As far as the row is printed, and two parts in a hundred of the figure; a level within a fifth of a decibel.
        const allowed = 10 ** -figure.decimals + (figure.isLevel ? 0.2 : 0.02 * exact);
        assert.ok(Math.abs(estimate - exact) <= allowed, `${id} ${to}, ${figure.row}: ${estimate} for ${exact}`);
      }
  });
});
