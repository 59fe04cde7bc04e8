/**
 * Phase and hum of coils that are joined in every way a pickup may have. What must come out follows from the induction law with
 * the conventions of test/physics/reference/sign-table.json; levels are 20 log10 of what is left, computed by hand beside them.
 */
import assert from 'node:assert/strict';
import { analyse, expectFindings, findingLines, fixed, fixTitles, messageOf } from '../support/check-fixture.ts';

interface CoilText {
  readonly name: string;
  readonly wound?: string;
  readonly poles?: string;
  readonly more?: string;
  readonly turns?: number;
}

/** A coil whose start and finish leave as leads called by its name. */
const coil = ({ name, wound = 'clockwise', poles, more = '', turns = 5000 }: CoilText) =>
  `  coil ${name} {\n    turns ${turns}\n${wound ? `    wound ${wound}\n` : ''}${poles ? `    polarity ${poles}\n` : ''}` +
  `    start ${name}-in\n    finish ${name}-out\n${more ? `    ${more}\n` : ''}  }\n`;
const north = (name: string, more = '') => coil({ name, poles: 'north-up', more });
const south = (name: string, more = '') => coil({ name, poles: 'south-up', more });
const pickup = (coils: readonly string[], hookup: readonly string[], more = '') =>
  `pickup heron {\n${coils.join('')}  hookup {\n${hookup.map((line) => `    ${line}\n`).join('')}  }\n${more}}\n`;
const codes = (text: string) => analyse(text).findings.map(({ code }) => code);
const verdict = (text: string) => analyse(text).pickups[0]?.quick;

describe('two coils in series', () => {
  const good = ['hot b-in', 'link a-out b-out', 'ground a-in'];

  it('finish to finish with unlike poles are clean', () => {
    assert.deepEqual(codes(pickup([north('a'), south('b')], good)), []);
  });

  it('finish to start with unlike poles cancel and hum, told once at the link', () => {
    const analysis = expectFindings(
      pickup(
        [north('a'), south('b')],
        ['hot b-out', 'link a-out b-in', '^^^^^^^^^^^^^^^ phase/coils-cancel error', 'ground a-in'],
      ),
    );
    assert.match(
      messageOf(analysis, 'phase/coils-cancel'),
      /^The b coil \(start b-in, finish b-out\) works against the a coil: .*subtract at the output, and their hum adds/,
    );
    assert.deepEqual(analysis.findings[0]?.subject.coils, ['b', 'a']);
  });

  it('whose leads a fix swaps are clean', () => {
    const analysis = analyse(pickup([north('a'), south('b')], ['hot b-out', 'link a-out b-in', 'ground a-in']));
    const swap = 'Swap the leads of the b coil: b-in and b-out change places';
    assert.equal(fixTitles(analysis, 'phase/coils-cancel')[0], `${swap} *`);
    assert.deepEqual(codes(fixed(analysis, 'phase/coils-cancel', swap)), []);
  });

  it('every fix that is offered leaves nothing behind', () => {
    const analysis = analyse(pickup([north('a'), south('b')], ['hot b-out', 'link a-out b-in', 'ground a-in']));
    for (const title of fixTitles(analysis, 'phase/coils-cancel').map((each) => each.replace(/ \*$/, ''))) {
      const left = analyse(fixed(analysis, 'phase/coils-cancel', title)).findings;
      assert.deepEqual(
        left.filter(({ severity }) => severity !== 'information').map(({ code }) => code),
        [],
        title,
      );
    }
  });

  it('with like poles cancel quietly where the ends meet head on: swapping leads would hum, so it is not offered', () => {
    const analysis = expectFindings(
      pickup(
        [north('a'), north('b')],
        ['hot b-in', 'link a-out b-out', '^^^^^^^^^^^^^^^^ phase/coils-cancel error', 'ground a-in'],
      ),
    );
    assert.doesNotMatch(messageOf(analysis, 'phase/coils-cancel'), /hum adds/);
    assert.match(messageOf(analysis, 'phase/coils-cancel'), /both have the same poles up/);
    assert.ok(fixTitles(analysis, 'phase/coils-cancel').every((title) => !title.startsWith('Swap the leads')));
  });

  it('with like poles in phase hum, and no wiring helps', () => {
    const analysis = expectFindings(
      pickup(
        [north('a'), north('b')],
        ['hot b-out', 'link a-out b-in', '^^^^^^^^^^^^^^^ hum/not-cancelled error', 'ground a-in'],
      ),
    );
    // On bobbins that nobody stated they count alike, and no dB are told: those are of known coils.
    assert.match(messageOf(analysis, 'hum/not-cancelled'), /^The hum of .* adds: .*no wiring of these coils/);
    const shelf = 'bobbin b {\n  core 60 x 6 mm\n  window 11 x 5 mm\n}\nwire w {\n  gauge 42 AWG\n}\n';
    const onBobbins = shelf + analysis.text.replaceAll('wound', 'bobbin b; wire w; wound');
    assert.match(messageOf(analyse(onBobbins), 'hum/not-cancelled'), /adds, 6\sdB over one coil: /);
  });

  it('that are meant to cancel say so: information, the same code', () => {
    expectFindings(
      pickup(
        [north('a'), south('b')],
        ['hot b-out', 'link a-out b-in', '^^^^^^^^^^^^^^^ phase/coils-cancel information', 'ground a-in', 'on purpose'],
      ),
    );
  });

  it('joined by their ends inside, under the tape, are judged alike', () => {
    const inner = (end: string) =>
      codes(
        pickup(
          [north('a'), south('b')],
          [`hot b-${end === 'finish' ? 'in' : 'out'}`, `link a.finish b.${end}`, 'ground a-in'],
        ),
      );
    assert.deepEqual(inner('finish'), []);
    assert.deepEqual(inner('start'), ['phase/coils-cancel']);
  });
});

