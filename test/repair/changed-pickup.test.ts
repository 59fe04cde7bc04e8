/** A pickup with changes made to it, as its lines would then read; and where a change cannot be made, that it is not. */
import assert from 'node:assert/strict';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import { looseNetlist } from '../../server/src/model/netlist.ts';
import type { Pickup } from '../../server/src/model/pickup.ts';
import {
  changedPickup,
  endOnShield,
  freedLeadName,
  leadSwap,
  NO_CHANGE,
  type PickupChange,
  sharedShieldJoint,
  turnedCoils,
} from '../../server/src/repair/changed-pickup.ts';
import { analyse } from '../support/check-fixture.ts';

const coil = (name: string, ...lines: readonly string[]) =>
  `  coil ${name} {\n${lines.map((line) => `    ${line}\n`).join('')}  }\n`;
const hookup = (...lines: readonly string[]) => `  hookup {\n${lines.map((line) => `    ${line}\n`).join('')}  }\n`;
const pickupOf = (...parts: readonly string[]): Pickup => {
  const pickup = analyse(`pickup p {\n${parts.join('')}}\n`).model.pickups[0];
  assert.ok(pickup);
  return pickup;
};

const A = coil('a', 'wound clockwise', 'polarity north-up', 'start a-in', 'finish a-out');
const B = coil('b', 'wound clockwise', 'polarity south-up', 'start b-in', 'finish b-out');
const ROW = hookup('hot b-in', 'link a-out b-out', 'ground a-in');

const changedBy = (pickup: Pickup, change: Partial<PickupChange>): Pickup | undefined =>
  changedPickup(pickup, quickOf(undefined)(pickup).signs, { ...NO_CHANGE, ...change });

/** The lines of the hookup; `undefined` where the change cannot be made. */
const joints = (pickup: Pickup | undefined) =>
  pickup?.hookup?.joints.map(({ kind, leads }) => [kind, ...leads.map(({ text }) => text)].join(' '));
const leadOf = (lead: Pickup['coils'][number]['start']) =>
  lead && [lead.value.own?.value, lead.value.to && `to ${lead.value.to.value.text}`].filter(Boolean).join(' ');
/** What is said of each coil. */
const coils = (pickup: Pickup | undefined) =>
  pickup?.coils.map((each) =>
    [
      each.name,
      each.wound?.value,
      each.spindle && `spindle ${each.spindle.value.rotation}`,
      each.polarity?.value,
      each.rods,
      leadOf(each.start),
      leadOf(each.finish),
    ]
      .filter(Boolean)
      .join(', '),
  );

describe('leads that change places', () => {
  it('do so in the lines of the hookup', () => {
    const pickup = pickupOf(A, B, ROW);
    assert.deepEqual(joints(changedBy(pickup, { leadsSwapped: ['b'] })), [
      'hot b-out',
      'link a-out b-in',
      'ground a-in',
    ]);
    assert.deepEqual(joints(changedBy(pickup, { leadsSwapped: ['a', 'b'] })), [
      'hot b-out',
      'link a-in b-in',
      'ground a-out',
    ]);
    assert.equal(leadSwap(pickup, 'b', looseNetlist(pickup))?.where, 'outside');
  });

  it('do so under the tape where the hookup names ends', () => {
    const pickup = pickupOf(A, B, hookup('hot b-in', 'link a-out b.finish', 'ground a-in'));
    assert.equal(leadSwap(pickup, 'b', looseNetlist(pickup))?.where, 'inner joint');
    assert.deepEqual(joints(changedBy(pickup, { leadsSwapped: ['b'] })), [
      'hot b.finish',
      'link a-out b-in',
      'ground a-in',
    ]);
  });

  it('do so where they are soldered to conductors, if something else hangs on one of these', () => {
    const inside = (...more: readonly string[]) =>
      pickupOf(
        '  conductors violet grey\n  shield bare\n',
        coil('a', 'start to bare', 'finish to violet'),
        ...more,
        hookup('hot violet', 'ground bare'),
      );
    const pickup = inside('  baseplate nickel-silver tied to bare\n');
    assert.equal(leadSwap(pickup, 'a', looseNetlist(pickup))?.where, 'inside');
    const changed = changedBy(pickup, { leadsSwapped: ['a'] });
    assert.deepEqual(coils(changed), ['a, to violet, to bare']);
    assert.deepEqual(joints(changed), ['hot violet', 'ground bare']);
  });

  it('of another coil on the same conductor are not swapped outside', () => {
    const pickup = pickupOf(
      '  conductors violet grey pink\n',
      coil('a', 'start to violet', 'finish to grey'),
      coil('b', 'start to grey', 'finish to pink'),
      hookup('hot pink', 'ground violet', 'free grey'),
    );
    assert.equal(leadSwap(pickup, 'a', looseNetlist(pickup))?.where, 'inside');
    assert.deepEqual(coils(changedBy(pickup, { leadsSwapped: ['b'] })), [
      'a, to violet, to grey',
      'b, to pink, to grey',
    ]);
  });

  it('that are named nowhere, twice, or lie on one point cannot', () => {
    for (const lines of [
      ['hot b-in', 'ground a-in'],
      ['hot b-in', 'link a-out b-out', 'ground a-in a-out'],
    ]) {
      const pickup = pickupOf(A, B, hookup(...lines));
      assert.equal(changedBy(pickup, { leadsSwapped: ['a'] }), undefined, lines.join());
    }
    const shorted = pickupOf('  conductors violet\n', coil('a', 'start to violet', 'finish to violet'));
    assert.equal(changedBy(shorted, { leadsSwapped: ['a'] }), undefined);
    const nobody = pickupOf(A, ROW);
    assert.equal(leadSwap(nobody, 'nobody', looseNetlist(nobody)), undefined);
  });
});

