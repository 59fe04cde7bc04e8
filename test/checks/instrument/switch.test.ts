/** A wired switch against its selector: what it means, which end is to be moved, and what is computed of it. */
import assert from 'node:assert/strict';
import type { Analysis } from '../../../server/src/analysis/analysis-types.ts';
import { quickOf } from '../../../server/src/analysis/pickup-analysis.ts';
import { explanationOf } from '../../../server/src/checks/explanation.ts';
import { changesToRight } from '../../../server/src/checks/switch-faults.ts';
import { stateResistance } from '../../../server/src/estimates/state-resistance.ts';
import { type WiredStates, wiredStates } from '../../../server/src/estimates/switch-states.ts';
import { type Change, changed } from '../../../server/src/physics/switching/changes.ts';
import { numberedRig } from '../../../server/src/physics/switching/meaning.ts';
import type { Nets } from '../../../server/src/physics/switching/rig.ts';
import { selectionWords } from '../../../server/src/words/selections.ts';
import { deadWords, heardWords } from '../../../server/src/words/switch-words.ts';
import { uniform } from '../../support/chance.ts';
import { analyse, expectFindings, messageOf } from '../../support/check-fixture.ts';
import { analysedSample } from '../../support/sample-files.ts';
import { single } from '../../support/shop.ts';

const HERON = `pickup heron {
  conductors violet grey pink turquoise
  shield bare
  coil screw {
    turns 5_000
    wound clockwise
    polarity north-up
    start to pink
    finish to turquoise
  }
  coil slug like screw {
    polarity south-up
    start to violet
    finish to grey
  }
  baseplate nickel-silver tied to bare
  hookup {
    hot violet
    link grey turquoise
    ground pink
    shield bare
  }
}
`;
const WREN = `pickup wren {
  coil main {
    turns 7_700
    wound clockwise
    polarity north-up
    start grey
    finish orange
    tap 5_000 gold
  }
  hookup {
    hot orange
    ground grey
  }
}
`;
const SWITCHES = `switch pull-two {
  detent down joins a0 a1, joins b0 b1
  detent up joins a0 a2, joins b0 b2
}
switch pull-one {
  detent down joins a0 a1
  detent up joins a0 a2
}
`;

const instrument = (
  wiring: string,
  positions: string,
  { switches = 'switch pull pull-two', controls = '' } = {},
) => `${HERON}${WREN}${SWITCHES}instrument juniper {
  pickup bridge heron
  pickup neck wren
  ${switches}
  controls {
    ${controls}
  }
  wiring {
    ${wiring}
  }
  selector {
    ${positions}
  }
}
`;

function statesOf({ model }: Pick<Analysis, 'model'>): WiredStates {
  const [juniper] = model.instruments;
  const states = juniper && wiredStates(juniper);
  assert.ok(states);
  return states;
}

const heard = (wiring: string, positions = '1 bridge\n2 bridge', options = {}) =>
  statesOf(analyse(instrument(wiring, positions, options))).states.map((each) => heardWords(each));

const SHIELDS = 'ground bridge.bare neck.grey';

