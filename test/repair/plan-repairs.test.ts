/**
 * Plans for the mistakes that benches make. What each change does to signal and hum is the table of changes to a good two-coil
 * pickup: common practice, no published source; it follows from the induction law (see test/physics/reference/sign-table.json).
 */
import assert from 'node:assert/strict';
import { planRepairs, type RepairOutcome } from '../../server/src/repair/plan-repairs.ts';
import { COVER, WORK } from '../../server/src/repair/work.ts';
import { cautionsOf } from '../../server/src/words/cautions.ts';
import { analyse } from '../support/check-fixture.ts';

const BAR = `magnet bar-5 {
  material alnico-5
}
`;

interface Double {
  readonly name?: string;
  readonly wound?: readonly [string, string];
  readonly poles?: readonly [string, string];
  readonly hookup?: string;
  readonly magnet?: string;
  readonly leads?: readonly [string, string];
  readonly more?: string;
}

/** Two coils, finish to finish: in phase and quiet as it stands. */
const double = ({
  name = 'heron',
  wound = ['clockwise', 'clockwise'],
  poles,
  hookup = 'hot violet\n    link grey turquoise\n    ground pink',
  magnet = poles ? '' : '  magnet bar-5 north toward screw\n',
  leads = ['start to pink\n    finish to turquoise', 'start to violet\n    finish to grey'],
  more = '',
}: Double = {}) => `pickup ${name} {
  conductors violet grey pink turquoise
${more}${(['screw', 'slug'] as const)
  .map(
    (coil, index) => `  coil ${coil} {
    turns 5_000
    wound ${wound[index]}
${poles ? `    polarity ${poles[index]}\n` : ''}    ${leads[index]}
  }
`,
  )
  .join('')}${magnet}  hookup {
    ${hookup}
  }
}
`;

const single = (
  name: string,
  wound = 'clockwise',
  poles = 'north-up',
  hookup = 'hot violet\n    ground grey',
) => `pickup ${name} {
  coil main {
    turns 7_700
    wound ${wound}
    polarity ${poles}
    start grey
    finish violet
  }
  hookup {
    ${hookup}
  }
}
`;

const planOf = (text: string, subject: Parameters<typeof planRepairs>[1] = { pickup: 'heron' }) =>
  planRepairs(analyse(text), subject);

const texts = ({ plans }: RepairOutcome): readonly (readonly string[])[] =>
  plans.map(({ steps }) => steps.map(({ text }) => text));

