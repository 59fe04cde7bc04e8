/**
 * A position solved by what is soldered: networks that are neither series nor parallel, and controls by their lugs, against ngspice
 * (`soldered-nets.json` has the netlists and what it gives); and random wirings that do fold, against the same position as the selector
 * has it, which shares no way of putting a circuit together.
 */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import { AS_PLAYED, AT_THE_METER, type Played, positionNetwork } from '../../server/src/estimates/position-network.ts';
import { positionEstimates } from '../../server/src/estimates/positions.ts';
import { asWired, wiredStates } from '../../server/src/estimates/switch-states.ts';
import type { Instrument, Selection } from '../../server/src/model/instrument.ts';
import { ground } from '../../server/src/physics/circuit/circuit.ts';
import { resistanceBetween } from '../../server/src/physics/circuit/dc.ts';
import { isSilentDb } from '../../server/src/physics/circuit/silence.ts';
import { transfers } from '../../server/src/physics/circuit/solve.ts';
import { chance } from '../support/chance.ts';
import { analyse } from '../support/check-fixture.ts';

const two = (name: string) => `pickup ${name} {
  conductors violet grey turquoise pink
  coil slug {
    start to grey
    finish to violet
  }
  coil screw {
    start to pink
    finish to turquoise
  }
  hookup {
    hot violet
    link grey turquoise
    ground pink
  }
}
`;
const PICKUPS = `${two('heron')}${two('finch')}pickup wren {
  coil main {
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
`;

function wired(wiring: readonly string[], controls: readonly string[] = [], switches = '') {
  const analysis = analyse(`${PICKUPS}${switches}instrument juniper {
  pickup heron heron
  pickup finch finch
  pickup wren wren
${switches && '  switch lever ways\n'}  controls {
${controls.map((line) => `    ${line}\n`).join('')}  }
  wiring {
${wiring.map((line) => `    ${line}\n`).join('')}  }
  selector {
    1 heron
    2 finch
  }
}
`);
  const [written] = analysis.model.instruments;
  assert.ok(written);
  return { written, quick: quickOf(analysis.bench) };
}

/** Share of a volt in each coil that reaches the jack. */
function sharesOf(
  { written, quick }: ReturnType<typeof wired>,
  { selection, ...setting }: typeof AT_THE_METER & { readonly selection: Selection },
  frequencyHz: number,
) {
  const { network, output, segments } = positionNetwork(written, selection, quick, setting);
  const shares = transfers(network, output, frequencyHz);
  assert.ok(typeof shares !== 'string', String(shares));
  return new Map(
    segments.map(({ segment, slot }) => [
      `${slot.name}.${segment.coil.name}`,
      shares[network.sources.indexOf(segment.source)] ?? { re: 0, im: 0 },
    ]),
  );
}

interface Reference {
  readonly rigs: readonly {
    readonly name: string;
    readonly spec: { readonly controls: readonly string[]; readonly knobs: Played; readonly wiring: readonly string[] };
    readonly frequencyHz: readonly number[];
    readonly shares: Readonly<Record<string, readonly (readonly [number, number])[]>>;
  }[];
}

describe('a position by its nets', () => {
  const file = new URL('./soldered-nets.json', import.meta.url);
  const { rigs }: Reference = JSON.parse(readFileSync(file, 'utf8'));
  for (const { name, spec, frequencyHz, shares } of rigs)
    it(`is solved as ngspice does it: ${name}`, () => {
      const { written, quick } = wired(spec.wiring, spec.controls);
      const [position] = asWired(written).positions;
      assert.ok(position?.selection?.kind === 'nets');
      const setting = { ...AS_PLAYED, full: false, ...spec.knobs, selection: position.selection };
      frequencyHz.forEach((frequency, index) => {
        const found = sharesOf({ written, quick }, setting, frequency);
        const most = Math.max(...Object.values(shares).map((each) => Math.hypot(...(each[index] ?? [0, 0]))));
        for (const [coil, values] of Object.entries(shares)) {
          const [re = 0, im = 0] = values[index] ?? [];
          const share = found.get(coil);
          assert.ok(share, coil);
          const miss = Math.hypot(share.re - re, share.im - im);
          assert.ok(miss < 1e-6 * most, `${coil} at ${frequency} Hz: ${share.re} + ${share.im}i, not ${re} + ${im}i`);
        }
      });
    });

  it('is told by its nets where the selector has no word for it', () => {
    const [bridge] = rigs;
    assert.ok(bridge);
    const { written } = wired(bridge.spec.wiring, bridge.spec.controls);
    assert.equal(asWired(written).positions[0]?.selection?.kind, 'nets');
    const states = wiredStates(written)?.states;
    assert.equal(states?.[0]?.sounds, undefined);
  });
});