describe('coils that are wound again or turned', () => {
  it('state the other way round', () => {
    assert.deepEqual(coils(changedBy(pickupOf(A, B, ROW), { rewound: ['a'] })), [
      'a, counterclockwise, north-up, a-in, a-out',
      'b, clockwise, south-up, b-in, b-out',
    ]);
    assert.deepEqual(coils(changedBy(pickupOf(A, B, ROW), { rodsTurned: ['b'] })), [
      'a, clockwise, north-up, a-in, a-out',
      'b, clockwise, north-up, b-in, b-out',
    ]);
  });

  it('turn the spindle that states their wind, and leave it when only rods are turned', () => {
    const spun = pickupOf(
      coil('a', 'spindle clockwise, top toward it', 'polarity north-up', 'start a-in', 'finish a-out'),
    );
    assert.deepEqual(coils(changedBy(spun, { rewound: ['a'] })), [
      'a, spindle counterclockwise, north-up, a-in, a-out',
    ]);
    assert.deepEqual(coils(changedBy(spun, { rodsTurned: ['a'] })), ['a, spindle clockwise, south-up, a-in, a-out']);
    const both = pickupOf(
      coil('a', 'wound clockwise', 'spindle clockwise, top toward it', 'start a-in', 'finish a-out'),
    );
    assert.deepEqual(coils(changedBy(both, { rewound: ['a'] })), [
      'a, counterclockwise, spindle counterclockwise, a-in, a-out',
    ]);
  });

  it('state the wind that a kick proved before, which then holds no longer', () => {
    const kicked = pickupOf(
      coil('a', 'polarity north-up', 'start a-in', 'finish a-out'),
      '  readings "bench" 2026-10-02 {\n    kick a-out to a-in approach positive\n  }\n',
    );
    assert.deepEqual(coils(changedBy(kicked, { rodsTurned: ['a'] })), ['a, clockwise, south-up, a-in, a-out']);
    assert.deepEqual(coils(changedBy(kicked, { rewound: ['a'] })), ['a, counterclockwise, north-up, a-in, a-out']);
  });

  it('cannot be where the wind is not known', () => {
    const unknown = pickupOf(coil('a', 'polarity north-up', 'start a-in', 'finish a-out'));
    assert.equal(changedBy(unknown, { rewound: ['a'] }), undefined);
    assert.equal(changedBy(unknown, { rodsTurned: ['a'] }), undefined);
    assert.deepEqual(coils(changedBy(unknown, {})), ['a, north-up, a-in, a-out']);
  });

  it('over poles that only a compass tells of state them, turned', () => {
    const seen = pickupOf(
      coil('a', 'wound clockwise', 'start a-in', 'finish a-out'),
      hookup('hot a-out', 'ground a-in'),
      '  readings "bench" 2026-10-02 {\n    compass a north-up\n  }\n',
    );
    assert.deepEqual(coils(changedBy(seen, { barTurned: true })), ['a, clockwise, south-up, turned, a-in, a-out']);
  });

  it('over a bar turn with it, and keep their lines', () => {
    const lines = (name: string) => coil(name, 'wound clockwise', `start ${name}-in`, `finish ${name}-out`);
    const bar = pickupOf(lines('a'), lines('b'), '  magnet m north toward a\n', ROW);
    const turned = changedBy(bar, { barTurned: true });
    assert.equal(turned?.barMagnet?.value.pole, 'south');
    assert.deepEqual(coils(turned), ['a, clockwise, a-in, a-out', 'b, clockwise, b-in, b-out']);
    assert.equal(changedBy(bar, { rewound: ['a'] })?.barMagnet?.value.pole, 'north');
    assert.equal(changedBy(pickupOf(A, B, ROW), { barTurned: true }), undefined);
  });

  it('are all those over the bar but one whose rods are turned too, and the lower coil with the upper one', () => {
    const stack = pickupOf(A, coil('low', 'below a'), coil('stray', 'below nobody'), B);
    assert.deepEqual(turnedCoils(stack, ['a'], false), ['a', 'low']);
    assert.deepEqual(turnedCoils(stack, ['stray'], false), ['stray']);
    assert.deepEqual(turnedCoils(stack, [], true), ['a', 'low', 'stray', 'b']);
    assert.deepEqual(turnedCoils(stack, ['b'], true), ['a', 'low', 'stray']);
  });
});

