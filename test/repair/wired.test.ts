/**
 * Plans for an instrument whose switch is wired lead by lead: what changes places at a pickup changes places at the lugs. What each change
 * does to signal and hum is common practice, no published source; it follows from the induction law.
 */
import assert from 'node:assert/strict';
import { planRepairs } from '../../server/src/repair/plan-repairs.ts';
import { analyse } from '../support/check-fixture.ts';

/** Two pickups of one coil each, and a switch that takes either or both. */
const guitar = ({
  shield = '',
  bridgeHookup = ['hot violet', 'ground grey'],
  wiring = ['hot ways.a0', 'link neck.violet ways.a1', 'link bridge.violet ways.a2', 'ground neck.grey bridge.grey'],
  head = 'instrument juniper',
  wound = 'clockwise',
}: {
  readonly shield?: string;
  readonly bridgeHookup?: readonly string[];
  readonly wiring?: readonly string[];
  readonly head?: string;
  readonly wound?: string;
} = {}) => {
  const single = (
    name: string,
    polarity: string,
    more: string,
    wind: string,
    hookup: readonly string[],
  ) => `pickup ${name} {
${more}  coil main {
    turns 7_700
    wound ${wind}
    polarity ${polarity}
    start grey
    finish violet
  }
  hookup {
${hookup.map((line) => `    ${line}\n`).join('')}  }
}
`;
  return `${single('wren', 'north-up', '', 'clockwise', ['hot violet', 'ground grey'])}${single('heron', 'south-up', shield, wound, bridgeHookup)}switch toggle {
  detent up joins a0 a1
  detent middle joins a0 a1 a2
  detent down joins a0 a2
}
${head} {
  pickup neck wren
  pickup bridge heron
  switch ways toggle
  wiring {
${wiring.map((line) => `    ${line}\n`).join('')}  }
  selector {
    1 neck
    2 neck parallel bridge
    3 bridge
  }
}
`;
};

/** Each plan with its steps, and the lines that it takes out (−) and brings (+), sorted: one that comes back is no change. */
function plansOf(text: string, instrument = 'juniper') {
  const analysis = analyse(text);
  const { plans, impossible } = planRepairs(analysis, { instrument });
  const lines = (of: string) => of.split('\n').map((line) => line.trim());
  return {
    impossible,
    plans: plans.map(({ steps }) => {
      const after = lines(analysis.edited(steps.flatMap(({ edits }) => edits))?.text ?? '');
      const before = lines(text);
      return {
        steps: steps.map((step) => step.text),
        lines: [
          ...before.filter((line, index) => line !== after[index]).map((line) => `- ${line}`),
          ...after.filter((line, index) => line !== before[index]).map((line) => `+ ${line}`),
        ],
      };
    }),
  };
}

describe('a plan for an instrument that is wired', () => {
  it('swaps hot and ground of a pickup at the lugs, too', () => {
    const { plans } = plansOf(guitar());
    assert.deepEqual(
      plans.find(({ steps }) => steps.join() === 'Swap hot and ground of heron'),
      {
        steps: ['Swap hot and ground of heron'],
        lines: [
          '- hot violet',
          '- ground grey',
          '- link bridge.violet ways.a2',
          '- ground neck.grey bridge.grey',
          '+ hot grey',
          '+ ground violet',
          '+ link bridge.grey ways.a2',
          '+ ground neck.grey bridge.violet',
        ],
      },
    );
  });

  it('leaves a shield where it is, and so does the wiring', () => {
    const shielded = guitar({
      shield: '  shield bare\n',
      bridgeHookup: ['hot violet', 'ground bare grey'],
      wiring: [
        'hot ways.a0',
        'link neck.violet ways.a1',
        'link bridge.violet ways.a2',
        'ground neck.grey bridge.grey bridge.bare',
      ],
    });
    const swap = plansOf(shielded).plans.find(({ steps }) => steps.join() === 'Swap hot and ground of heron');
    assert.ok(swap?.lines.includes('+ ground neck.grey bridge.violet bridge.bare'), JSON.stringify(swap));
  });

  it('swaps the leads of a coil where the switch splits it', () => {
    const { plans } = plansOf(`magnet bar-5 {
  material alnico-5
}
pickup wren {
  coil screw {
    turns 5_000
    wound clockwise
    start pink
    finish turquoise
  }
  coil slug {
    turns 5_000
    wound counterclockwise
    start violet
    finish grey
  }
  magnet bar-5 north toward screw
  hookup {
    hot violet
    link grey turquoise
    ground pink
  }
}
switch toggle {
  detent up joins a0 a1
  detent down joins a0 a2
}
instrument juniper {
  pickup neck wren
  switch ways toggle
  wiring {
    hot ways.a0
    link neck.violet ways.a1
    link neck.grey neck.turquoise ways.a2
    ground neck.pink
  }
  selector {
    1 neck
    2 neck.screw
  }
}
`);
    assert.deepEqual(plans[0], {
      steps: ['Swap the leads of the slug coil of wren: violet and grey change places'],
      lines: [
        '- hot violet',
        '- link grey turquoise',
        '- link neck.violet ways.a1',
        '- link neck.grey neck.turquoise ways.a2',
        '+ hot grey',
        '+ link violet turquoise',
        '+ link neck.grey ways.a1',
        '+ link neck.violet neck.turquoise ways.a2',
      ],
    });
  });

  it('moves no lead in a wiring that another instrument lends', () => {
    const { plans } = plansOf(`${guitar()}instrument willow like juniper {\n}\n`, 'willow');
    assert.deepEqual(
      plans.map(({ steps }) => steps),
      [['Magnetise the rods of wren the other way'], ['Magnetise the rods of heron the other way']],
    );
  });

  it('waits until the switch does what its positions ask for', () => {
    // Position 2 takes both as it is soldered, whatever it says.
    const { plans, impossible } = plansOf(guitar().replace('2 neck parallel bridge', '2 neck'));
    assert.deepEqual(plans, []);
    assert.match(impossible ?? '', /once the wiring is whole: first put right "Position 2 needs `ways\.a2` on nothing/);
  });

  it('is none for metal that the wiring puts on hot: no change of a pickup takes it off', () => {
    const { plans, impossible } = plansOf(
      guitar({
        wound: 'counterclockwise',
        shield: '  shield bare\n',
        bridgeHookup: ['hot violet', 'ground grey bare'],
        wiring: [
          'hot ways.a0',
          'link neck.violet ways.a1',
          'link bridge.violet bridge.bare ways.a2',
          'ground neck.grey bridge.grey',
        ],
      }),
    );
    assert.deepEqual(plans, []);
    assert.equal(impossible, 'No plan: the faults (ground/metal-hot) lie in what the planner does not change.');
  });
});
