/** A pickup beside what it was before the work, told by one text. */

import assert from 'node:assert/strict';
import { compareRework, formerLabel, reworkOf, reworksOf } from '../../server/src/comparison/reworks.ts';
import { instrumentNamed, ownBefore } from '../../server/src/lsp/compared-states.ts';
import { ENGLISH } from '../../server/src/words/languages/language.ts';
import { analyse } from '../support/check-fixture.ts';

const SHOP = `wire plain-42 {
  gauge 42 AWG
}
wire poly-43 {
  gauge 43 AWG
}
bobbin slug-six {
  core 63.0 x 5.6 mm
  window 7.2 x 4.8 mm
}
magnet bar {
  material alnico-5
  size 60 x 12 x 3 mm
}
`;

const coil = (name: string, ...facts: readonly string[]) =>
  [`  coil ${name} {`, '    bobbin slug-six', ...facts.map((fact) => `    ${fact}`), '  }'].join('\n');

const FOUND = `${SHOP}pickup heron-found "Heron" {
  conductors violet grey pink turquoise
${coil('screw', 'wire plain-42', 'turns 5_000 ± 50', 'wound clockwise', 'start to pink', 'finish to grey')}
${coil('slug', 'wire plain-42', 'turns 5_000 ± 50', 'wound clockwise', 'start to violet', 'finish to turquoise')}
  magnet bar north toward screw
  hookup {
    hot violet
    link turquoise grey
    ground pink
  }
}
`;

const HEAVIER = `${FOUND}pickup heron "Heron" reworks heron-found {
${coil('slug', 'new', 'wire poly-43', 'turns 7_000 ± 50', 'wound clockwise', 'start to violet', 'finish to turquoise')}
}
`;

function only(text: string) {
  const analysis = analyse(text);
  const [rework, ...more] = reworksOf(analysis);
  assert.ok(rework);
  assert.equal(more.length, 0);
  return { analysis, rework, comparison: compareRework(rework) };
}

const changeOf = ({ numbers }: ReturnType<typeof compareRework>, coilName: string, key: string) =>
  numbers.find((each) => each.key === key && each.path[1] === `coil ${coilName}`)?.difference;

describe('a pickup that reworks another', () => {
  it('is compared with it, under its own name', () => {
    const { rework, comparison } = only(HEAVIER);
    assert.equal(rework.label(ENGLISH), 'heron-found');
    assert.deepEqual(
      comparison.facts.map((change) => [
        change.path.join(' / '),
        change.kind === 'fact changed' ? `${change.before.text} > ${change.after.text}` : change.kind,
      ]),
      [
        ['pickup heron / coil slug', 'fact added'],
        ['pickup heron / coil slug', 'wire plain-42 > wire poly-43'],
        ['pickup heron / coil slug', 'turns 5_000 ± 50 > turns 7_000 ± 50'],
      ],
    );
    assert.deepEqual(
      comparison.findings.come.map(({ code }) => code),
      ['hum/partly-cancelled'],
    );
  });

  it('a coil that was wound anew has its own error of count, one that was kept the same as before', () => {
    const { comparison } = only(HEAVIER);
    const turns = changeOf(comparison, 'slug', 'turns');
    assert.equal(turns?.value, 2000);
    // Two counts of ± 50 each, independent: the root of the sum of their squares (JCGM 100:2008, 5.1.2).
    assert.ok(Math.abs((turns?.sd ?? 0) - Math.hypot(50, 50)) < 1e-9);
    const kept = only(HEAVIER).rework;
    assert.equal(changeOf(compareRework(kept), 'screw', 'turns'), undefined);
    const recounted = only(
      HEAVIER.replace('reworks heron-found {', 'reworks heron-found {\n  coil screw { tension 20 g }'),
    );
    assert.equal(changeOf(recounted.comparison, 'screw', 'resistance20COhm'), undefined);
  });

  it('each state of a chain is compared with the one before it', () => {
    const chain = `${HEAVIER}pickup heron-again reworks heron {\n  magnet bar south toward screw, turned\n}\n`;
    assert.deepEqual(
      reworksOf(analyse(chain)).map(({ label }) => label(ENGLISH)),
      ['heron-found', 'heron'],
    );
  });

  it('one that reworks none and has no coil that is new has no former state', () => {
    const analysis = analyse(FOUND);
    assert.deepEqual(reworksOf(analysis), []);
    assert.equal(formerLabel(analysis.pickups.map(({ pickup }) => pickup)), undefined);
  });
});

describe('a pickup told in one block', () => {
  const ONE = `${SHOP}pickup rework-neck "Rework, neck" {
  conductors violet grey pink turquoise
${coil('screw', 'kept', 'wire plain-42', 'turns 5_000', 'wound clockwise', 'start to pink', 'finish to grey')}
${coil('slug', 'new', 'wire poly-43', 'turns 7_400', 'wound clockwise', 'start to violet', 'finish to turquoise')}
  magnet bar north toward screw, new
  hookup {
    hot violet
    link turquoise grey
    ground pink
  }
  readings found "as received" 2026-11-20 {
    room 21 degC
    screw 4.11 kohm
    slug 4.16 kohm
  }
}
`;

  it('is compared with what was found: of the coil that came out and its magnet nothing is stated', () => {
    const { rework, comparison } = only(ONE);
    assert.equal(rework.label(ENGLISH), 'the state as found');
    assert.deepEqual(
      comparison.facts.map((change) => ('after' in change ? change.after.text : change.kind)),
      [
        'magnet bar north toward screw, new',
        'bobbin slug-six',
        'new',
        'wire poly-43',
        'turns 7_400',
        'wound clockwise',
      ],
    );
  });
});

describe('an instrument that holds a reworked pickup', () => {
  const FITTED = `${HEAVIER}instrument quill {
  pickup neck heron at 150 mm
  volume 500 kohm
  selector {
    1 "neck" neck
    2 "slug" neck.slug
  }
}
`;

  it('is heard before with the pickup as it was, in every position', () => {
    const now = analyse(FITTED);
    const before = ownBefore(now, { kind: 'instrument', name: 'quill' });
    assert.ok(before);
    assert.equal(ownBefore(now, { kind: 'instrument', name: 'quill' }), before);
    const ohm = (analysis: typeof now) =>
      instrumentNamed(analysis, 'quill')
        ?.positions()
        .map(({ resistanceOhm }) => Math.round((resistanceOhm?.value ?? 0) / 100));
    const [was, is] = [ohm(before.analysis), ohm(now)];
    assert.ok(was && is);
    assert.ok(
      is.every((each, index) => each > (was[index] ?? 0)),
      `${was} ${is}`,
    );
  });

  it('has no former state where its pickups have none', () => {
    const analysis = analyse(FITTED.replace('neck heron at', 'neck heron-found at'));
    const quill = instrumentNamed(analysis, 'quill')?.instrument;
    assert.ok(quill);
    assert.equal(
      reworkOf(
        analysis,
        quill.slots.flatMap(({ pickup }) => pickup ?? []),
      ),
      undefined,
    );
  });
});