describe('a plan for one pickup', () => {
  it('is none where nothing is wrong', () => {
    const outcome = planOf(BAR + double());
    assert.deepEqual([outcome.faults, outcome.plans, outcome.impossible], [[], [], undefined]);
  });

  it('of a coil wound the wrong way swaps its leads, and does not wind again', () => {
    const outcome = planOf(BAR + double({ wound: ['clockwise', 'counterclockwise'] }));
    assert.deepEqual(texts(outcome).slice(0, 2), [
      ['Swap the leads of the slug coil of heron: violet and grey change places'],
      ['Swap the leads of the screw coil of heron: pink and turquoise change places'],
    ]);
    assert.equal(outcome.plans[0]?.minutes, WORK['leads outside'].minutes);
    assert.equal(outcome.onlyRewinding, undefined);
    assert.match(outcome.plans[0]?.steps[0]?.why ?? '', /string signal and hum of the slug coil over; two wires/);
  });

  it('of like poles turns the rods of one coil', () => {
    const outcome = planOf(double({ poles: ['north-up', 'north-up'] }));
    assert.deepEqual(texts(outcome), [
      ['Magnetise the rods of the slug coil of heron the other way'],
      ['Magnetise the rods of the screw coil of heron the other way'],
    ]);
  });

  it('of like poles in phase turns the rods and swaps leads, the rods first', () => {
    const hums = double({
      poles: ['north-up', 'north-up'],
      hookup: 'hot violet\n    link grey pink\n    ground turquoise',
    });
    const steps = texts(planOf(hums))[0];
    assert.match(steps?.[0] ?? '', /^Magnetise the rods of the \w+ coil of heron the other way$/);
    assert.match(steps?.[1] ?? '', /^Swap the leads of the \w+ coil of heron/);
    assert.equal(steps?.length, 2);
  });

  it('of a braid that carries a coil and lies on hot swaps hot and ground; a lead of its own is the dearer way', () => {
    const braid = double({
      more: '  shield bare\n  baseplate nickel-silver tied to bare\n',
      leads: ['start brown to bare\n    finish to turquoise', 'start to violet\n    finish to grey'],
      hookup: 'hot bare\n    link grey turquoise\n    ground violet\n    free pink',
    });
    assert.deepEqual(texts(planOf(BAR + braid)), [
      ['Swap hot and ground of heron'],
      [
        'Take the start of the screw coil of heron off the shield: it leaves by a lead of its own, brown, and the shield goes to ground by itself',
      ],
    ]);
  });

  it('of foil that lies on hot swaps hot and ground', () => {
    const foiled = single('heron').replace('    finish violet\n', '    finish violet\n    foil tied to violet\n');
    assert.deepEqual(texts(planOf(foiled)), [['Swap hot and ground of heron']]);
  });

  it('leaves out what would bring a fault elsewhere: a position in which it then stands against the other pickup', () => {
    const hums = double({
      poles: ['north-up', 'north-up'],
      hookup: 'hot violet\n    link grey pink\n    ground turquoise',
    });
    const beside = (wound: string) =>
      analyse(`${hums}${single('lark', wound)}instrument juniper {
  pickup bridge heron at 42 mm
  pickup neck lark at 160 mm
  selector {
    1 "both" bridge parallel neck
  }
}
`);
    const codesOf = ({ findings }: ReturnType<typeof analyse>) => findings.map(({ code }) => code);
    const analysis = ['clockwise', 'counterclockwise'].map(beside).find((each) => codesOf(each).length === 1);
    assert.ok(analysis, 'in one of the two the position is in phase');
    assert.deepEqual(codesOf(analysis), ['hum/not-cancelled']);
    const { plans } = planRepairs(analysis, { pickup: 'heron' });
    for (const { steps } of plans) {
      const after = analysis.edited(steps.flatMap(({ edits }) => edits));
      assert.deepEqual(after && codesOf(after), [], steps.map(({ text }) => text).join('; '));
    }
    const alone = planRepairs(analyse(hums), { pickup: 'heron' }).plans;
    assert.ok(plans.length > 0 && plans.length < alone.length, `${plans.length} of ${alone.length}`);
  });

  it('tells what its work can do to a person', () => {
    const { plans } = planOf(double({ poles: ['north-up', 'north-up'] }));
    assert.deepEqual(plans[0]?.cautions, cautionsOf('magnets', 'magnetising'));
    const [swap] = planOf(BAR + double({ wound: ['clockwise', 'counterclockwise'] })).plans;
    assert.deepEqual(swap?.cautions, cautionsOf('solder'));
  });

  it('of nobody says that there is none', () => {
    for (const subject of [{ pickup: 'wren' }, { instrument: 'juniper' }]) {
      const { faults, plans, impossible } = planOf(BAR + double(), subject);
      assert.deepEqual([faults, plans, impossible], [[], [], 'There is no such pickup or instrument.']);
    }
  });

  it('tells which readings no longer agree once it is done, as against it, not as what it leaves', () => {
    // Found as it should be, and not as it is: the coil is wound the wrong way, and of a pickup in phase the kick is the other.
    const text = (BAR + double({ wound: ['clockwise', 'counterclockwise'] })).replace(
      /}\n$/,
      '  readings "bench" 2026-10-02 {\n    kick hot to ground at slug approach positive\n  }\n}\n',
    );
    const { plans } = planOf(text);
    assert.equal(plans.length, 2);
    for (const { against, leaves } of plans) {
      assert.deepEqual(
        against.map(({ code, severity }) => `${code} ${severity}`),
        ['reading/contradicts information'],
      );
      assert.deepEqual(leaves, []);
    }
    assert.deepEqual(planOf(text.replace('positive', 'negative')).plans[0]?.against, []);
  });

  it('that leaves the readings as they are comes before one that does not, though it takes as long', () => {
    const looked = double({ poles: ['north-up', 'north-up'] }).replace(
      /}\n$/,
      '  readings "bench" 2026-10-02 {\n    compass slug north-up\n  }\n}\n',
    );
    assert.deepEqual(
      planOf(looked).plans.map(({ steps, against }) => [steps[0]?.text, against.map(({ code }) => code)]),
      [
        ['Magnetise the rods of the screw coil of heron the other way', []],
        ['Magnetise the rods of the slug coil of heron the other way', ['reading/contradicts']],
      ],
    );
  });

  it('does not judge what is not whole', () => {
    const outcome = planOf(BAR + double({ hookup: 'hot violet\n    ground pink' }));
    assert.deepEqual(outcome.plans, []);
    assert.match(outcome.impossible ?? '', /first put right "The pickup is silent/);
  });
});

