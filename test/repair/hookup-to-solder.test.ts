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
