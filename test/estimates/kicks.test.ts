/**
 * What kicks, compasses and statements say of a coil's sense. A coil wound clockwise with its north pole up reads positive on the red
 * probe at its finish as steel comes near (test/physics/reference/sign-table.json, from a simulation that knows no formula); each of wind,
 * pole, motion and probes turned round turns the sign.
 */
import assert from 'node:assert/strict';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import { type CoilSigns, sounds } from '../../server/src/estimates/signs.ts';
import { analyse } from '../support/check-fixture.ts';

const coil = (name: string, ...lines: readonly string[]) =>
  `  coil ${name} {\n    start ${name}-in\n    finish ${name}-out\n${lines.map((line) => `    ${line}\n`).join('')}  }\n`;
const bare = (name: string, ...lines: readonly string[]) =>
  `  coil ${name} {\n${lines.map((line) => `    ${line}\n`).join('')}  }\n`;
const hookup = (...lines: readonly string[]) => `  hookup {\n${lines.map((line) => `    ${line}\n`).join('')}  }\n`;
const readings = (lines: readonly string[], title = '"bench" 2026-10-02') =>
  `  readings ${title} {\n${lines.map((line) => `    ${line}\n`).join('')}  }\n`;
const pickup = (...parts: readonly string[]) => `pickup p {\n${parts.join('')}}\n`;

/** Signs of the coils of the last pickup of a text. */
function signsOf(text: string): readonly CoilSigns[] {
  const pickupOf = analyse(text).model.pickups.at(-1);
  assert.ok(pickupOf);
  return quickOf(undefined)(pickupOf).signs;
}
/** Wind, pole and their product of each coil; 0: not known. */
const known = (text: string) =>
  signsOf(text).map(({ wind, pole, windPole }) => [wind?.sign ?? 0, pole?.sign ?? 0, windPole?.sign ?? 0]);
const [CLOCKWISE, NORTH] = [-1, 1];

describe('a kick at one coil', () => {
  const kicked = (line: string, ...lines: readonly string[]) => known(pickup(coil('a', ...lines), readings([line])))[0];

  it('gives wind times pole, from its probes, its motion and its sign', () => {
    for (const [line, product] of [
      ['kick a-out to a-in approach positive', CLOCKWISE * NORTH],
      ['kick a-out to a-in approach negative', -CLOCKWISE * NORTH],
      ['kick a-out to a-in pull-off positive', -CLOCKWISE * NORTH],
      ['kick a-out to a-in pull-off negative', CLOCKWISE * NORTH],
      ['kick a-in to a-out approach positive', -CLOCKWISE * NORTH],
      ['kick a-in to a-out pull-off positive', CLOCKWISE * NORTH],
      ['kick a.finish to a.start approach positive', CLOCKWISE * NORTH],
    ] as const)
      assert.deepEqual(kicked(line), [0, 0, product], line);
  });

  it('gives the pole beside a stated wind, and the wind beside a stated pole', () => {
    const line = 'kick a-out to a-in approach positive';
    assert.deepEqual(kicked(line, 'wound clockwise'), [CLOCKWISE, NORTH, CLOCKWISE * NORTH]);
    assert.deepEqual(kicked(line, 'wound counterclockwise'), [-CLOCKWISE, -NORTH, CLOCKWISE * NORTH]);
    assert.deepEqual(kicked(line, 'polarity south-up'), [-CLOCKWISE, -NORTH, CLOCKWISE * NORTH]);
  });

  it('says nothing with both probes on one point, or on points between which the coil gives nothing', () => {
    assert.deepEqual(kicked('kick a-out to a-out approach positive'), [0, 0, 0]);
    assert.deepEqual(kicked('kick nobody to a-in approach positive'), [0, 0, 0]);
    assert.deepEqual(kicked('kick nobody to a-in at a approach positive'), [0, 0, 0]);
    const other = pickup(coil('a'), coil('b'), readings(['kick b-out to b-in at a approach positive']));
    assert.deepEqual(known(other)[0], [0, 0, 0]);
  });

  it('stands with what it rests on: measured, at its line', () => {
    const analysed = analyse(pickup(coil('a', 'wound clockwise'), readings(['kick a-out to a-in approach positive'])));
    const [held] = analysed.model.pickups;
    assert.ok(held);
    const [signs] = quickOf(undefined)(held).signs;
    assert.deepEqual(
      [signs?.wind?.basis, signs?.pole?.basis, signs?.windPole?.basis],
      ['declared', 'measured', 'measured'],
    );
    const places = signs?.pole?.places.map((place) => analysed.text.slice(place.span.start, place.span.end));
    assert.deepEqual(places, ['wound clockwise', 'kick a-out to a-in approach positive']);
    assert.equal(signs?.kicks.length, 1);
  });
});