describe('two coils in parallel', () => {
  // Start with start and finish with finish compares V(finish) - V(start) of the two directly.
  it('are clean where unlike poles are wound the same way and joined crosswise', () => {
    assert.deepEqual(codes(pickup([north('a'), south('b')], ['hot a-out b-in', 'ground a-in b-out'])), []);
  });

  it('cancel where they are joined alike', () => {
    assert.deepEqual(codes(pickup([north('a'), south('b')], ['hot a-out b-out', 'ground a-in b-in'])), [
      'phase/coils-cancel',
    ]);
  });

  it('with like poles in phase hum', () => {
    assert.deepEqual(codes(pickup([north('a'), north('b')], ['hot a-out b-out', 'ground a-in b-in'])), [
      'hum/not-cancelled',
    ]);
  });
});

describe('one coil', () => {
  it('hums by nature and is in phase with itself: nothing is found', () => {
    const text = pickup([north('a')], ['hot a-out', 'ground a-in']);
    assert.deepEqual(codes(text), []);
    assert.equal(verdict(text)?.phase, 'single');
  });

  it('of two, the other shorted, sounds alone', () => {
    assert.deepEqual(codes(pickup([north('a'), south('b')], ['hot b-in', 'ground b-out a-out a-in'])), [
      'circuit/coil-shorted',
    ]);
  });
});