describe('what a wired switch gives', () => {
  it('is told in the words of the selector: both coils, or the one that a grounded joint leaves', () =>
    assert.deepEqual(
      heard(`hot bridge.violet\nlink bridge.grey bridge.turquoise pull.a0\nground bridge.pink pull.a2\n${SHIELDS}`),
      ['bridge', 'bridge slug'],
    ));

  it('leaves the link of the hookup soldered unless its leads lie in different lines', () => {
    const split = 'link bridge.grey pull.a0\nlink bridge.turquoise pull.b0\nlink pull.a1 pull.b1';
    assert.deepEqual(heard(`hot bridge.violet\nground bridge.pink\n${SHIELDS}`), ['bridge', 'bridge']);
    assert.deepEqual(heard(`hot bridge.violet\nground bridge.pink\n${split}\n${SHIELDS}`), ['bridge', 'silent']);
  });

  it('side by side, by a switch that makes the link itself', () =>
    assert.deepEqual(
      heard(
        `hot bridge.violet pull.b2\nlink bridge.grey pull.a0\nlink bridge.turquoise pull.b0\nlink pull.a1 pull.b1\nground bridge.pink pull.a2\n${SHIELDS}`,
      ),
      ['bridge', 'bridge screw ∥ bridge slug'],
    ));

  it('turns what it takes the other way round', () =>
    assert.deepEqual(
      heard(
        `hot pull.a1 pull.b2\nlink bridge.violet pull.a0\nlink bridge.pink pull.b0\nground pull.a2 pull.b1\n${SHIELDS}`,
      ),
      ['bridge', 'bridge reversed'],
    ));

  it('takes a tap for what the selector calls it', () =>
    assert.deepEqual(
      heard(`hot pull.a0\nlink neck.orange pull.a1\nlink neck.gold pull.a2\n${SHIELDS}`, '1 neck\n2 neck.gold'),
      ['neck', 'neck at gold'],
    ));

  it('reads the split through a resistor as the selector does', () => {
    const analysis = analyse(
      instrument(
        `hot bridge.violet\nlink bridge.grey pull.a0\nresistor 4.7 kohm pull.a2 to ground\nground bridge.pink\n${SHIELDS}`,
        '1 bridge, at pull down\n2 bridge.slug through 4.7 kohm, at pull up',
      ),
    );
    assert.deepEqual(
      statesOf(analysis).positions.map(({ verdict }) => verdict),
      ['as asked', 'as asked'],
    );
  });

  it('names what it has no word for, and knows how each silent coil is left', () => {
    const { states } = statesOf(
      analyse(
        instrument(
          `hot pull.a0\nlink neck.orange pull.a1\ncapacitor 4.7 nF pull.a1 to pull.a2\nground neck.grey bridge.bare`,
          '1 neck',
        ),
      ),
    );
    assert.deepEqual(
      states.map((each) => heardWords(each)),
      [
        'neck',
        'neck main neck.gold–ground, neck main neck.orange–neck.gold, 4.7\u202FnF hot–neck.orange, for which the selector has no word',
      ],
    );
    assert.deepEqual(
      states.map((each) => deadWords(each)),
      [['open in the air: bridge.screw and bridge.slug'], ['open in the air: bridge.screw and bridge.slug']],
    );
  });

  it('goes through a volume whose lugs are named, full up', () =>
    assert.deepEqual(
      heard(`link bridge.violet loud.input\nhot loud.wiper\nground bridge.pink loud.low\n${SHIELDS}`, '1 bridge', {
        controls: 'volume loud 500 kohm audio for bridge',
      }),
      ['bridge', 'bridge'],
    ));
});

describe('positions of a wired instrument', () => {
  const EXCHANGED =
    'hot pull.a0\nlink neck.orange pull.a2\nlink bridge.violet pull.a1\nground bridge.pink neck.grey bridge.bare';

  it('are computed as they are wired, not as they are written', () => {
    const [wired] = analyse(instrument(EXCHANGED, '1 neck\n2 bridge')).instruments;
    const [asWritten] = analyse(instrument(EXCHANGED, '1 bridge\n2 neck')).instruments;
    const phases = (each = wired) => each?.positions().map(({ phase }) => phase);
    assert.deepEqual(phases(), phases(asWritten));
    assert.deepEqual(
      wired?.instrument.positions.map(({ selection }) => selection && selectionWords(selection)),
      ['bridge', 'neck'],
    );
    assert.deepEqual(
      wired?.written.positions.map(({ selection }) => selection && selectionWords(selection)),
      ['neck', 'bridge'],
    );
  });

  it('stand where they say, else in the detent of their number', () => {
    const wiring =
      'hot pull.a0\nlink neck.orange pull.a1\nlink bridge.violet pull.a2\nground bridge.pink neck.grey bridge.bare';
    const keys = (positions: string) =>
      statesOf(analyse(instrument(wiring, positions))).states.map(({ positions: there }) =>
        there.map(({ key }) => key.value),
      );
    assert.deepEqual(keys('1 neck\n2 bridge'), [['1'], ['2']]);
    assert.deepEqual(keys('1 bridge, at pull up\n2 neck, at pull down'), [['2'], ['1']]);
  });

  it('need a detent, and names that there are', () => {
    const wiring =
      'hot pull.a0\nlink neck.orange pull.a1\nlink bridge.violet pull.a2 pull.b1 pull.b2 pull.b0\nground bridge.pink neck.grey bridge.bare';
    const said = (positions: string) => messageOf(analyse(instrument(wiring, positions)), 'name/unknown');
    assert.match(
      said('1 neck\n2 bridge\n3 neck'),
      /^The switch pull has no detent for position 3: it has 2\. Say where it stands, as in `, at pull down`/,
    );
    assert.match(said('1 neck\n2 bridge, at pull op'), /^The switch pull has no detent op: it has down, up\./);
    assert.match(said('1 neck\n2 bridge, at pul up'), /^No switch is called pul in this instrument: it has pull\./);
    assert.match(said('1 neck\n2 pull'), /^No pickup is fitted as pull in this instrument: it has bridge, neck\./);
  });

  it('take terminals that there are', () => {
    const said = (line: string) => messageOf(analyse(instrument(`hot pull.a0\n${line}`, '1 neck')), 'name/unknown');
    assert.match(
      said('link neck.oragne pull.a1'),
      /^The pickup fitted as neck has no lead called oragne: it has orange, grey, gold\.|^The pickup fitted as neck has no lead called oragne/,
    );
    assert.match(
      said('link neck.orange pull.c1'),
      /^The switch pull has no lug called c1: it has a0, a1, a2, b0, b1, b2\./,
    );
    assert.match(said('link neck.orange pul.a1'), /^Nothing is called pul in this instrument/);
    assert.match(said('link neck.orange grund'), /^`grund` is no terminal/);
  });
});

