/** What cards tell, against copper tables, the readings of the samples and signs worked by hand. */
import assert from 'node:assert/strict';
import type { Analysis } from '../../../server/src/analysis/analysis-types.ts';
import { quickOf } from '../../../server/src/analysis/pickup-analysis.ts';
import { kickRows } from '../../../server/src/documents/cards/polarity-rows.ts';
import { looseAndJoined, probePairs } from '../../../server/src/documents/cards/probe-pairs.ts';
import type { HtmlNode } from '../../../server/src/documents/html.ts';
import { inductanceMeter } from '../../../server/src/estimates/inductance-meter.ts';
import { analysed, cardsOfText, pageText, sampleText } from './card-bench.ts';

const quickIn = (analysis: Analysis, name: string) => {
  const found = analysis.pickups.find(({ pickup }) => pickup.name === name);
  assert.ok(found);
  return quickOf(analysis.bench)(found.pickup);
};

const textOf = (node: HtmlNode): string =>
  typeof node === 'string'
    ? node
    : 'children' in node && 'attributes' in node && !('svg' in node)
      ? node.children.map((child) => textOf(child as HtmlNode)).join('')
      : '';

describe('bench check', () => {
  const analysis = analysed('hesk-neck');
  const quick = quickIn(analysis, 'hesk-neck');
  const pairs = probePairs(quick, looseAndJoined(quick), analysis.bench, 23);
  const pair = (a: string, b: string) => {
    const found = pairs.find(
      ({ points }) =>
        points
          .map(({ name }) => name)
          .sort()
          .join() === [a, b].sort().join(),
    );
    assert.ok(found, `${a} to ${b}`);
    return found;
  };

  it('four conductors, drain, baseplate and cover make 21 pairs', () => {
    assert.equal(pairs.length, (7 * 6) / 2);
  });

  it('a coil reads warmer by 0.393 % each kelvin (copper, IEC 60028)', () => {
    const { before } = pair('turquoise', 'orange');
    assert.equal(before.kind, 'resistance');
    if (before.kind !== 'resistance') return;
    const at20C = [...quick.windings].find(([coil]) => coil.name === 'slug')?.[1].resistance20COhm?.value ?? Number.NaN;
    assert.ok(Math.abs(before.ohm.value / at20C - (1 + 0.00393 * 3)) < 1e-6);
  });

  it('passes by the data sheet of the meter and two standard deviations, worked unrounded', () => {
    const { before } = pair('turquoise', 'orange');
    if (before.kind !== 'resistance') assert.fail('no resistance');
    // The bench of the samples: ± (0.8 % + 2 digits of 10 ohm).
    const limit = 0.008 * before.ohm.value + 20;
    assert.ok(Math.abs(before.passOhm - Math.hypot(limit, 2 * before.ohm.sd)) < 1e-9);
  });

  it('what was read apart stands beside what it should be', () => {
    const foundling = analysed('foundling');
    const loose = quickIn(foundling, 'foundling');
    const read = probePairs(loose, looseAndJoined(loose), foundling.bench, 22).flatMap(
      ({ points: [a, b], readBefore }) =>
        readBefore ? [`${a.name} ${b.name} ${readBefore === 'open' ? 'open' : readBefore.written}`] : [],
    );
    assert.deepEqual(read, [
      'violet grey open',
      'violet pink 4.03 kohm',
      'violet bare open',
      'grey turquoise 3.99 kohm',
      'grey bare open',
    ]);
  });

  it('before joining only the two coils and the metal conduct; after it every lead is in one path', () => {
    const before = pairs
      .filter((each) => each.before.kind === 'resistance')
      .map(({ points }) => points.map(({ name }) => name).join(' '));
    assert.deepEqual(before, ['turquoise orange', 'grey pink']);
    assert.equal(pairs.filter((each) => each.after.kind === 'open').length, 0);
    assert.equal(pair('orange', 'grey').after.kind, 'joined');
    assert.equal(pair('pink', 'bare').after.kind, 'joined');
    assert.equal(pair('bare', 'cover').before.kind, 'joined');
  });

  it('a shield that goes to ground by itself is open on the bench', () => {
    const withen = analysed('withen-bridge');
    const own = quickIn(withen, 'withen-bridge');
    const all = probePairs(own, looseAndJoined(own), withen.bench, 20);
    const shield = all.filter(
      ({ points }) => points.some(({ what }) => what === 'shield') && points.some(({ what }) => what === 'lead'),
    );
    assert.notEqual(shield.length, 0);
    assert.ok(shield.every(({ after }) => after.kind === 'open'));
  });

  it('tells what is best measured next, and nothing of that where nothing is open', async () => {
    const told = async (name: string) => {
      const [card] = cardsOfText(analysed(name), ['bench']);
      assert.ok(card);
      return /Measure next.*?Inductance meter at 1/.test(await pageText(card));
    };
    assert.deepEqual([await told('foundling'), await told('hesk-neck')], [true, false]);
  });

  it('conductors that nobody traced are unknown, with the reading that settles them', async () => {
    const bare = sampleText('foundling').replace(/\n {4}kick [^\n]*/g, '');
    const untraced = analysed('foundling', bare);
    const own = quickIn(untraced, 'foundling');
    const all = probePairs(own, looseAndJoined(own), untraced.bench, 20);
    const between = all.find(({ points: [a, b] }) => a.name === 'violet' && b.name === 'pink');
    assert.equal(between?.before.kind, 'unknown');
    const [card] = cardsOfText(untraced, ['bench']);
    assert.ok(card);
    assert.match(await pageText(card), /unknown/i);
  });
});