describe('a kick at a pickup whose leads are joined', () => {
  const row = hookup('hot b-in', 'link a-out b-out', 'ground a-in');

  it('is seen through the joints, of the coil that it names', () => {
    // From hot to ground: through b from start to finish, then through a from finish to start.
    const text = (line: string) => known(pickup(coil('a'), coil('b'), row, readings([line])));
    assert.deepEqual(text('kick hot to ground at a approach positive'), [
      [0, 0, CLOCKWISE],
      [0, 0, 0],
    ]);
    assert.deepEqual(text('kick hot to ground at b approach positive'), [
      [0, 0, 0],
      [0, 0, -CLOCKWISE],
    ]);
    assert.deepEqual(text('kick b-in to a-in at b approach positive'), [
      [0, 0, 0],
      [0, 0, -CLOCKWISE],
    ]);
  });

  it('is of the coil between whose ends the probes lie, where it names none', () => {
    const text = (line: string) => known(pickup(coil('a'), coil('b'), row, readings([line])));
    assert.deepEqual(text('kick a-out to a-in approach positive'), [
      [0, 0, CLOCKWISE],
      [0, 0, 0],
    ]);
    assert.deepEqual(text('kick b-out to b-in approach positive'), [
      [0, 0, 0],
      [0, 0, CLOCKWISE],
    ]);
    assert.deepEqual(text('kick hot to ground approach positive'), [
      [0, 0, 0],
      [0, 0, 0],
    ]);
  });

  it('side by side is of neither, where it names none; and still of the one that it names', () => {
    const beside = hookup('hot a-out b-out', 'ground a-in b-in');
    const text = (line: string) => known(pickup(coil('a'), coil('b'), beside, readings([line])));
    assert.deepEqual(text('kick a-out to a-in approach positive'), [
      [0, 0, 0],
      [0, 0, 0],
    ]);
    assert.deepEqual(text('kick b-out to b-in at b approach positive'), [
      [0, 0, 0],
      [0, 0, CLOCKWISE],
    ]);
  });

  it('at a shorted coil was read before it was joined', () => {
    const shorted = hookup('hot b-in', 'ground b-out a-in a-out');
    const line = 'kick a-out to a-in approach positive';
    assert.deepEqual(known(pickup(coil('a'), coil('b'), shorted, readings([line])))[0], [0, 0, CLOCKWISE]);
  });

  it('may have been read apart: then the joints do not matter', () => {
    const turned = hookup('hot a-in b-in', 'ground a-out b-out');
    const line = 'kick a-out to a-in at a approach positive';
    for (const lines of [[line], ['apart', line]])
      assert.deepEqual(known(pickup(coil('a'), coil('b'), turned, readings(lines)))[0], [0, 0, CLOCKWISE]);
  });

  it('of a tapped coil goes by the part that the probes see', () => {
    const tapped = coil('a', 'turns 5_000', 'tap 2_000 turns a-tap');
    const text = (line: string) =>
      known(pickup(tapped, hookup('hot a-out', 'ground a-in', 'free a-tap'), readings([line])));
    assert.deepEqual(text('kick a-out to a-tap approach positive'), [[0, 0, CLOCKWISE]]);
    assert.deepEqual(text('kick a-in to a-tap approach positive'), [[0, 0, -CLOCKWISE]]);
  });
});