describe('an instrument wired wrong', () => {
  it('is told once, at the end to move, with all that follows', () => {
    const wiring =
      'hot pull.a0\nlink neck.orange pull.a2\n     ^^^^^^^^^^^ switch/position-differs error\nlink bridge.violet pull.a1';
    const others = 'ground bridge.pink neck.grey bridge.bare\nfree pull.b0 pull.b1 pull.b2 neck.gold';
    const analysis = expectFindings(
      instrument(`${wiring}\n${others}`, '1 neck\n2 bridge')
        .replace(/ +tap 5_000 gold\n/, '')
        .replace(' neck.gold', ''),
    );
    assert.equal(
      messageOf(analysis, 'switch/position-differs'),
      "Positions 1 and 2 do something else: 1 gives bridge, not neck; 2 gives neck, not bridge. `bridge.violet` and `neck.orange` lie on each other's places. Exchange the two.",
    );
  });
});

describe('two faults at once', () => {
  const told = (edit: (text: string) => string): readonly string[] =>
    analysedSample('yarrowby.pickup', edit)
      .allFindings()
      .filter(({ code }) => code.startsWith('switch/'))
      .map(({ code, message }) => `${code} ${message}`);

  it('are one cause with two ends, the remedy of which is solved again', () => {
    const both = (text: string) =>
      text
        .replace('link bridge.violet', 'link MOVED.violet')
        .replace('link neck.violet', 'link bridge.violet')
        .replace('MOVED', 'neck')
        .replace('turquoise lever.c4', 'turquoise');
    assert.deepEqual(told(both), [
      "switch/position-differs Positions 1, 2, 4 and 5 do something else: 1 gives neck, not bridge; 2 gives middle ∥ neck, not bridge slug ∥ middle; 4 gives middle ∥ bridge, not middle ∥ neck slug. Two ends are wrong. `neck.violet` and `bridge.violet` lie on each other's places. `lever.c4` is joined to nothing; it belongs to `neck.grey`. Exchange `neck.violet` and `bridge.violet`. Solder `lever.c4` to `neck.grey`.",
    ]);
    const analysis = analysedSample('yarrowby.pickup', both);
    const finding = analysis.allFindings().find(({ code }) => code === 'switch/position-differs');
    const [remedy] = finding?.remedies() ?? [];
    assert.equal(remedy?.title, 'Exchange `neck.violet` and `bridge.violet`, solder `lever.c4` to `neck.grey`');
    assert.deepEqual(
      analysis
        .edited(remedy.edits)
        ?.allFindings()
        .filter(({ code }) => code.startsWith('switch/')),
      [],
    );
  });

  it('are told at each position where no two changes put all right', () => {
    const three = (text: string) =>
      text
        .replace('lever.a4 lever.a5', 'lever.a4')
        .replace('turquoise lever.c4', 'turquoise')
        .replace('lever.b2 lever.b3 lever.b4', 'lever.b2 lever.b4');
    assert.deepEqual(
      told(three)
        .map((each) => each.split(' ')[0])
        .sort(),
      ['switch/position-differs', 'switch/silent', 'switch/silent'],
    );
  });
});