describe('kick', () => {
  // Every kick that the shop has read must be what the card would have told beforehand.
  for (const [sample, name] of [
    ['hesk-neck', 'hesk-neck'],
    ['ottlewick-neck', 'ottlewick-neck'],
    ['larkspit', 'larkspit-middle'],
    ['foundling', 'foundling'],
  ] as const)
    it(`${name}: tells what was read`, () => {
      const quick = quickIn(analysed(sample), name);
      const rows = kickRows(quick, looseAndJoined(quick).loose);
      const read = quick.netlist.pickup.readings.flatMap(({ lines }) => lines.filter((line) => line.kind === 'kick'));
      assert.notEqual(read.length, 0);
      for (const { probes, motion, reads } of read) {
        const [red, black] = [probes.red.text, probes.black.text];
        const row = rows.find(
          (each) =>
            typeof each.red !== 'string' &&
            typeof each.black !== 'string' &&
            [each.red.name, each.black.name].sort().join() === [red, black].sort().join(),
        );
        assert.ok(row && typeof row.red !== 'string', `${red} to ${black}`);
        const asRead =
          (reads === 'positive' ? 1 : -1) * (motion === 'approach' ? 1 : -1) * (row.red.name === red ? 1 : -1);
        assert.equal(row.approach, asRead, `${red} to ${black}`);
      }
    });

  it('coils in phase all kick one way with red toward hot', () => {
    for (const [sample, name] of [
      ['quorl', 'quorl-bridge'],
      ['hesk-neck', 'hesk-neck'],
    ] as const) {
      const quick = quickIn(analysed(sample), name);
      assert.equal(new Set(kickRows(quick, looseAndJoined(quick).loose).map(({ approach }) => approach)).size, 1);
      assert.equal(new Set(quick.signs.map(({ string }) => string)).size, 1);
    }
  });
});

describe('inductance meter', () => {
  it('shows the inductance and ωL/R of a coil far below resonance', () => {
    const analysis = analysed('larkspit');
    const quick = quickIn(analysis, 'larkspit-middle');
    const meter = inductanceMeter(quick, analysis.bench, 20);
    const reading = meter?.at(120);
    const ohm = quick.resistance20COhm?.value ?? Number.NaN;
    assert.ok(reading);
    // Q = ωL/R (any circuit textbook); eddy currents and capacitance are below one per cent at 120 Hz.
    const expected = (2 * Math.PI * 120 * reading.inductanceH.value) / ohm;
    assert.ok(Math.abs(reading.quality.value / expected - 1) < 0.01, `${reading.quality.value} against ${expected}`);
  });

  it('shows nothing above the own resonance', () => {
    const analysis = analysed('larkspit');
    const meter = inductanceMeter(quickIn(analysis, 'larkspit-middle'), analysis.bench);
    const resonance = meter?.resonanceHz?.value ?? Number.NaN;
    assert.ok(meter && resonance > 1000);
    assert.equal(meter.at(resonance * 1.01), undefined);
  });
});

