/** What bounds a proposal: windows, spools, the bath, strings, magnets; and what targets of two coils and of another pickup do to it. */
import assert from 'node:assert/strict';
import { proposalActions } from '../../server/src/features/proposal-actions.ts';
import { inTheWayWords } from '../../server/src/proposal/build-words.ts';
import { type Proposal, proposeBuilds } from '../../server/src/proposal/propose.ts';
import { near } from '../estimates/spec-text.ts';
import { analyse } from '../support/check-fixture.ts';
import { applyEdits } from '../support/text-edits.ts';

const SHELF = `wire w42 {
  gauge 42 AWG
  enamel plain
}
wire w43 {
  gauge 43 AWG
  enamel polyurethane
}
spool SP-42 {
  wire w42
  left 300 g
  measures 5.45 ohm/m at 20 degC
}
spool SP-43 {
  wire w43
  left 300 g
  measures 6.93 ohm/m at 20 degC
}
bobbin rods {
  core 60 x 5.8 mm
  window 11 x 5.2 mm
  poles 6 spread 50 mm
  pole rod alnico-5 4.8 x 16.5 mm
  plastic abs
}
bobbin slugs {
  core 62 x 5.6 mm
  window 7 x 5 mm
  poles 6 spread 50 mm
  pole slug steel 4.8 x 12.5 mm
  plastic fibre
}
magnet bar-2 {
  material alnico-2
  size 63 x 12.7 x 3.2 mm
}
magnet bar-8 {
  material alnico-8
  size 63 x 12.7 x 3.2 mm
}
`;

const single = (target: string, { facts = '', coil = '', shelf = SHELF, strings = 6 } = {}) => `${shelf}pickup wren {
  strings ${strings}
  coil main {
${coil}    wound clockwise
    polarity north-up
    start grey
    finish violet
  }
  cover none
  hookup {
    hot violet
    ground grey
  }
${facts}  target {
    ${target}
  }
}
`;

const pair = (target: string, { slug = '', screw = '', facts = '' } = {}) => `${SHELF}pickup heron {
  strings 6
${facts}  coil slug {
${slug}    wound clockwise
    start a1
    finish b1
  }
  coil screw {
${screw}    wound clockwise
    start a2
    finish b2
  }
  cover none
  hookup {
    hot a2
    link b1 b2
    ground a1
  }
  target {
    ${target}
  }
}
`;

function proposed(text: string): Proposal {
  const analysis = analyse(text);
  const pickup = analysis.pickups.at(-1);
  assert.ok(pickup);
  const proposal = proposeBuilds(analysis, pickup);
  assert.ok(typeof proposal !== 'string', String(proposal));
  return proposal;
}

const choices = ({ builds }: Proposal) =>
  builds.map(({ build }) =>
    build.coils.map(({ bobbin, spool, wire }) => `${bobbin.name} ${(spool ?? wire).name}`).join(', '),
  );