describe('single faults of two wirings', () => {
  /** `SWITCH_FAULTS=200` for all of them. */
  const COUNT = Number(process.env.SWITCH_FAULTS ?? 40);

  for (const sample of ['yarrowby.pickup', 'pennywither.pickup'])
    it(`of ${sample} are found at their end`, () => {
      const analysis = analysedSample(sample);
      const [juniper] = analysis.model.instruments;
      assert.ok(juniper);
      const right = wiredStates(juniper);
      assert.ok(right);
      const { rig } = right.numbered;
      const next = uniform(20_261);
      const pick = <T>(from: readonly T[]): T => {
        const one = from[Math.floor(next() * from.length)];
        assert.ok(one !== undefined);
        return one;
      };
      const ends = rig.links.flat().filter((end) => end.includes('.') && !end.endsWith('.bare'));
      let found = 0;
      const elsewhere: string[] = [];
      while (found < COUNT / 2) {
        const fault: Change =
          next() < 0.5
            ? { kind: 'swap', terminals: [pick(ends), pick(ends)] }
            : { kind: 'move', terminal: pick(ends), to: next() < 0.5 ? 'nothing' : pick(rig.links) };
        const links = changed(rig.links, fault);
        const changes = changesToRight({ ...right, numbered: numberedRig({ ...rig, links }) }, juniper, () => false);
        if (changes.length === 0) continue;
        found += 1;
        const moved = endsOf(fault);
        const undoes = (change: Change) =>
          sameNets(changed(links, change), rig.links) || endsOf(change).some((end) => moved.includes(end));
        const at = changes.findIndex(undoes);
        assert.ok(at >= 0 && at < 3, JSON.stringify({ fault, changes }));
        if (at > 0) elsewhere.push(JSON.stringify({ fault, told: changes[0] }));
      }
      // Where two exchanges come to the same by the symmetry of a pickup, nobody can tell which of the two was made.
      assert.ok(elsewhere.length <= found / 20, elsewhere.join('\n'));
    });
});

const endsOf = (change: Change): readonly string[] => (change.kind === 'swap' ? change.terminals : [change.terminal]);
const sameNets = (a: Nets, b: Nets): boolean => textOf(a) === textOf(b);
const textOf = (nets: Nets): string =>
  nets
    .map((net) => [...net].sort().join(' '))
    .sort()
    .join(', ');

