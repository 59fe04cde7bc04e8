/**
 * The hookup that kicks prove, for every pickup of two coils that there is: wind and poles of each, and which lead is whose. What a kick
 * reads is the rule of test/physics/reference/sign-table.json: north-up, wound clockwise, red probe on the finish, approach is positive.
 */
import assert from 'node:assert/strict';
import { identifiedLeads } from '../../server/src/repair/identified-leads.ts';
import { analyse } from '../support/check-fixture.ts';
import { applyEdits } from '../support/text-edits.ts';

interface True {
  readonly name: string;
  readonly wound: 'clockwise' | 'counterclockwise';
  readonly poles: 'north-up' | 'south-up';
  /** Start, finish. */
  readonly leads: readonly [string, string];
}

const ends = <T>([a, b]: readonly [T, T]): readonly (readonly [T, T])[] => [
  [a, b],
  [b, a],
];
const WOUND = ['clockwise', 'counterclockwise'] as const;
const POLES = ['north-up', 'south-up'] as const;

const coils = (name: string, leads: readonly [string, string]): readonly True[] =>
  WOUND.flatMap((wound) =>
    POLES.flatMap((poles) => ends(leads).map((each): True => ({ name, wound, poles, leads: each }))),
  );

/** Red on the lead that comes first by its name, so that the text says nothing of start and finish. */
function kick({ name, wound, poles, leads }: True): string {
  const [red = '', black = ''] = [...leads].sort();
  const onFinish = red === leads[1];
  const positive = (wound === 'clockwise') === (poles === 'north-up') ? onFinish : !onFinish;
  return `    kick ${red} to ${black} at ${name} approach ${positive ? 'positive' : 'negative'}\n`;
}

const read = ({ leads }: True) => `    ${[...leads].sort().join(' to ')} 4.02 kohm\n`;

const pickup = (blocks: string, pair: readonly True[], compass: boolean) => `pickup heron {
  conductors violet grey pink turquoise
${blocks}  readings "on the bench" 2026-08-02 {
${pair.map((each) => read(each) + kick(each)).join('')}${compass ? pair.map(({ name, poles }) => `    compass ${name} ${poles}\n`).join('') : ''}  }
}
`;

const PARTS =
  'wire w {\n  diameter 0.0635 mm\n  overall 0.070 mm\n}\nbobbin b {\n  core 60 x 5.8 mm\n  window 11 x 6 mm\n}\n';

const unknown = (pair: readonly True[]) => pair.map(({ name }) => `  coil ${name} {\n  }\n`).join('');
const traced = (pair: readonly True[]) =>
  pair
    .map(
      ({ name, wound, poles, leads }) =>
        `  coil ${name} {\n    bobbin b\n    wire w\n    turns 5_000\n    wound ${wound}\n    polarity ${poles}\n    start to ${leads[0]}\n    finish to ${leads[1]}\n  }\n`,
    )
    .join('');

describe('the hookup to solder', () => {
  for (const screw of coils('screw', ['pink', 'violet']))
    it(`is in phase, and quiet where poles are unlike: screw ${screw.wound}, ${screw.poles}, start ${screw.leads[0]}`, () => {
      for (const slug of coils('slug', ['turquoise', 'grey'])) {
        const pair = [screw, slug];
        const text = pickup(unknown(pair), pair, true);
        const fact = offered(text);
        assert.ok(fact, text);
        const lines = hookupOf(text, fact.edits);
        // The same joints in a spec that says what is true.
        const truth = PARTS + pickup(traced(pair), pair, true).replace(/\}\n$/, `${lines}}\n`);
        const [quick] = analyse(truth).pickups.map((each) => each.quick);
        const unlike = screw.poles !== slug.poles;
        assert.equal(quick?.phase, 'in', truth);
        assert.equal((quick?.humDb?.value ?? Number.NaN) < -20, unlike, truth);
        assert.match(fact.hint ?? '', unlike ? /hum cancels/ : /hum adds/);
        assert.match(fact.hint ?? '', /is a choice/);
      }
    });

  it('is not for coils of which one lies under some strings only', () => {
    const [screw] = coils('screw', ['pink', 'violet']);
    const [slug] = coils('slug', ['turquoise', 'grey']);
    assert.ok(screw && slug);
    const text = pickup(unknown([screw, slug]), [screw, slug], true);
    assert.ok(offered(text));
    for (const name of ['screw', 'slug'])
      assert.equal(offered(text.replace(`coil ${name} {`, `coil ${name} {\n    serves strings 1 to 3`)), undefined);
  });

  it('waits for a kick at each coil, and says what a compass would tell', () => {
    const [screw] = coils('screw', ['pink', 'violet']);
    const [slug] = coils('slug', ['turquoise', 'grey']);
    assert.ok(screw && slug);
    const text = pickup(unknown([screw, slug]), [screw, slug], false);
    assert.match(offered(text)?.hint ?? '', /Whether its hum cancels, a compass over each coil tells/);
    assert.equal(offered(text.replace(/ {4}kick .* at slug .*\n/, '')), undefined);
  });
});