describe('a proposal', () => {
  it('keeps to the wire that is left on a spool, and tells what a fuller one would do', () => {
    const text = single('resistance 8.6 kohm', { shelf: SHELF.replaceAll('left 300 g', 'left 20 g') });
    const proposal = proposed(text);
    for (const { cost, build } of proposal.builds)
      assert.ok(cost.buys > 0 || build.coils.every(() => cost.kg <= 0.02), JSON.stringify(cost));
    assert.match(
      proposal.inTheWay ? (inTheWayWords(proposal.inTheWay)[0] ?? '') : '',
      /^The wire: .* from spool SP-4[23] on rods would reach it/,
    );
  });

  it('leaves out what the bath would soften: ABS gives way from 85 degC', () => {
    const hot = single('resistance 7 kohm', { facts: '  potting {\n    bath 95 degC\n  }\n' });
    const analysis = analyse(hot);
    const [pickup] = analysis.pickups;
    assert.ok(pickup);
    assert.equal(proposeBuilds(analysis, pickup), 'nothing to choose from');
  });

  it('takes bobbins with as many poles as there are strings', () => {
    const analysis = analyse(single('resistance 7 kohm', { strings: 7 }));
    const [pickup] = analysis.pickups;
    assert.ok(pickup);
    assert.equal(proposeBuilds(analysis, pickup), 'nothing to choose from');
  });

  it('puts no steel under one row of strings, where nothing would magnetise it', () => {
    assert.ok(choices(proposed(single('resistance 7 kohm'))).every((each) => each.startsWith('rods ')));
  });

  it('never changes what is stated', () => {
    const proposal = proposed(single('resistance 7 kohm', { coil: '    spool SP-42\n' }));
    assert.deepEqual(choices(proposal), ['rods SP-42']);
  });

  it('winds coils unlike where that is wanted, and tells nothing of it', () => {
    const proposal = proposed(pair('resistance 8 kohm\n    slug 15 % heavier than screw'));
    const [first] = proposal.builds;
    assert.ok(first);
    const [slug, screw] = first.build.coils.map(({ turns }) => turns);
    near((slug ?? 0) / (screw ?? 1), 1.15, 5e-3);
    assert.deepEqual(
      first.brings.map(({ code }) => code).filter((code) => code.startsWith('hum/')),
      [],
    );
  });

  it('winds the one coil that is open for a target of both', () => {
    const kept = '    bobbin slugs\n    spool SP-42\n    counted 4_000\n';
    const proposal = proposed(
      pair('screw 20 % heavier than slug', { slug: kept, screw: '    bobbin slugs\n    spool SP-42\n' }),
    );
    assert.deepEqual(
      proposal.builds[0]?.build.coils.map(({ opening, turns }) => [opening.coil.name, turns]),
      [['screw', 4800]],
    );
  });

  // In its own field a bar of alnico 2, short across its width, keeps little of its flux; alnico 8 has twice the coercivity and more.
  it('chooses the bar by the output that is wanted', () => {
    const coil = '    bobbin slugs\n    spool SP-42\n';
    const reference = pair('resistance 8 kohm', { slug: coil, screw: coil })
      .slice(SHELF.length)
      .replaceAll('heron', 'other');
    const other = reference
      .replaceAll('    spool SP-42\n', '    spool SP-42\n    turns 5_000\n')
      .replace('  coil slug', '  magnet bar-2 north toward slug\n  coil slug');
    const barFor = (output: string) =>
      proposed(
        `${pair(`resistance 7.9 kohm ± 2 %\n    output ${output} ± 0.7 dB against other`, { slug: coil, screw: coil })}${other}`.replace(
          /(pickup heron[\s\S]*)(pickup other[\s\S]*)/,
          '$2$1',
        ),
      ).builds[0]?.build.magnet?.bar.name;
    assert.equal(barFor('+0 dB'), 'bar-2');
    assert.equal(barFor('+7 dB'), 'bar-8');
  });

  it('lays the bar so that the pole that a coil states is up', () => {
    const coil = '    bobbin slugs\n    spool SP-42\n';
    const proposal = proposed(pair('resistance 8 kohm', { slug: coil, screw: `${coil}    polarity south-up\n` }));
    const { pole, toward } = proposal.builds[0]?.build.magnet ?? {};
    assert.deepEqual([pole, toward?.name], ['south', 'screw']);
  });

  it('is an action at the target and in a coil without turns; written, the turns are there and nothing is wrong', () => {
    const text = single('resistance 7 kohm\n    resonance 4 kHz ± 0.5 kHz');
    const analysis = analyse(text);
    const at = (word: string) => ({ start: text.indexOf(word), end: text.indexOf(word) });
    for (const word of ['resonance 4 kHz', 'polarity north-up']) {
      const [action] = proposalActions(analysis, at(word));
      assert.match(action?.title ?? '', /^Wind for the target: main \d.\d{3} turns of .* on rods; odds /);
      const written = analyse(
        applyEdits(
          text,
          (action?.edits ?? []).map(({ at: span, newText }) => ({ at: span, newText })),
        ),
      );
      assert.match(written.text, /coil main \{\n {4}bobbin rods\n {4}spool SP-4[23]\n {4}turns \d_\d+\n/);
      assert.deepEqual(
        written.findings.filter(({ severity }) => severity === 'error' || severity === 'warning'),
        [],
      );
    }
    assert.deepEqual(proposalActions(analysis, at('cover none')), []);
  });
});

describe('where nothing lies on a spool', () => {
  const parts = SHELF.replace(/spool SP-4\d \{[^}]*\}\n/g, '');

  it('what is declared goes before what nobody has declared, and is to buy', () => {
    const proposal = proposed(single('resistance 6.4 kohm', { shelf: parts }));
    assert.deepEqual(
      proposal.builds.map(({ build, cost }) => [build.coils[0]?.isUndeclared, cost.buys]),
      proposal.builds.map(() => [false, 1]),
    );
    assert.deepEqual(proposal.inTheWay && inTheWayWords(proposal.inTheWay), [
      'The shelf: nothing that is left on its spools reaches the target.',
    ]);
  });

  it('without any wire the most usual gauge goes first; written, it is declared behind the pickup', () => {
    const text = single('resistance 6.4 kohm', { shelf: parts.replace(/wire w4\d \{[^}]*\}\n/g, '') });
    const analysis = analyse(text);
    const at = text.indexOf('resistance 6.4');
    const [action] = proposalActions(analysis, { start: at, end: at });
    const written = analyse(applyEdits(text, action?.edits ?? []));
    assert.match(written.text, /\n {4}wire awg-42\n {4}turns \d_\d+\n[\s\S]*\n\}\nwire awg-42 \{ gauge 42 AWG \}\n/);
    assert.deepEqual(
      written.findings.filter(({ severity }) => severity === 'error' || severity === 'warning'),
      [],
    );
  });
});