describe('metal and leads of a wired instrument', () => {
  const WIRING =
    'hot pull.a0\nlink neck.orange pull.a1\nlink bridge.violet pull.a2\nfree neck.gold pull.b0 pull.b1 pull.b2';
  const found = (ground: string, positions = '1 neck\n2 bridge', wiring = WIRING) =>
    analyse(instrument(`${wiring}\nground ${ground}`, positions)).findings.map(
      ({ code, severity }) => `${severity} ${code}`,
    );

  it('are right where the wiring grounds the shield', () =>
    assert.deepEqual(found('neck.grey bridge.pink bridge.bare'), ['error lead/floating']));

  it('float where only the hookup grounds them', () =>
    assert.deepEqual(found('neck.grey bridge.pink'), ['error lead/floating', 'warning ground/metal-floating']));

  it('come to hot where their lead does, and only there', () => {
    const turned =
      'hot pull.a1 pull.b2\nlink bridge.violet pull.a0\nlink bridge.pink bridge.bare pull.b0\nfree neck.orange neck.gold';
    const analysis = analyse(instrument(`${turned}\nground pull.a2 pull.b1 neck.grey`, '1 bridge\n2 reversed bridge'));
    assert.match(messageOf(analysis, 'ground/metal-hot'), /^In position 2 the metal of bridge \(/);
    const apart = turned.replace(' bridge.bare', '');
    const grounded = analyse(
      instrument(`${apart}\nground pull.a2 pull.b1 neck.grey bridge.bare`, '1 bridge\n2 reversed bridge'),
    );
    assert.ok(!grounded.findings.some(({ code }) => code === 'ground/metal-hot'));
  });

  it('that no line names are told, and taped off', () => {
    const analysis = analyse(
      instrument(
        `hot pull.a0\nlink neck.orange pull.a1\nground neck.grey bridge.pink bridge.bare\nfree neck.gold pull.a2 pull.b0 pull.b1 pull.b2`,
        '1 neck',
      ),
    );
    assert.ok(
      analysis.findings.some(({ message }) => message.startsWith('bridge.violet is soldered to nothing, and no line')),
    );
  });
});

describe('a control stated by its lugs', () => {
  const found = (...edits: readonly (readonly [string, string])[]) => {
    const edit = (text: string) => edits.reduce((now, [from, to]) => now.replace(from, to), text);
    const analysis = analysedSample('tamwick.pickup', edit);
    const [finding, ...others] = analysis.allFindings();
    assert.ok(finding);
    assert.deepEqual(others, []);
    const at = analysis.locate(finding.place);
    const [fix] = analysis.verifiedFixes(finding);
    return [finding.code, finding.severity, at && analysis.text.slice(at.start, at.end), fix?.title];
  };
  const exchanged = (a: string, b: string) => [[a, '…'] as const, [b, a] as const, ['…', b] as const];

  it('is told once where one of them is forgotten, with the wire that is usual', () => {
    assert.deepEqual(found(['    link loud.wiper jack\n', '']), [
      ...['lead/floating', 'error', 'loud.input', 'Solder `loud.wiper` to `jack`'],
    ]);
    assert.deepEqual(found(['loud.wiper jack', 'loud.input jack']), [
      ...['lead/floating', 'error', 'loud.input', 'Solder `loud.wiper` to `jack`'],
    ]);
    assert.deepEqual(found(['ways.a0 loud.input', 'ways.a0']), [
      ...['lead/floating', 'error', 'loud.wiper', 'Solder `loud.input` to `hot`'],
    ]);
    assert.deepEqual(found(['loud.low neck', 'neck']), [
      ...['lead/floating', 'warning', 'loud.input', 'Solder `loud.low` to `ground`'],
    ]);
    assert.deepEqual(found([' cross.low', '']).slice(0, 3), ['lead/floating', 'warning', 'cross.input']);
  });

  it('is told once where two of them are exchanged, or a common is on nothing, at the end', () => {
    assert.deepEqual(found(...exchanged('loud.input', 'loud.low')), [
      ...['switch/hot-shorted', 'error', 'loud.low', 'Exchange `loud.low` and `loud.input`'],
    ]);
    assert.deepEqual(found(...exchanged('loud.wiper', 'loud.low')), [
      ...['switch/hot-shorted', 'error', 'loud.low', 'Exchange `loud.low` and `loud.wiper`'],
    ]);
    assert.deepEqual(found(['ways.a0 loud.input', 'loud.input']), [
      ...['switch/silent', 'error', 'loud.input', 'Solder `ways.a0` to hot'],
    ]);
  });

  it('is told once where it stands in a line too many', () => {
    assert.deepEqual(found(['ground loud.low', 'ground jack loud.low']), [
      ...['switch/hot-shorted', 'error', 'jack', 'Take `jack` out of the line `ground`'],
    ]);
    assert.deepEqual(found(['ground loud.low', 'ground loud.wiper loud.low']), [
      ...['switch/hot-shorted', 'error', 'loud.wiper', 'Take `loud.wiper` out of the line `ground`'],
    ]);
  });

  it('may leave one empty where that is said', () =>
    assert.deepEqual(
      analysedSample('tamwick.pickup', (text) =>
        text.replace(' cross.low', '').replace('link loud.wiper jack', 'link loud.wiper jack\n    free cross.low'),
      ).allFindings(),
      [],
    ));
});

describe('what a meter reads at the lugs', () => {
  /** A bridge of coils of 6 kohm: hot to a1 and to b1, between these two, and from each to ground; one arm a resistor. */
  const bridge = (arm: string) => {
    const coil = single('lark', { inside: '  readings 2026-10-02 {\n    main 6.00 kohm at 20 degC\n  }\n' });
    return `${coil}${SWITCHES}instrument juniper {
  pickup one lark
  pickup two lark
  pickup three lark
  pickup four lark
  pickup five lark
  switch pull pull-two
  wiring {
    hot one.violet two.violet
    link one.grey three.violet four.violet pull.a1
    link two.grey three.grey five.violet pull.b1
    ground four.grey five.grey
    ${arm}
  }
  selector {
    1 one
  }
}
`;
  };
  const ohm = (text: string, state = 0) => {
    const analysis = analyse(text);
    const states = statesOf(analysis);
    const shown = states.states[state];
    assert.ok(shown);
    return stateResistance(states, shown, quickOf(analysis.bench));
  };

  it('is solved by nets where what sounds is neither series nor parallel', () => {
    // Five equal arms: balanced, so that the middle one carries nothing. Of one arm with 6 kohm beside it, 3 kohm, nodal equations give
    // 66/13 kohm, solved in fractions.
    assert.ok(Math.abs((ohm(bridge(''))?.value ?? 0) - 6000) < 1);
    const beside = 'resistor 6 kohm hot to two.grey';
    assert.ok(Math.abs((ohm(bridge(beside))?.value ?? 0) - 66_000 / 13) < 1, String(ohm(bridge(beside))?.value));
  });

  it('is what the pickup reads by itself where nothing else sounds', () => {
    const analysis = analysedSample('yarrowby.pickup');
    const [juniper] = analysis.model.instruments;
    const states = juniper && wiredStates(juniper);
    assert.ok(states);
    const own = (name: string) =>
      analysis.pickups.find(({ pickup }) => pickup.name === name)?.quick.resistance20COhm?.value ?? 0;
    const at = (index: number) => {
      const state = states.states[index];
      return (state && stateResistance(states, state, quickOf(analysis.bench))?.value) ?? 0;
    };
    assert.ok(Math.abs(at(0) - own('yarrowby-bridge')) < 0.1);
    assert.ok(Math.abs(at(2) - own('yarrowby-middle')) < 0.1);
    assert.ok(Math.abs(at(4) - own('yarrowby-neck')) < 0.1);
  });

  it('is open where nothing sounds, nothing where hot lies on ground', () => {
    const wiring =
      'hot pull.a0 pull.b0\nlink bridge.violet pull.a1\nground bridge.pink neck.grey bridge.bare pull.b2\nfree pull.a2 pull.b1 neck.orange neck.gold';
    assert.equal(ohm(instrument(wiring, '1 bridge'), 1)?.value, 0);
    assert.equal(ohm(instrument(wiring.replace(' pull.b2', ''), '1 bridge'), 1), null);
  });
});

describe('states that no position names', () => {
  it('are told where nothing sounds in them, as no fault', () => {
    const wiring =
      'hot pull.a0\nlink bridge.violet pull.a1\nground bridge.pink neck.grey bridge.bare\nfree pull.a2 pull.b0 pull.b1 pull.b2 neck.orange neck.gold';
    const analysis = analyse(instrument(wiring, '1 bridge'));
    assert.equal(
      messageOf(analysis, 'switch/silent'),
      'Nothing sounds with pull up, which no position names. Where it is meant, nothing is to be done; else add the position, or bring a lead there.',
    );
    assert.equal(analysis.findings.find(({ code }) => code === 'switch/silent')?.severity, 'information');
  });
});

describe('a lug that two positions want on different nets', () => {
  const page = explanationOf('switch/lug-serves-two') ?? '';
  const [, faulty = ''] = /```pickup\n([\s\S]*?)```/.exec(page) ?? [];

  it('is told alone, and planned anew where the switch can do it: then every position does what it says', () => {
    const analysis = analyse(faulty);
    const [found, ...others] = analysis.findings;
    assert.ok(found);
    assert.deepEqual(others, []);
    const [fix] = analysis.verifiedFixes(found);
    const after = fix && analysis.edited(fix.edits);
    assert.match(fix?.title ?? '', /^Plan the wiring anew: \d+ wires$/);
    assert.deepEqual(after && statesOf(after).positions.map(({ verdict }) => verdict), Array(3).fill('as asked'));
  });

  it('is not planned anew where something would be lost that a person wrote beside leads and lugs', () => {
    const analysis = analyse(faulty.replace('    free', '    resistor 4.7 kohm bridge.violet to hot\n    free'));
    const found = analysis.findings.find(({ code }) => code === 'switch/lug-serves-two');
    assert.ok(found);
    assert.deepEqual(analysis.verifiedFixes(found), []);
  });
});