describe('a proof that nothing helps', () => {
  it('of three coils: two have the same poles up', () => {
    const three = `pickup heron {
${(['a', 'b', 'c'] as const)
  .map(
    (name, index) => `  coil ${name} {
    turns 5_000
    wound clockwise
    polarity ${index === 1 ? 'south-up' : 'north-up'}
    start ${name}-in
    finish ${name}-out
  }
`,
  )
  .join('')}  hookup {
    hot c-out
    link c-in b-in
    link b-out a-out
    ground a-in
  }
}
`;
    const outcome = planOf(three);
    assert.deepEqual(outcome.plans, []);
    assert.match(
      outcome.impossible ?? '',
      /^Nothing helps heron: .* of three coils one is always over; .* at least one coil is left/,
    );
  });

  it('of positions that contradict each other', () => {
    const text = `${single('wren')}${single('heron')}instrument juniper {
  pickup neck wren at 160 mm
  pickup bridge heron at 42 mm
  selector {
    1 "both" neck parallel bridge
    2 "other" neck parallel reversed bridge
  }
}
`;
    const outcome = planOf(text, { instrument: 'juniper' });
    assert.deepEqual(outcome.plans, []);
    assert.match(
      outcome.impossible ?? '',
      /^Position 2 \(other\) and position 1 \(both\) contradict each other: .* say `on purpose`/,
    );
  });
});