describe('what reaches the jack', () => {
  const positionsOf = (...lines: readonly string[]) => {
    const { written, quick } = wired(lines, ['volume 500 kohm linear']);
    const instrument = asWired(written);
    const [first] = instrument.positions;
    assert.ok(first);
    return positionEstimates(instrument, first, quick, undefined);
  };

  it('through a capacitor sounds, though no direct current comes through', () => {
    const through = positionsOf('capacitor 4.7 nF wren.violet to hot', 'ground wren.grey');
    assert.equal(through.phase, 'single');
  });

  it('is nothing where hot hangs in the air or lies on ground', () => {
    const open = positionsOf('hot wren.violet', 'ground heron.violet');
    assert.deepEqual(
      [open.phase, open.response?.levelDb.every(isSilentDb), Math.round(open.resistanceOhm?.value ?? 0)],
      ['silent', true, 500_000],
    );
    const shorted = positionsOf('hot wren.violet', 'ground wren.grey wren.violet');
    assert.deepEqual(
      [shorted.phase, shorted.response?.levelDb.every(isSilentDb), shorted.resistanceOhm?.value],
      ['silent', true, 0],
    );
  });
});

describe('random wirings', () => {
  /** `WIRINGS=2000` for more of them. */
  const COUNT = Number(process.env.WIRINGS ?? 60);
  const LEADS = ['heron', 'finch'].flatMap((slot) =>
    ['violet', 'grey', 'turquoise', 'pink'].map((lead) => `${slot}.${lead}`),
  );
  const TERMINALS = [
    ...LEADS,
    'wren.violet',
    'wren.grey',
    ...['a0', 'a1', 'a2', 'b0', 'b1', 'b2'].map((lug) => `lever.${lug}`),
  ];
  const WAYS = 'switch ways {\n  detent 1 joins a0 a1, joins b0 b1\n  detent 2 joins a0 a2, joins b0 b2\n}\n';

  const randomWiring = (seed: number): readonly string[] => {
    const draw = chance(seed);
    const nets = new Map<number, string[]>();
    for (const terminal of TERMINALS) {
      const net = draw.whole(8);
      nets.set(net, [...(nets.get(net) ?? []), terminal]);
    }
    const lines = [...nets].flatMap(([net, terminals]) =>
      net === 0
        ? [`hot ${terminals.join(' ')}`]
        : net === 1
          ? [`ground ${terminals.join(' ')}`]
          : terminals.length > 1
            ? [`link ${terminals.join(' ')}`]
            : [],
    );
    return draw.whole(3) === 0
      ? [...lines, `resistor 4.7 kohm ${draw.pick(['heron.grey', 'lever.a0'])} to ground`]
      : lines;
  };

  it('solved by nets give what the selector’s own words give, to rounding', () => {
    let folded = 0;
    for (let seed = 1; seed <= COUNT; seed++) {
      const made = wired(randomWiring(seed), ['volume 500 kohm linear'], WAYS);
      const states = wiredStates(made.written);
      assert.ok(states);
      for (const { soldered, meaning } of states.states) {
        const ohm = (selection: Selection, instrument: Instrument = made.written) => {
          const { network, output } = positionNetwork(instrument, selection, made.quick, {
            ...AT_THE_METER,
            volume: 7,
          });
          return resistanceBetween(network, output, ground);
        };
        const said = `seed ${seed}`;
        // Hot on ground: the two halves of the track stand side by side.
        if (meaning.fault === 'shorted') assert.ok(Math.abs((ohm(soldered) ?? 0) - 105_000) < 1e-6, said);
        if (!soldered.words) continue;
        folded += 1;
        const [nets, words] = [ohm(soldered), ohm(soldered.words)];
        assert.ok(
          nets !== null && words !== null && Math.abs(nets / words - 1) < 1e-9,
          `${said}: ${nets} and ${words}`,
        );
        const [byNets, byWords] = [soldered, soldered.words].map((selection) =>
          sharesOf(made, { ...AT_THE_METER, selection }, 0),
        );
        for (const [coil, share] of byWords ?? [])
          assert.ok(Math.abs((byNets?.get(coil)?.re ?? 0) - share.re) < 1e-9, `${said}: ${coil}`);
      }
    }
    assert.ok(folded > COUNT / 2, `${folded} states fold`);
  });
});