const TWO = '  coil screw {\n  }\n  coil slug {\n  }\n';
const READ = [
  'violet to pink 4.02 kohm',
  'grey to turquoise 3.99 kohm',
  'kick violet to pink at screw approach positive',
  'kick grey to turquoise at slug approach positive',
];
const drawer = (
  lines: readonly string[],
  { coils = TWO, conductors = 'violet grey pink turquoise', more = '' } = {},
) => `pickup heron {
  conductors ${conductors}
${more}${coils}  readings "on the bench" 2026-08-02 {
${lines.map((line) => `    ${line}\n`).join('')}  }
}
`;
const titles = (text: string): readonly string[] => {
  const analysis = analyse(text);
  const [found] = analysis.model.pickups;
  assert.ok(found);
  return identifiedLeads(analysis, found).facts.map(({ title }) => title);
};

describe('leads that two coils share', () => {
  /** Pink lies on both coils already. */
  const joined = (screwKick: string, slugKick: string): string =>
    drawer(
      [screwKick, slugKick].map((kick) => `kick ${kick} approach positive`),
      {
        conductors: 'violet pink grey',
        coils:
          '  coil screw {\n    start to pink\n    finish to violet\n  }\n  coil slug {\n    start to grey\n    finish to pink\n  }\n',
      },
    );
  const lines = (text: string) => hookupOf(text, offered(text)?.edits ?? []).match(/(?:hot|free|ground|link) .*/g);

  it('are taped off, and the coil whose plus they are not lies on hot', () => {
    assert.deepEqual(lines(joined('violet to pink at screw', 'pink to grey at slug')), [
      'hot violet',
      'free pink',
      'ground grey',
    ]);
    assert.deepEqual(lines(joined('pink to violet at screw', 'grey to pink at slug')), [
      'hot grey',
      'free pink',
      'ground violet',
    ]);
  });

  it('as plus of both, or as minus, allow no series in phase', () => {
    assert.equal(lines(joined('pink to violet at screw', 'pink to grey at slug')), null);
    assert.equal(lines(joined('violet to pink at screw', 'grey to pink at slug')), null);
  });
});

