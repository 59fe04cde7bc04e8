/** What single readings prove of leads that nobody traced. Signs: the kick table in test/physics/reference/sign-table.json. */
import assert from 'node:assert/strict';
import { quickOf } from '../../../server/src/analysis/pickup-analysis.ts';
import { type Identification, identifyLeads } from '../../../server/src/estimates/identify/identify.ts';
import { analyse } from '../../support/check-fixture.ts';

const coil = (name: string, facts: readonly string[] = []) =>
  `  coil ${name} {\n${facts.map((fact) => `    ${fact}\n`).join('')}  }\n`;

const drawer = (
  lines: readonly string[],
  { coils = coil('screw') + coil('slug'), conductors = 'violet grey pink turquoise', more = '' } = {},
) =>
  `pickup heron {
  conductors ${conductors}
${more}${coils}  readings "on the bench" 2026-08-02 {
    room 20 degC
${lines.map((line) => `    ${line}\n`).join('')}  }
}
`;

function identify(text: string): Identification {
  const analysis = analyse(text);
  const [pickup] = analysis.model.pickups;
  assert.ok(pickup);
  return identifyLeads(quickOf(analysis.bench)(pickup), analysis.bench);
}

const leadsOf = ({ coils }: Identification) => coils.map(({ leads }) => leads?.join(' '));
const endsOf = ({ coils }: Identification) => coils.map(({ start, finish }) => [start, finish]);

const OPEN = ['violet to grey open', 'violet to turquoise open', 'pink to grey open', 'pink to turquoise open'];
const PAIRS = ['violet to pink 4.02 kohm', 'grey to turquoise 3.99 kohm', ...OPEN];

describe('pairs of leads', () => {
  it('that read belong together, but not to a coil that is known', () => {
    const found = identify(drawer(PAIRS));
    assert.deepEqual(
      found.pairs.map(({ leads }) => leads.join(' ')),
      ['violet pink', 'grey turquoise'],
    );
    assert.deepEqual(leadsOf(found), [undefined, undefined]);
  });

  it('are told apart by one kick: the other pair is the other coil’s', () => {
    const found = identify(drawer([...PAIRS, 'kick violet to pink at screw approach positive']));
    assert.deepEqual(leadsOf(found), ['violet pink', 'grey turquoise']);
  });

  it('of unlike resistance are told apart by what each coil read before', () => {
    const salvaged = `  readings found "as received" 2026-07-01 {\n    screw 5.10 kohm at 20 degC\n    slug 4.06 kohm at 20 degC\n  }\n`;
    const lines = ['violet to pink 4.06 kohm', 'grey to turquoise 5.11 kohm', ...OPEN];
    assert.deepEqual(leadsOf(identify(drawer(lines, { more: salvaged }))), ['grey turquoise', 'violet pink']);
    // Within what meter and temperature allow, equal readings prove nothing.
    const alike = salvaged.replace('5.10', '4.07');
    assert.deepEqual(leadsOf(identify(drawer(PAIRS, { more: alike }))), [undefined, undefined]);
  });

  it('that nothing reaches are not claimed by being left over', () => {
    const found = identify(drawer(['kick violet to pink at screw approach positive']));
    assert.deepEqual(leadsOf(found), ['violet pink', undefined]);
    assert.deepEqual(found.coils[1]?.leftOver, ['grey', 'turquoise']);
  });

  it('that follow by elimination are told as such', () => {
    const found = identify(drawer([...PAIRS, 'kick violet to pink at screw approach positive']));
    assert.deepEqual(
      found.coils.map(({ byElimination }) => byElimination),
      [false, true],
    );
  });
});

describe('start and finish', () => {
  const wound = (name: string, way: string) => coil(name, [`wound ${way}`]);

  it('follow from wind, compass and kick', () => {
    // North-up, wound clockwise, red probe on the finish: approach reads positive.
    const coils = wound('screw', 'clockwise') + wound('slug', 'clockwise');
    const lines = [
      ...PAIRS,
      'kick violet to pink at screw approach positive',
      'kick grey to turquoise at slug pull-off positive',
      'compass screw north-up',
      'compass slug north-up',
    ];
    assert.deepEqual(endsOf(identify(drawer(lines, { coils }))), [
      ['pink', 'violet'],
      ['grey', 'turquoise'],
    ]);
  });

  it('stay open without the wind, and what is said of it is what either choice would mean', () => {
    const found = identify(
      drawer([...PAIRS, 'kick violet to pink at screw approach positive', 'compass screw north-up']),
    );
    const [screw, slug] = found.coils;
    assert.deepEqual(
      [screw?.start, screw?.leads, screw?.windIfFirstIsStart],
      [undefined, ['violet', 'pink'], 'counterclockwise'],
    );
    assert.equal(slug?.windIfFirstIsStart, undefined);
    // What the joints wait for comes first; the wind is wanted by none of them.
    assert.match(found.next?.text ?? '', /^a kick at the slug coil: `grey to turquoise`/);
  });

  it('follow from a tap without a kick: the part up to it is the longer one', () => {
    const turns = ['bobbin six', 'wire plain-42', 'packing 0.65', 'turns 5_000', 'tap 4_000 turns orange'];
    const shop =
      'wire plain-42 {\n  gauge 42 AWG\n  overall 0.070 mm\n}\nbobbin six {\n  core 63.0 x 5.6 mm\n  window 7.2 x 4.8 mm\n}\n';
    const lines = ['violet to pink 4.0 kohm', 'violet to orange 0.85 kohm', 'pink to orange 3.15 kohm'];
    const text = shop + drawer(lines, { coils: coil('main', turns), conductors: 'violet pink' });
    assert.deepEqual(endsOf(identify(text)), [['pink', 'violet']]);
    // Half way up, the two parts are too alike to tell.
    const half = text.replace('4_000', '2_550').replace('0.85', '2.00').replace('3.15', '2.00');
    assert.deepEqual(endsOf(identify(half)), [[undefined, undefined]]);
  });
});