describe('poles', () => {
  it('of coils without leads follow from a kick on their pair and a wind', () => {
    const text = pickup(
      '  conductors violet grey\n',
      bare('a', 'wound clockwise'),
      readings(['kick violet to grey approach positive']),
    );
    assert.deepEqual(known(text), [[CLOCKWISE, NORTH, CLOCKWISE]]);
  });

  it('are those of the bar, one each way, unless a coil states its own', () => {
    const bar = (first: string, ...lines: readonly string[]) =>
      known(pickup(coil('a', ...lines), coil('b'), `  magnet m ${first} toward a\n`)).map(([, pole]) => pole);
    assert.deepEqual(bar('north'), [NORTH, -NORTH]);
    assert.deepEqual(bar('south'), [-NORTH, NORTH]);
    assert.deepEqual(bar('north', 'polarity south-up'), [-NORTH, -NORTH]);
    assert.deepEqual(
      known(pickup(coil('a'), '  magnet m north toward nobody\n')).map(([, pole]) => pole),
      [0],
    );
  });

  it('of the lower coil of a stack are those of the upper one, stated or by a compass', () => {
    const stack = (above: readonly string[], ...lines: readonly string[]) =>
      known(pickup(coil('a', ...above), coil('b', 'below a'), ...(lines.length > 0 ? [readings(lines)] : []))).map(
        ([, pole]) => pole,
      );
    assert.deepEqual(stack(['polarity south-up']), [-NORTH, -NORTH]);
    assert.deepEqual(stack([], 'compass a south-up'), [-NORTH, -NORTH]);
    assert.deepEqual(stack([], 'compass a south-up', 'compass b north-up'), [-NORTH, NORTH]);
    assert.deepEqual(stack([], 'compass b north-up'), [0, NORTH]);
  });

  it('go by what is stated before a compass, and by a compass before a kick', () => {
    const stated = signsOf(pickup(coil('a', 'polarity north-up'), readings(['compass a south-up'])))[0];
    assert.deepEqual([stated?.pole?.sign, stated?.pole?.basis, stated?.compasses.length], [NORTH, 'declared', 1]);
    const measured = signsOf(
      pickup(coil('a', 'wound clockwise'), readings(['kick a-out to a-in approach positive', 'compass a south-up'])),
    )[0];
    assert.deepEqual([measured?.pole?.sign, measured?.pole?.basis, measured?.windPole?.sign], [-NORTH, 'measured', 1]);
  });
});

describe('the wind', () => {
  const wind = (...lines: readonly string[]) => {
    const [signs] = signsOf(pickup(coil('a', ...lines)));
    return [signs?.wind?.sign, signs?.wind?.basis];
  };

  it('is as stated, or as the spindle gives it', () => {
    assert.deepEqual(wind('wound counterclockwise'), [-CLOCKWISE, 'declared']);
    const one = wind('spindle clockwise, top toward it');
    const other = wind('spindle counterclockwise, top toward it');
    assert.deepEqual([one[1], other[1]], ['derived', 'derived']);
    assert.equal(Number(one[0]), -Number(other[0]));
    assert.deepEqual(wind('wound clockwise', 'spindle clockwise, top toward it')[1], 'declared');
  });
});