describe('winding card', () => {
  const cards = cardsOfText(analysed('hesk-neck'), ['winding']);
  const text = (index: number) => (cards[index]?.body ?? []).map(textOf).join(' ');

  it('one for each coil that is wound here', () => {
    assert.deepEqual(
      cards.map(({ about }) => about.join(' ')),
      ['hesk-neck screw', 'hesk-neck slug'],
    );
    assert.deepEqual(
      cardsOfText(analysed('ottlewick-neck'), ['winding']).map(({ about }) => about.join(' ')),
      ['ottlewick-neck screw'],
    );
  });

  it('a bobbin whose top is toward the spindle lies as the spindle turns, seen from the strings', () => {
    // By hand: facing the spindle one sees the bottom; what turns clockwise is laid counterclockwise, seen from there.
    assert.match(text(0), /Top toward the spindle: spindle clockwise, seen facing it\. The wire then lies clockwise/);
  });

  it('says what to do where the direction is unknown, and assumes none', async () => {
    const open = sampleText('hesk-neck').replace(/\n {4}(wound|spindle) [^\n]*/g, '');
    const [card] = cardsOfText(analysed('hesk-neck', open), ['winding']);
    assert.ok(card);
    assert.match(await pageText(card), /The winding direction is unknown: it is never assumed/);
    assert.doesNotMatch(await pageText(card), /wire lies (counter)?clockwise/);
  });

  it('cautions and the guidance sentence stand on every card', async () => {
    for (const card of cardsOfText(analysed('hesk-neck'))) {
      const html = await pageText(card);
      assert.match(html, /Common-practice guidance, not legal, medical or electrical certification\./, card.title);
      assert.doesNotMatch(html, /\bsafe\b|\bcertified\b|\bcompliant\b/i, card.title);
    }
  });
});

describe('hand-over card', () => {
  it('holds the sections that are wanted, in their order, and the fields of the shop', () => {
    const [card] = cardsOfText(analysed('hesk-neck'), ['hand-over'], {
      handOver: ['contact', 'work'],
      handOverFields: [
        { title: 'Tax number', text: '' },
        { title: 'contact', text: 'Ruddle Yard' },
      ],
    });
    assert.ok(card);
    const text = card.body.map(textOf).join(' ');
    assert.ok(text.indexOf('Contact') < text.indexOf('Work done') && text.indexOf('Contact') >= 0);
    assert.match(text, /Ruddle Yard/);
    assert.match(text, /Tax number/);
    assert.doesNotMatch(text, /Old parts returned/);
  });
});

describe('cards of an instrument', () => {
  it('say its serial and whom it is for', () => {
    const own = sampleText('larkspit').replace(
      /(instrument \w+ "[^"]*" \{)/,
      '$1\n  serial RYD-900\n  for "Teasel, customer 3"',
    );
    for (const kind of ['wiring', 'hand-over'] as const) {
      const card = cardsOfText(analysed('larkspit', own), [kind]).at(-1);
      const head = textOf(card?.body[0] ?? '').slice(0, 200);
      assert.match(head, /RYD-900 · for Teasel, customer 3/, kind);
    }
    const [handOver] = cardsOfText(analysed('larkspit', own), ['hand-over']);
    assert.match(textOf(handOver?.body[0] ?? ''), /customer\s*Teasel, customer 3/);
  });
});

describe('wiring card', () => {
  it('claims no start or finish of a coil that only a kick placed', () => {
    const [card] = cardsOfText(analysed('foundling'), ['wiring']);
    assert.ok(card);
    const text = card.body.map(textOf).join(' ');
    assert.match(text, /screw coil, end untraced/);
    assert.doesNotMatch(text, /(screw|slug) (start|finish)/);
  });
});