describe('a shield among the leads', () => {
  it('is a conductor that reads nothing to the metal, and no coil’s', () => {
    const found = identify(
      drawer([...PAIRS, 'blue to baseplate 0.3 ohm', 'kick violet to pink at screw approach positive'], {
        conductors: 'violet grey pink turquoise blue',
        more: '  baseplate nickel-silver\n',
      }),
    );
    assert.deepEqual(
      found.shields.map(({ lead, part }) => [lead, part]),
      [['blue', 'baseplate']],
    );
    assert.deepEqual(leadsOf(found), ['violet pink', 'grey turquoise']);
  });

  it('that carries a coil’s end is found, where there is a conductor too few', () => {
    const found = identify(
      drawer(
        [
          'violet to bare 4.02 kohm',
          'grey to pink 3.99 kohm',
          'violet to grey open',
          'violet to pink open',
          'grey to bare open',
          'pink to bare open',
          'kick violet to bare at slug approach positive',
          'kick grey to pink at screw approach positive',
        ],
        { conductors: 'violet grey pink', more: '  shield bare\n' },
      ),
    );
    assert.equal(found.assuming, 'shared');
    assert.deepEqual(
      found.coils.map(({ leads }) => [...(leads ?? [])].sort()),
      [
        ['grey', 'pink'],
        ['bare', 'violet'],
      ],
    );
  });
});

describe('what is not deduced', () => {
  it('is an end that no lead brings out: two coils joined inside', () => {
    const found = identify(
      drawer(
        [
          'violet to pink 8.01 kohm',
          'kick violet to pink at screw approach positive',
          'kick violet to pink at slug approach positive',
        ],
        { conductors: 'violet pink' },
      ),
    );
    assert.equal(found.assuming, 'shared');
    assert.deepEqual([found.contradicts, leadsOf(found)], [[], [undefined, undefined]]);
  });

  it('of readings that contradict each other, those are told that alone make it so', () => {
    const found = identify(
      drawer([
        ...PAIRS,
        'kick violet to pink at screw approach positive',
        'kick violet to pink at screw approach negative',
      ]),
    );
    assert.deepEqual(leadsOf(found), [undefined, undefined]);
    assert.deepEqual(
      found.contradicts.map(({ chunk, span }) => chunk.text.slice(span.start, span.end)),
      ['kick violet to pink at screw approach positive', 'kick violet to pink at screw approach negative'],
    );
    assert.equal(found.next, undefined);
  });

  it('a reading with the leads joined says nothing of single leads', () => {
    const found = identify(drawer(['violet to pink 4.02 kohm', 'hot to ground 8.01 kohm']));
    assert.deepEqual(found.pairs, []);
  });

  it('a pickup whose leads are stated has nothing to find', () => {
    const stated = coil('main', ['start grey', 'finish violet']);
    assert.deepEqual(identify(drawer([], { coils: stated, conductors: 'pink' })).coils, []);
  });

  it('nothing is looked at where there is too much to look at', () => {
    const names = ['a', 'b', 'c', 'd', 'e', 'f'];
    const conductors = names.flatMap((name) => [`${name}1`, `${name}2`]).join(' ');
    const found = identify(drawer([], { coils: names.map((name) => coil(name)).join(''), conductors }));
    assert.equal(found.tooMany, true);
    assert.deepEqual(
      leadsOf(found),
      names.map(() => undefined),
    );
  });
});

describe('the next measurement', () => {
  it('is one kick where two pairs are read and nothing else is wanted', () => {
    const known =
      coil('screw', ['wound clockwise', 'polarity north-up']) +
      coil('slug', ['start to grey', 'finish to turquoise', 'wound clockwise']);
    const found = identify(drawer(['violet to pink 4.02 kohm', 'grey to turquoise 3.99 kohm'], { coils: known }));
    assert.match(
      found.next?.text ?? '',
      /^a kick at the screw coil: `violet to pink`, with approach or pull-off stated$/,
    );
    assert.equal(found.next?.settles, true);
  });
});