describe('facts that `like` brings', () => {
  const alike = `pickup heron {
  coil a {
    turns 5_000
    wound clockwise
    polarity north-up
    start a-in
    finish a-out
  }
  coil b like a {
    start b-in
    finish b-out
  }
  hookup {
    hot b-out
    link a-out b-in
    ground a-in
  }
}
`;
  it('are changed for the coil that is meant, the other keeps them', () => {
    const analysis = analyse(alike);
    const turnB = fixed(
      analysis,
      'hum/not-cancelled',
      'Magnetise the rods of the b coil the other way and swap its leads',
    );
    assert.match(turnB, /coil b like a \{\n {4}polarity south-up\n/);
    assert.deepEqual(codes(turnB), []);
    const turnA = fixed(
      analysis,
      'hum/not-cancelled',
      'Magnetise the rods of the a coil the other way and swap its leads',
    );
    assert.match(turnA, /polarity south-up\n[\s\S]*coil b like a \{\n {4}polarity north-up\n/);
    assert.deepEqual(codes(turnA), []);
  });

  it('are stated in a coil that stands on one line, too', () => {
    const text = alike.replace(/coil b like a \{\n[^}]*\}/, 'coil b like a { start b-in; finish b-out } # "{"');
    const turned = fixed(
      analyse(text),
      'hum/not-cancelled',
      'Magnetise the rods of the b coil the other way and swap its leads',
    );
    assert.match(turned, /coil b like a \{ polarity south-up; start b-in; finish b-out \} # "\{"\n/);
    assert.deepEqual(codes(turned), []);
  });

  it('of another pickup stay as they are there', () => {
    const text = `${alike.replace('hot b-out', 'hot b-in').replace('a-out b-in', 'a-out b-out').replace('coil b like a {', 'coil b like a {\n    polarity south-up')}pickup wren like heron {
  coil b {
    polarity north-up
  }
}
`;
    const analysis = analyse(text);
    const turned = fixed(analysis, 'phase/coils-cancel', 'Magnetise the rods of the a coil the other way');
    assert.deepEqual(codes(turned), []);
    assert.match(turned, /pickup wren like heron \{\n {2}coil a \{\n {4}polarity south-up\n {2}\}\n/);
  });
});

describe('a stack', () => {
  const stack = (hookup: readonly string[]) => pickup([north('upper'), north('lower', 'below upper')], hookup);

  it('opposes by design: no finding, and hum cancels', () => {
    const text = stack(['hot upper-out', 'link upper-in lower-in', 'ground lower-out']);
    assert.deepEqual(codes(text), []);
  });

  it('wired to add hum is found as humming, not as out of phase', () => {
    assert.deepEqual(codes(stack(['hot upper-out', 'link upper-in lower-out', 'ground lower-in'])), [
      'hum/not-cancelled',
    ]);
  });

  it('a dummy coil that serves no string cancels hum and opposes nothing', () => {
    const dummy = (hookup: readonly string[]) =>
      codes(pickup([north('a'), coil({ name: 'b', more: 'serves none' })], hookup));
    assert.deepEqual(dummy(['hot a-out', 'link a-in b-in', 'ground b-out']), []);
    assert.deepEqual(dummy(['hot a-out', 'link a-in b-out', 'ground b-in']), ['hum/not-cancelled']);
  });
});

describe('a tapped coil', () => {
  it('counts as the coil that it is part of', () => {
    const text = (link: string) =>
      pickup(
        [north('a', 'tap 4_000 turns tap'), south('b')],
        link === 'finish'
          ? ['hot b-in', 'link a-out b-out', 'ground a-in', 'free tap']
          : ['hot b-out', 'link a-out b-in', 'ground a-in', 'free tap'],
      );
    assert.deepEqual(codes(text('finish')), []);
    assert.deepEqual(codes(text('start')), ['phase/coils-cancel']);
  });

  it('taken at its tap is still one coil', () => {
    assert.deepEqual(codes(pickup([north('a', 'tap 4_000 turns tap')], ['hot tap', 'ground a-in', 'free a-out'])), []);
  });
});

describe('four coils', () => {
  const coils = (last: string) => [north('a'), south('b'), north('c'), last];
  const hookup = ['hot d-in', 'link a-out b-out', 'link b-in c-in', 'link c-out d-out', 'ground a-in'];

  it('in one series path, each pair right, are clean', () => {
    assert.deepEqual(codes(pickup(coils(south('d')), hookup)), []);
  });

  it('one of them wound the other way stands alone against three', () => {
    const analysis = analyse(pickup(coils(coil({ name: 'd', wound: 'counterclockwise', poles: 'south-up' })), hookup));
    assert.deepEqual(
      analysis.findings.map(({ code }) => code),
      ['phase/coils-cancel'],
    );
    assert.match(
      messageOf(analysis, 'phase/coils-cancel'),
      /^The d coil .* works against the a coil, the b coil and the c coil/,
    );
  });

  it('two pairs side by side are clean, and one pair turned over cancels the other', () => {
    const pairs = (second: readonly string[]) =>
      codes(pickup(coils(south('d')), ['hot b-in d-in', 'link a-out b-out', ...second]));
    assert.deepEqual(pairs(['link c-out d-out', 'ground a-in c-in']), []);
    const turned = pickup(coils(south('d')), [
      'hot b-in c-in',
      'link a-out b-out',
      'link c-out d-out',
      'ground a-in d-in',
    ]);
    assert.deepEqual(codes(turned), ['phase/coils-cancel']);
  });
});

describe('halves that serve different strings', () => {
  const halves = (hookup: readonly string[]) =>
    pickup([north('low', 'serves strings 3 to 4'), south('high', 'serves strings 1 to 2')], hookup);

  it('finish to finish cancel hum', () => {
    assert.deepEqual(codes(halves(['hot high-in', 'link low-out high-out', 'ground low-in'])), []);
  });

  it('one of them reversed hums and is not thin: no string hears both', () => {
    assert.deepEqual(codes(halves(['hot high-out', 'link low-out high-in', 'ground low-in'])), ['hum/not-cancelled']);
  });

  it('that share a string do sound together', () => {
    const shared = pickup(
      [north('low', 'serves strings 2 to 4'), south('high', 'serves strings 1 to 2')],
      ['hot high-out', 'link low-out high-in', 'ground low-in'],
    );
    assert.deepEqual(codes(shared), ['phase/coils-cancel']);
  });
});

describe('halves by their rows of poles', () => {
  const half = (poles: number) => `bobbin half { poles ${poles} }\n`;
  const two = (poles: number, strings = 4, second = south) =>
    half(poles) +
    pickup(
      [north('e', 'bobbin half'), second('g', 'bobbin half')],
      ['hot e-out', 'link e-in g-in', 'ground g-out'],
      `  strings ${strings}\n`,
    );

  it('with as many poles together as strings lie under strings of their own', () => {
    const served = (text: string) => analyse(text).pickups[0]?.pickup.coils.map(({ serves }) => serves?.value);
    assert.deepEqual(served(two(2)), [
      { from: 1, to: 2 },
      { from: 3, to: 4 },
    ]);
    assert.deepEqual(served(two(3)), [undefined, undefined]);
    assert.deepEqual(served(two(4)), [undefined, undefined]);
    const threeAndTwo = two(3, 5).replace('bobbin half {', 'bobbin pair { poles 2 }\nbobbin half {');
    assert.deepEqual(served(threeAndTwo.replace(/bobbin half(?=\n {2}\}\n {2}hookup)/, 'bobbin pair')), [
      { from: 1, to: 3 },
      { from: 4, to: 5 },
    ]);
  });

  // Start to start with like poles: out of phase for a string over both, hum cancels.
  it('of like poles whose hum cancels are clean: no string hears both', () => {
    assert.deepEqual(codes(two(2, 4, north)), []);
    assert.deepEqual(codes(two(3, 6, north)), []);
    assert.deepEqual(codes(two(6, 6, north)), ['phase/coils-cancel']);
  });

  it('with two poles to a string may be either: for four strings or five a fix says which', () => {
    const says = 'Each lies under its own strings: say `serves`';
    const analysis = analyse(two(4, 4, north));
    assert.ok(fixTitles(analysis, 'phase/coils-cancel').includes(says));
    assert.deepEqual(codes(fixed(analysis, 'phase/coils-cancel', says)), []);
    assert.ok(!fixTitles(analyse(two(6, 6, north)), 'phase/coils-cancel').includes(says));
  });
});

describe('what nobody stated', () => {
  const unseen = (name: string, poles?: string) => coil({ name, wound: '', ...(poles ? { poles } : {}) });
  const hookup = ['hot b-in', 'link a-out b-out', 'ground a-in'];
  const bench = (...lines: readonly string[]) =>
    `  readings "on the bench" 2026-10-02 {\n${lines.map((line) => `    ${line}\n`).join('')}  }\n`;

  it('is open, and the one measurement that settles it is named', () => {
    const text = pickup([unseen('a', 'north-up'), south('b')], hookup);
    const analysis = analyse(text);
    assert.deepEqual(
      findingLines(analysis).map((line) => line.replace(/ at .*/, '')),
      ['phase/unproven information'],
    );
    assert.match(
      messageOf(analysis, 'phase/unproven'),
      /the winding direction of the a coil is neither stated nor measured\. Take a kick `a-out to a-in`/,
    );
    assert.equal(analysis.pickups[0]?.quick.phase, 'unproven');
  });

  it('a kick settles, either way', () => {
    const kicked = (reads: string) =>
      codes(pickup([unseen('a', 'north-up'), south('b')], hookup, bench(`kick a-out to a-in approach ${reads}`)));
    assert.deepEqual(kicked('positive'), []);
    assert.deepEqual(kicked('negative'), ['phase/coils-cancel']);
  });

  it('pull-off reads the opposite', () => {
    const kicked = (reads: string) =>
      codes(pickup([unseen('a', 'north-up'), south('b')], hookup, bench(`kick a-out to a-in pull-off ${reads}`)));
    assert.deepEqual(kicked('negative'), []);
    assert.deepEqual(kicked('positive'), ['phase/coils-cancel']);
  });

  it('kicks alone prove phase; hum stays open until a compass is laid over the coils', () => {
    const kicks = ['kick a-out to a-in approach positive', 'kick b-in to b-out approach positive'];
    const text = (...more: readonly string[]) => pickup([unseen('a'), unseen('b')], hookup, bench(...kicks, ...more));
    const analysis = analyse(text());
    assert.equal(analysis.pickups[0]?.quick.phase, 'in');
    assert.match(messageOf(analysis, 'phase/unproven'), /cancel hum is open/);
    assert.deepEqual(codes(text('compass a north-up', 'compass b south-up')), []);
    assert.deepEqual(codes(text('compass a north-up', 'compass b north-up')), ['hum/not-cancelled']);
  });

  it('a kick or a compass that is written wrong is told before what follows from its absence', () => {
    const text = (...more: readonly string[]) => pickup([unseen('a'), unseen('b')], hookup, bench(...more));
    const other = 'kick b-in to b-out approach positive';
    assert.deepEqual(codes(text('kick a-out to a-in approach plus', other)), ['syntax/unknown-word']);
    assert.deepEqual(codes(text('kick approach', other)), ['syntax/incomplete']);
    // That of the other coil, which is proven by its second line, hides nothing of this one.
    assert.deepEqual(codes(text('kick b-out to b-in approach plus', other)), ['phase/unproven', 'syntax/unknown-word']);
  });

  it('leads that nobody traced: a pair that kicks at a coil is that coil’s', () => {
    const untraced = (...readings: readonly string[]) => `pickup heron {
  conductors violet grey pink turquoise
  coil screw {
    turns 5_000
  }
  coil slug {
    turns 5_000
  }
  hookup {
    hot violet
    link pink grey
    ground turquoise
  }
${bench(...readings)}}
`;
    assert.deepEqual(codes(untraced('violet to pink 4.02 kohm')), ['phase/unproven']);
    const kicks = [
      'kick violet to pink at screw approach positive',
      'kick turquoise to grey at slug pull-off positive',
    ];
    const poles = ['compass screw south-up', 'compass slug north-up'];
    assert.deepEqual(codes(untraced(...kicks, ...poles)), []);
    const turned = [
      'kick violet to pink at screw approach positive',
      'kick turquoise to grey at slug approach positive',
    ];
    assert.deepEqual(codes(untraced(...turned, ...poles)), ['phase/coils-cancel']);
  });
});

describe('what unequal coils leave of the hum', () => {
  // 20 log10 of the difference over the larger: 1 % -40 dB, 5 % -26, 10 % -20, 20 % -14, by turns alone. Turn areas differ a
  // little more than turns, since an unequal coil also lies in a smaller ring.
  const unequal = (turns: number) => `wire plain-42 {
  gauge 42 AWG
  overall 0.070 mm
}
bobbin six {
  core 63.0 x 5.6 mm
  window 7.2 x 4.8 mm
}
pickup heron {
  coil screw {
    bobbin six
    wire plain-42
    turns 5_000
    wound clockwise
    packing 0.66
    polarity north-up
    start pink
    finish grey
  }
  coil slug like screw {
    turns ${turns}
    polarity south-up
    start violet
    finish turquoise
  }
  hookup {
    hot violet
    link grey turquoise
    ground pink
  }
}
`;
  const left = (turns: number) => verdict(unequal(turns))?.humDb?.value ?? Number.NaN;

  it('is told above -30 dB, with the level', () => {
    assert.deepEqual(codes(unequal(4950)), []);
    assert.deepEqual(codes(unequal(4000)), ['hum/partly-cancelled']);
    assert.match(analyse(unequal(4000)).findings[0]?.message ?? '', /−1[1-4].dB of the stronger coil's is left/);
  });

  it('lies at or above the level by turns alone, and near it', () => {
    for (const [turns, byTurns] of [
      [4950, -40],
      [4750, -26],
      [4500, -20],
      [4000, -14],
    ] as const) {
      assert.ok(left(turns) >= byTurns && left(turns) < byTurns + 4, `${turns} turns: ${left(turns)} dB`);
    }
  });

  it('equal coils leave nothing', () => assert.equal(left(5000), -120));
});