describe('what reaches the output', () => {
  const senses = (...lines: readonly string[]) =>
    signsOf(
      pickup(
        coil('a', 'wound clockwise', 'polarity north-up'),
        coil('b', 'wound clockwise', 'polarity south-up'),
        hookup(...lines),
      ),
    ).map((signs) => [signs.string, signs.hum, sounds(signs)]);

  it('has the sense of wind and pole times the direction in the path', () => {
    assert.deepEqual(senses('hot b-in', 'link a-out b-out', 'ground a-in'), [
      [CLOCKWISE * NORTH, CLOCKWISE, true],
      [-CLOCKWISE * -NORTH, -CLOCKWISE, true],
    ]);
    assert.deepEqual(senses('hot b-out', 'link a-out b-in', 'ground a-in'), [
      [CLOCKWISE * NORTH, CLOCKWISE, true],
      [CLOCKWISE * -NORTH, CLOCKWISE, true],
    ]);
  });

  it('has none where nothing gets there: no path, a short, one end alone', () => {
    assert.deepEqual(senses('hot b-in', 'ground a-in'), [
      [undefined, undefined, false],
      [undefined, undefined, false],
    ]);
    assert.deepEqual(senses('hot b-in', 'ground b-out a-in a-out')[0], [undefined, undefined, false]);
    assert.deepEqual(senses('hot b-in', 'link b-out a-in a-out'), [
      [undefined, undefined, false],
      [undefined, undefined, false],
    ]);
    assert.deepEqual(senses('hot b-in', 'ground b-out', 'free a-in a-out'), [
      [undefined, undefined, false],
      [-CLOCKWISE * -NORTH, -CLOCKWISE, true],
    ]);
  });

  it('of coils side by side is shared by their resistances', () => {
    const [a, b] = signsOf(
      pickup(
        coil('a', 'turns 5_000'),
        coil('b', 'turns 5_000'),
        hookup('hot a-out b-in', 'ground a-in b-out'),
        readings(['a 3.00 kohm at 20 degC', 'b 6.00 kohm at 20 degC'], 'apart "bench" 2026-10-02'),
      ),
    );
    assert.equal(a?.transfer?.toFixed(2), '0.67');
    assert.equal(b?.transfer?.toFixed(2), '-0.33');
  });
});