describe('hot and ground', () => {
  it('change places with all that lies on them', () => {
    assert.deepEqual(joints(changedBy(pickupOf(A, B, ROW), { hotAndGroundSwapped: true })), [
      'hot a-in',
      'link a-out b-out',
      'ground b-in',
    ]);
  });

  it('leave a shield where it is, unless it carries a coil', () => {
    const only = pickupOf('  shield bare\n', A, hookup('hot a-out', 'ground a-in bare'));
    assert.deepEqual(joints(changedBy(only, { hotAndGroundSwapped: true })), ['hot a-in', 'ground a-out bare']);
    const carrying = pickupOf(
      '  shield bare\n',
      coil('a', 'start to bare', 'finish a-out'),
      hookup('hot a-out', 'ground bare'),
    );
    assert.deepEqual(joints(changedBy(carrying, { hotAndGroundSwapped: true })), ['hot bare', 'ground a-out']);
  });

  it('cannot where one of them has no line, two, or nothing but a shield', () => {
    for (const lines of [
      ['hot a-out'],
      ['ground a-in'],
      ['hot a-out', 'ground a-in', 'ground b-in'],
      ['hot a-out', 'hot b-out', 'ground a-in'],
    ]) {
      const pickup = pickupOf(A, B, hookup(...lines));
      assert.equal(changedBy(pickup, { hotAndGroundSwapped: true }), undefined, lines.join());
    }
    const shield = pickupOf('  shield bare\n', A, hookup('hot a-out', 'ground bare'));
    assert.equal(changedBy(shield, { hotAndGroundSwapped: true }), undefined);
    assert.equal(changedBy(pickupOf(A), { hotAndGroundSwapped: true }), undefined);
  });
});

describe('a shield', () => {
  const shared = pickupOf('  shield bare\n', A, hookup('hot a-out', 'ground a-in bare'));

  it('leaves the joint that it shares for a line of its own', () => {
    assert.equal(sharedShieldJoint(shared)?.kind, 'ground');
    assert.deepEqual(joints(changedBy(shared, { shieldByItself: true })), ['hot a-out', 'ground a-in', 'shield bare']);
  });

  it('that has one, shares none, is free or is not there stays', () => {
    for (const pickup of [
      pickupOf('  shield bare\n', A, hookup('hot a-out', 'ground a-in', 'shield bare')),
      pickupOf('  shield bare\n', A, hookup('hot a-out', 'ground bare')),
      pickupOf('  shield bare\n', A, hookup('hot a-out', 'ground a-in', 'free b bare')),
      pickupOf(A, hookup('hot a-out', 'ground a-in bare')),
      pickupOf('  shield bare\n', A),
    ])
      assert.equal(changedBy(pickup, { shieldByItself: true }), undefined);
  });

  const carrying = pickupOf(
    '  shield bare\n',
    coil('a', 'start brown to bare', 'finish a-out'),
    coil('b', 'start b-in', 'finish b-out'),
    hookup('hot a-out', 'link b-in b-out', 'ground bare'),
  );

  it('that carries a coil’s end lets it leave by a lead of its own, and goes to ground by itself', () => {
    const offShield = endOnShield(carrying);
    assert.deepEqual(offShield, { coil: 'a', end: 'start' });
    const changed = changedBy(carrying, { offShield });
    assert.deepEqual(joints(changed), ['hot a-out', 'link b-in b-out', 'ground brown', 'shield bare']);
    assert.deepEqual(coils(changed), ['a, brown, a-out', 'b, b-in, b-out']);
  });

  it('names that lead as it is, or after its coil where it has no name or another lead has it', () => {
    assert.equal(freedLeadName(carrying, { coil: 'a', end: 'start' }), 'brown');
    const nameless = pickupOf(
      '  shield bare\n',
      coil('a', 'start to bare', 'finish a-out'),
      hookup('hot a-out', 'ground bare'),
    );
    assert.equal(freedLeadName(nameless, { coil: 'a', end: 'start' }), 'a-start');
    const taken = pickupOf(
      '  conductors brown\n  shield bare\n',
      coil('a', 'start brown to bare', 'finish a-out'),
      hookup('hot a-out', 'ground bare'),
    );
    assert.equal(freedLeadName(taken, { coil: 'a', end: 'start' }), 'a-start');
  });

  it('that carries two ends, or none, frees none', () => {
    const two = pickupOf(
      '  shield bare\n',
      coil('a', 'start to bare', 'finish a-out'),
      coil('b', 'start to bare', 'finish b-out'),
    );
    assert.equal(endOnShield(two), undefined);
    assert.equal(endOnShield(shared), undefined);
    const lined = pickupOf(
      '  shield bare\n',
      coil('a', 'start to bare', 'finish a-out'),
      hookup('hot a-out', 'shield bare'),
    );
    assert.equal(changedBy(lined, { offShield: { coil: 'a', end: 'start' } }), undefined);
    const unnamed = pickupOf('  shield bare\n', coil('a', 'start to bare', 'finish a-out'), hookup('hot a-out'));
    assert.equal(changedBy(unnamed, { offShield: { coil: 'a', end: 'start' } }), undefined);
  });
});