describe('what is known of leads', () => {
  it('puts the shield on ground, the stated one or the one that lies on the metal', () => {
    const hookup = (text: string) => titles(text).find((title) => title.startsWith('Solder'));
    assert.equal(
      hookup(drawer(READ, { more: '  shield bare\n' })),
      'Solder in series, in phase: hot violet, pink with grey, ground turquoise and bare',
    );
    const onMetal = drawer([...READ, 'blue to baseplate 0.2 ohm'], {
      conductors: 'violet grey pink turquoise blue',
      more: '  baseplate nickel-silver\n',
    });
    assert.deepEqual(titles(onMetal), [
      'blue is the shield: write `shield blue`',
      'Solder in series, in phase: hot violet, pink with grey, ground turquoise and blue',
    ]);
  });

  it('makes one of two conductors on the metal the shield, and none where one is stated', () => {
    const metal = '  baseplate nickel-silver\n';
    const both = [...READ, 'blue to baseplate 0.2 ohm', 'orange to baseplate 0.3 ohm'];
    const conductors = 'violet grey pink turquoise blue orange';
    assert.deepEqual(titles(drawer(both, { conductors, more: metal })), ['blue is the shield: write `shield blue`']);
    assert.deepEqual(titles(drawer(both, { conductors, more: `  shield bare\n${metal}` })), []);
  });

  it('is not soldered in series where there are three coils', () => {
    assert.deepEqual(titles(drawer(READ, { coils: `${TWO}  coil third {\n  }\n` })), []);
  });

  it('says of the hum what the poles say: stated, by the last compass of each coil, or by a stack', () => {
    const hint = (lines: readonly string[], coils = TWO): string | undefined =>
      / (?:Hum then|The poles|Whether) .*$/.exec(offered(drawer([...READ, ...lines], { coils }))?.hint ?? '')?.[0];
    const stated = TWO.replace('screw {', 'screw {\n    polarity north-up').replace(
      'slug {',
      'slug {\n    polarity south-up',
    );
    const [unlike, alike, open] = [
      ' The poles are unlike, so its hum cancels.',
      ' The poles are alike, so its hum adds: no wiring of these coils changes that.',
      ' Whether its hum cancels, a compass over each coil tells: it does where their poles are unlike.',
    ];
    assert.equal(hint([], stated), unlike);
    assert.equal(hint(['compass screw north-up']), open);
    assert.equal(hint(['compass slug south-up', 'compass screw south-up', 'compass screw north-up']), unlike);
    assert.equal(hint(['compass slug north-up', 'compass screw south-up', 'compass screw north-up']), alike);
    const stack = '  coil screw {\n  }\n  coil slug {\n    below screw\n  }\n';
    assert.equal(hint([], stack), ' Hum then cancels: the lower coil lies on the same poles.');
  });

  it('leaves start and finish to be chosen where no reading tells them: of all coils at once first, of one coil alone', () => {
    const choice = (coil: string, start: string, wound: string) =>
      `${start} as the start of the ${coil} coil, then wound ${wound}`;
    const rest = ' (no reading tells start from finish)';
    const compass = ['compass screw north-up', 'compass slug south-up'];
    const screw = ['violet', 'pink'].map((lead, index) =>
      choice('screw', lead, index === 0 ? 'counterclockwise' : 'clockwise'),
    );
    const slug = ['grey', 'turquoise'].map((lead, index) =>
      choice('slug', lead, index === 0 ? 'clockwise' : 'counterclockwise'),
    );
    const chosen = (text: string) => titles(text).filter((title) => title.startsWith('Choose'));
    assert.deepEqual(chosen(drawer([...READ, ...compass])), [
      `Choose ${screw[0]} and ${slug[0]}${rest}`,
      ...[...screw, ...slug].map((each) => `Choose ${each}${rest}`),
    ]);
    assert.deepEqual(
      chosen(drawer([...READ, ...compass.slice(0, 1)])),
      screw.map((each) => `Choose ${each}${rest}`),
    );
  });
});

function offered(text: string) {
  const analysis = analyse(text);
  const [found] = analysis.model.pickups;
  assert.ok(found);
  const fact = identifiedLeads(analysis, found).facts.find(({ isHookup }) => isHookup);
  return fact && { ...fact, edits: fact.edits.map(({ place, newText }) => ({ at: analysis.locate(place), newText })) };
}

function hookupOf(
  text: string,
  edits: readonly {
    readonly at: { readonly start: number; readonly end: number } | undefined;
    readonly newText: string;
  }[],
): string {
  const after = applyEdits(
    text,
    edits.flatMap(({ at, newText }) => (at ? [{ at, newText }] : [])),
  );
  return / {2}hookup \{[\s\S]*?\n {2}\}\n/.exec(after)?.[0] ?? '';
}