describe('a pickup that was worked on', () => {
  const reworked = (old: readonly string[], now: readonly string[]) =>
    `pickup old {\n${old.join('')}}\npickup new reworks old {\n${now.join('')}}\n`;
  const KICK = 'kick a-out to a-in approach positive';

  it('keeps the wind of a coil that was kept, and its pole with the magnet', () => {
    const old = [coil('a', 'wound clockwise', 'polarity north-up')];
    const now = (...lines: readonly string[]) => known(reworked(old, [coil('a', ...lines)]))[0];
    assert.deepEqual(now('kept'), [CLOCKWISE, NORTH, CLOCKWISE * NORTH]);
    assert.deepEqual(now('new'), [0, NORTH, 0]);
  });

  it('keeps what a kick proved of it, turned with the rods', () => {
    const old = [coil('a'), readings([KICK])];
    const now = (...lines: readonly string[]) => known(reworked(old, [coil('a', ...lines)]))[0];
    assert.deepEqual(now('kept'), [0, 0, CLOCKWISE]);
    assert.deepEqual(now('kept', 'polarity north-up, kept'), [CLOCKWISE, NORTH, CLOCKWISE]);
    assert.deepEqual(now('kept', 'polarity north-up, turned'), [-CLOCKWISE, NORTH, -CLOCKWISE]);
    assert.deepEqual(now('kept', 'polarity north-up, new'), [0, NORTH, 0]);
    assert.deepEqual(now('new', 'polarity north-up, kept'), [0, NORTH, 0]);
  });

  it('has a bar of one pole each way, also where nobody knows which, once it was exchanged', () => {
    const bar = (work: string) =>
      signsOf(
        reworked(
          [coil('a', 'wound clockwise'), coil('b', 'wound clockwise'), readings([KICK])],
          [coil('a', 'kept'), coil('b', 'kept'), `  magnet m north toward a, ${work}\n`],
        ),
      ).map(({ found, pole }) => [found?.pole?.sign ?? 0, pole?.sign ?? 0]);
    assert.deepEqual(bar('new'), [
      [NORTH, NORTH],
      [-NORTH, -NORTH],
    ]);
    assert.deepEqual(bar('turned'), [
      [-NORTH, NORTH],
      [NORTH, -NORTH],
    ]);
  });

  it('has a bar that leaves a coil of its own poles as they are, and so a coil that was taken out', () => {
    const old = (...more: readonly string[]) => [coil('a', 'wound clockwise'), ...more, readings([KICK])];
    const poles = (text: string) => signsOf(text).map(({ coil: { name }, pole }) => `${name} ${pole?.sign ?? 0}`);
    // What it was found by: a kick at `a`, of then. Over it and `b` lay a bar, under `c` rods.
    const three = reworked(old(coil('b'), coil('c', 'polarity north-up')), [
      coil('a', 'kept'),
      coil('b', 'kept'),
      coil('c', 'kept', 'polarity north-up, kept'),
      '  magnet m north toward a, new\n',
    ]);
    assert.deepEqual(poles(three), [`a ${NORTH}`, `b ${-NORTH}`, `c ${NORTH}`]);
    const found = signsOf(three).map(({ found: then }) => then?.pole?.sign ?? 0);
    assert.deepEqual(found, [NORTH, -NORTH, NORTH]);
    const fewer = reworked(
      [coil('a', 'wound clockwise', 'polarity north-up'), coil('b', 'polarity south-up')],
      ['  without b\n', coil('a', 'kept')],
    );
    assert.deepEqual(poles(fewer), [`a ${NORTH}`]);
  });

  it('tells what was found of it, and a kick of then that contradicts what is stated now', () => {
    const [signs] = signsOf(
      reworked([coil('a', 'polarity north-up'), readings([KICK])], [coil('a', 'kept', 'polarity south-up, turned')]),
    );
    assert.deepEqual(
      [signs?.found?.wind?.sign, signs?.found?.pole?.sign, signs?.pole?.sign],
      [CLOCKWISE, NORTH, -NORTH],
    );
    const against = (wound: string) =>
      signsOf(
        reworked(
          [coil('a', 'polarity north-up'), readings([KICK])],
          [coil('a', 'kept', 'polarity north-up, kept', `wound ${wound}`)],
        ),
      )[0]?.foundAgainst?.against.sign;
    assert.equal(against('clockwise'), undefined);
    assert.notEqual(against('counterclockwise'), undefined);
    const never = signsOf(pickup(coil('a', 'wound clockwise', 'polarity south-up'), readings([KICK])))[0];
    assert.deepEqual([never?.found, never?.foundAgainst], [undefined, undefined]);
  });

  it('tells of each coil what is of that coil, and only of a wind that is stated now', () => {
    const kicks = [KICK, 'kick b-out to b-in approach positive'];
    const then = [coil('a', 'polarity north-up'), coil('b', 'polarity north-up'), readings(kicks)];
    const against = (a: readonly string[], b: readonly string[]) =>
      signsOf(reworked(then, [coil('a', 'kept', ...a), coil('b', 'kept', ...b)])).map(
        ({ foundAgainst }) => foundAgainst?.kick.place.span.start !== undefined,
      );
    assert.deepEqual(against(['wound counterclockwise'], ['wound clockwise']), [true, false]);
    assert.deepEqual(against(['wound clockwise'], ['wound counterclockwise']), [false, true]);
    assert.deepEqual(against([], []), [false, false]);
    // Two kicks of then that contradict each other are no wind that is stated now.
    const odd = [coil('a', 'polarity north-up'), readings([KICK, KICK.replace('positive', 'negative')])];
    assert.equal(signsOf(reworked(odd, [coil('a', 'kept')]))[0]?.foundAgainst, undefined);
  });

  it('tells what was found, whatever was read since', () => {
    const now = [coil('a', 'kept'), readings(['kick a-out to a-in approach positive'])];
    const [signs] = signsOf(reworked([coil('a', 'polarity north-up'), readings([KICK])], now));
    assert.deepEqual([signs?.found?.wind?.sign, signs?.kicks.length], [CLOCKWISE, 1]);
  });
});