describe('a plan for an instrument', () => {
  const instrument = (positions: string) => `instrument juniper {
  pickup neck wren at 160 mm
  pickup middle lark at 100 mm
  pickup bridge heron at 42 mm
  selector {
    1 "bridge" bridge
${positions}    5 "neck" neck
  }
}
`;
  const split = (bridge: string, neck: string) =>
    `    2 "bridge and middle" bridge.${bridge} parallel middle\n    3 "middle" middle\n    4 "middle and neck" middle parallel neck.${neck}\n`;
  const three = (positions: string, change: (text: string) => string = (text) => text) =>
    change(BAR + double() + double({ name: 'wren' }) + single('lark')) + instrument(positions);
  const plans = (text: string) => planRepairs(analyse(text), { instrument: 'juniper' });

  it('is none where both splits keep the coil with poles unlike the middle', () => {
    assert.deepEqual(plans(three(split('slug', 'slug'))).faults, []);
  });

  it('of both splits on the wrong coil moves two wires', () => {
    const outcome = plans(three(split('screw', 'screw')));
    assert.deepEqual(texts(outcome)[0], [
      'In position 2 (bridge and middle) take bridge.slug instead of bridge.screw',
      'In position 4 (middle and neck) take neck.slug instead of neck.screw',
    ]);
    assert.equal(outcome.plans[0]?.minutes, 2 * WORK['other coil of a split'].minutes);
  });

  it('of a magnet put back upside down does the least for all positions at once', () => {
    const text = three(split('slug', 'slug'), (whole) =>
      whole
        .replace('pickup wren', 'pickup-wren')
        .replace(/(pickup-wren[\s\S]*?)north toward/, '$1south toward')
        .replace('pickup-wren', 'pickup wren'),
    );
    const outcome = plans(text);
    assert.deepEqual(
      outcome.faults.map(({ code, subject }) => `${code} ${subject.position}`),
      ['phase/position-cancels 4'],
    );
    // By its leads alone the neck would be in phase and its split would hum: that plan has the other coil taken too.
    assert.deepEqual(texts(outcome)[0], [
      'Swap hot and ground of wren',
      'In position 4 (middle and neck) take neck.screw instead of neck.slug',
    ]);
    const turned = outcome.plans.find(
      ({ steps }) => steps.length === 1 && steps[0]?.text === 'Turn the magnet of wren over',
    );
    assert.match(turned?.steps[0]?.why ?? '', /^Turns the string signal of wren over and leaves its hum as it is; /);
  });

  it('takes a cover off once where the pickup is opened, and counts its minutes', () => {
    const turned = (cover: string) =>
      plans(
        three(split('slug', 'slug'), (whole) =>
          whole
            .replace('pickup wren {', `pickup wren {\n  cover ${cover}`)
            .replace(/(pickup wren[\s\S]*?)north toward/, '$1south toward'),
        ),
      ).plans.find(({ steps }) => steps.some(({ text }) => text === 'Turn the magnet of wren over'));
    const [bare, covered] = [turned('none'), turned('nickel-silver')];
    assert.deepEqual(
      covered?.steps.map(({ text }) => text),
      ['Take the cover of wren off; it goes back on last', 'Turn the magnet of wren over'],
    );
    assert.equal((covered?.minutes ?? 0) - (bare?.minutes ?? 0), COVER.minutes);
  });

  it('of a middle with reverse wind but not reverse poles gives it both', () => {
    const text = `${single('wren')}${single('lark', 'counterclockwise')}${single('heron')}${instrument(
      '    2 "bridge and middle" bridge parallel middle\n    3 "middle" middle\n    4 "middle and neck" middle parallel neck\n',
    )}`;
    assert.deepEqual(texts(plans(text))[0], ['Swap hot and ground of lark']);
  });

  const withDummy = (
    positions: string,
  ) => `${single('wren')}${single('ghost').replace('    polarity north-up\n', '    serves none\n')}instrument juniper {
  pickup neck wren at 160 mm
  pickup cavity ghost
  selector {
${positions}  }
}
`;

  it('of a dummy coil that adds its hum turns it round in its position, and takes a reversal away', () => {
    const straight = withDummy('    1 "neck" neck series cavity\n    2 "right" neck series reversed cavity\n');
    assert.deepEqual(texts(plans(straight))[0], ['In position 1 (neck) take reversed cavity instead of cavity']);
    const turned = withDummy('    1 "neck" neck series reversed cavity\n    2 "right" neck series cavity\n').replace(
      /(pickup ghost[\s\S]*?wound )clockwise/,
      '$1counterclockwise',
    );
    assert.deepEqual(texts(plans(turned))[0], ['In position 1 (neck) take cavity instead of reversed cavity']);
  });

  it('of a dummy coil also turns it at its own hookup, before a pickup that a string drives, and says that hum alone is turned over', () => {
    const found = plans(withDummy('    1 "neck" neck series cavity\n')).plans;
    assert.deepEqual(
      found.slice(0, 3).map(({ minutes, steps }) => `${minutes} min: ${steps.map(({ text }) => text).join('; ')}`),
      [
        '10 min: In position 1 (neck) take reversed cavity instead of cavity',
        '12 min: Turn the dummy coil round at its own hookup: hot and ground of ghost change places',
        '12 min: Swap hot and ground of wren',
      ],
    );
    for (const { steps, outlook } of found.slice(0, 2)) {
      assert.match(steps[0]?.why ?? '', /^No string drives it: its hum alone is turned over; /);
      assert.deepEqual(
        outlook().flatMap(({ position, phase, hum }) => (position === '1' ? [`${phase}: ${hum}`] : [])),
        ['in: gone'],
      );
    }
  });

  it('of a dummy coil inside the pickup swaps its leads before those of the coil that is heard', () => {
    const text = `pickup wren {
  coil main {
    turns 7_600
    wound clockwise
    polarity north-up
    start grey
    finish pink
  }
  coil dummy {
    turns 7_600
    wound clockwise
    serves none
    start turquoise
    finish violet
  }
  hookup {
    hot pink
    link grey violet
    ground turquoise
  }
}
`;
    const [first, second] = planRepairs(analyse(text), { pickup: 'wren' }).plans;
    assert.equal(first?.steps[0]?.text, 'Swap the leads of the dummy coil of wren: turquoise and violet change places');
    assert.match(first?.steps[0]?.why ?? '', /^No string drives it: its hum alone is turned over; /);
    assert.equal(second?.steps[0]?.text, 'Swap the leads of the main coil of wren: grey and pink change places');
    assert.equal(first?.minutes, 15);
  });

  it('tells what each plan leaves to be heard, position by position', () => {
    // Reverse wind alone, by hand: leads swapped, coils of unlike wind and unlike poles are in phase and cancel hum; poles turned
    // instead, they are in phase and their hum adds, 6 dB.
    const text = `${single('wren')}${single('lark', 'clockwise', 'south-up')}${instrument(
      '    2 "both" middle parallel neck\n',
    ).replace(/.*bridge.*\n/g, '')}`;
    const outcome = plans(text);
    const left = outcome.plans.map(({ steps, outlook }) => ({
      steps: steps.map(({ text: each }) => each),
      heard: outlook().flatMap(({ position, phase, hum }) => (position === '2' ? [`${phase}: ${hum}`] : [])),
    }));
    assert.deepEqual(left.slice(0, 3), [
      { steps: ['Swap hot and ground of wren'], heard: ['in: gone'] },
      { steps: ['Swap hot and ground of lark'], heard: ['in: gone'] },
      { steps: ['Magnetise the rods of wren the other way'], heard: ['in: adds'] },
    ]);
  });

  it('asks about one piece that is fitted in two places', () => {
    const text = `${single('wren')}${single('lark', 'counterclockwise')}${instrument(
      '    2 "both" neck parallel middle\n    3 "other" bridge parallel middle\n',
    ).replace('bridge heron', 'bridge wren')}`;
    const { plans: found, questions } = plans(text);
    assert.ok(found.length > 0);
    assert.equal(questions().length, 1);
    assert.match(questions()[0] ?? '', /^wren is fitted as neck and bridge: .* `pickup wren-2 like wren`/);
    assert.deepEqual(plans(text.replace('bridge wren', 'bridge lark')).questions().length, 1);
  });

  it('keeps what is meant to be out of phase out of phase', () => {
    const text = `${single('wren')}${single('lark')}${single('heron', 'counterclockwise')}${instrument(
      '    2 "bridge and middle" bridge parallel middle\n    3 "meant" neck parallel reversed middle, on purpose\n    4 "middle and neck" middle parallel neck\n',
    )}`;
    const outcome = plans(text);
    assert.deepEqual(texts(outcome)[0], ['Swap hot and ground of heron']);
    assert.deepEqual(
      outcome.plans.map(({ leaves }) => leaves.map(({ code, subject }) => `${code} ${subject.position}`)),
      outcome.plans.map(() => ['phase/position-cancels 3']),
    );
  });

  it('leaves what the writer accepts as it is', () => {
    const accepted = three(split('screw', 'screw')).replace(
      '    5 "neck" neck\n',
      '    5 "neck" neck\n    accept hum/position-hums "it never mattered"\n',
    );
    assert.deepEqual(plans(accepted).faults, []);
    // Another fault beside it is put right, and the splits stay.
    const text = accepted.replace('north toward screw', 'south toward screw');
    const outcome = plans(text);
    assert.deepEqual(
      outcome.faults.map(({ code }) => code),
      ['phase/position-cancels'],
    );
    assert.deepEqual(texts(outcome)[0], ['Swap hot and ground of heron']);
  });

  it('reaches pickups that another file declares', () => {
    const parts = single('heron', 'counterclockwise');
    const text = `use "parts.pickup"\n${single('wren')}${single('lark')}${instrument(
      '    2 "bridge and middle" bridge parallel middle\n    3 "middle" middle\n    4 "middle and neck" middle parallel neck\n',
    )}`;
    const analysis = analyse(text, { 'parts.pickup': parts });
    const outcome = planRepairs(analysis, { instrument: 'juniper' });
    assert.deepEqual(texts(outcome)[0], ['Swap hot and ground of heron']);
    const uris = outcome.plans[0]?.steps.flatMap(({ edits }) => edits.map(({ place }) => analysis.locate(place)?.uri));
    assert.ok(uris?.every((uri) => uri?.endsWith('/parts.pickup')));
  });

  it('frees the shield before a pickup is reversed', () => {
    const shield = '  shield bare\n  baseplate nickel-silver tied to bare\n';
    const text =
      BAR +
      double({ more: shield, hookup: 'hot violet\n    link grey turquoise\n    ground pink bare' }) +
      double({ name: 'wren' }) +
      single('lark') +
      instrument('    2 "meant" neck parallel reversed bridge, on purpose\n    3 "middle" middle\n');
    assert.deepEqual(texts(plans(text))[0], ['Give the shield of heron a line of its own: `shield bare`']);
  });

  it('says so where nothing but winding again helps', () => {
    // Both coils start on the baseplate, which would come to hot with the leads of either swapped.
    const coil = (name: string, lead: string) =>
      `  coil ${name} {\n    wound clockwise\n    start to baseplate\n    finish ${lead}\n  }\n`;
    const text = `pickup heron {
${coil('screw', 'violet')}${coil('slug', 'grey')}  baseplate steel
  hookup {
    hot violet grey
    ground baseplate
  }
  readings "bench" 2026-10-02 {
    compass screw north-up
    compass slug south-up
  }
}
`;
    const outcome = planRepairs(analyse(text), { pickup: 'heron' });
    assert.equal(
      outcome.onlyRewinding,
      'Nothing but winding a coil again helps: every set of other changes leaves a fault.',
    );
    assert.deepEqual(texts(outcome), [
      ['Wind the screw coil of heron again, the other way round'],
      ['Wind the slug coil of heron again, the other way round'],
    ]);
  });

  it('turns rods of which only a compass tells', () => {
    const known = (name: string, wound: string) =>
      single(name, wound)
        .replace('    polarity north-up\n', '')
        .replace('  hookup', '  readings "bench" 2026-10-02 {\n    compass main north-up\n  }\n  hookup');
    const text = `${known('heron', 'clockwise')}${known('wren', 'counterclockwise')}instrument juniper {
  pickup neck wren at 160 mm
  pickup bridge heron at 42 mm
  selector {
    1 "both" neck parallel bridge
  }
}
`;
    const analysis = analyse(text);
    const turned = planRepairs(analysis, { instrument: 'juniper' }).plans.find(({ steps }) =>
      steps.some((step) => /rods/.test(step.text)),
    );
    const after = analysis.edited(turned?.steps.flatMap(({ edits }) => edits) ?? []);
    assert.deepEqual(
      after?.findings.map(({ code }) => code),
      [],
    );
  });

  it('does not swap the leads of every coil where hot and ground of the pickup come to the same', () => {
    const covered = double({
      more: '  shield bare\n  cover nickel-silver tied to bare\n',
      hookup: 'hot violet\n    link grey turquoise\n    ground pink bare',
    });
    const text = `${BAR}${covered}${single('lark', 'counterclockwise')}instrument juniper {
  pickup bridge heron at 42 mm
  pickup neck lark at 160 mm
  selector {
    1 "both" bridge parallel neck
  }
}
`;
    assert.deepEqual(texts(plans(text)), [
      ['Swap hot and ground of heron'],
      ['Swap hot and ground of lark'],
      ['Magnetise the rods of lark the other way'],
    ]);
  });

  it('leaves a pickup alone that is like the one worked on', () => {
    const text = `${single('heron', 'counterclockwise')}pickup wren like heron {
  coil main {
    wound clockwise
  }
}
${single('lark')}${instrument('    2 "bridge and middle" bridge parallel middle\n    4 "middle and neck" middle parallel neck\n')}`
      .replace('4 "middle', '3 "middle')
      .replace('5 "neck"', '4 "neck"');
    const analysis = analyse(text);
    const outcome = planRepairs(analysis, { instrument: 'juniper' });
    assert.deepEqual(texts(outcome)[0], ['Swap hot and ground of heron']);
    const after = analysis.edited(outcome.plans[0]?.steps.flatMap(({ edits }) => edits) ?? []);
    const hotOf = (name: string) =>
      after?.model.pickups
        .find((pickup) => pickup.name === name)
        ?.hookup?.joints.filter(({ kind }) => kind === 'hot')
        .flatMap(({ leads }) => leads.map(({ text: lead }) => lead));
    assert.deepEqual([hotOf('heron'), hotOf('wren')], [['grey'], ['violet']]);
  });
});
