/** Joined and coupled coils between two probes, against the solver of circuits at large, and the slopes against differences. */
import assert from 'node:assert/strict';
import { ground } from '../../server/src/physics/circuit/circuit.ts';
import { coil, mutualInductance, shortedTurn } from '../../server/src/physics/circuit/coil.ts';
import { capacitor, currentSource, resistor } from '../../server/src/physics/circuit/components.ts';
import { networkOf } from '../../server/src/physics/circuit/network.ts';
import { solve } from '../../server/src/physics/circuit/solve.ts';
import { type CoilsJoined, coilNetwork } from '../../server/src/physics/sweep/coil-network.ts';

/** Three coils in series, probed over the first two, so that the third hangs on; what lies about them, and the cable over all. */
const JOINED: CoilsJoined = {
  coils: [
    { set: 0, ohm: 1, henry: 1, farad: 1 },
    { set: 1, ohm: 1, henry: 1, farad: 1 },
    { set: 1, ohm: 1.2, henry: 1.3, farad: 0.8 },
  ],
  pairs: [
    { a: 0, b: 1, coupling: 0.1, isMetalShared: true },
    { a: 0, b: 2, coupling: -0.05, isMetalShared: true },
    { a: 1, b: 2, coupling: 0.08, isMetalShared: false },
  ],
  isCouplingFree: true,
  cableSd: 0.1,
  circuits: [
    {
      nodes: 4,
      coils: [
        { coil: 0, start: 1, finish: 2 },
        { coil: 1, start: 0, finish: 2 },
        { coil: 2, start: 0, finish: 3 },
      ],
      capacitors: [
        { from: 1, to: 3, farad: 60e-12, scaledBy: 'cable' },
        { from: 2, to: 0, farad: 0.1, scaledBy: { coil: 0 } },
        { from: 3, to: 2, farad: 0.05, scaledBy: { coil: 2 } },
      ],
    },
  ],
};
const OHM = [4000, 5000];
const HENRY = [2, 2.4];
const FARAD = [50e-12, 60e-12];
const METAL = [
  { share: 0.1, corner: 9000 },
  { share: 0.2, corner: 5000 },
];
const COUPLING = 1.5;
const CABLE = 1.2;
/** Of all that stands about the coils. */
const ABOUT = 0.7;
/** Of each pair that shares metal how far the first one's turn lies about the second, and the other way. */
const REACH = [
  [0.3, -0.4],
  [-0.2, 0.25],
];
/** Two coils alone, the second on a tail of the first. */
const TWO: CoilsJoined = {
  ...JOINED,
  coils: JOINED.coils.slice(0, 2),
  pairs: JOINED.pairs.slice(0, 1),
  circuits: [
    {
      nodes: 3,
      coils: [
        { coil: 0, start: 1, finish: 0 },
        { coil: 1, start: 0, finish: 2 },
      ],
      capacitors: [{ from: 1, to: 2, farad: 60e-12, scaledBy: 'cable' }],
    },
    // The second probed, the first on its tail.
    {
      nodes: 3,
      coils: [
        { coil: 1, start: 1, finish: 0 },
        { coil: 0, start: 0, finish: 2 },
      ],
      capacitors: [{ from: 1, to: 2, farad: 60e-12, scaledBy: 'cable' }],
    },
    ...[0, 1].map((each) => ({ nodes: 2, coils: [{ coil: each, start: 1, finish: 0 }], capacitors: [] })),
  ],
};
const valuesOf = ({ coils, pairs }: CoilsJoined) => [
  ...[0, 1].flatMap((set) => {
    const { share = 0, corner = 1 } = METAL[set] ?? {};
    return [
      Math.log(OHM[set] ?? 0),
      Math.log(HENRY[set] ?? 0),
      Math.log(FARAD[set] ?? 0),
      Math.log(share / (1 - share)),
      Math.log(corner),
    ];
  }),
  COUPLING,
  ...pairs.flatMap((_, at) => REACH[at] ?? []),
  ...(coils.length === 2 ? [] : [ABOUT]),
  Math.log(CABLE),
];

/** The same as components. */
function solvedAt(joined: CoilsJoined, circuitAt: number, hz: number) {
  const nodeOf = (node: number) => (node === 0 ? ground : `node ${node}`);
  const { coils: placed, capacitors } = joined.circuits[circuitAt] ?? assert.fail();
  const ends = joined.coils.map((_, at) => {
    const { start, finish } = placed.find((each) => each.coil === at) ?? {};
    return {
      start: start === undefined ? `end of ${at}` : nodeOf(start),
      finish: finish === undefined ? `other end of ${at}` : nodeOf(finish),
    };
  });
  const coils = joined.coils.map(({ set, ohm, henry }, at) => {
    return coil({
      name: `coil ${at}`,
      ...(ends[at] ?? assert.fail()),
      ohm: ohm * (OHM[set] ?? 0),
      henry: henry * (HENRY[set] ?? 0),
    });
  });
  const farads = joined.coils.map(({ set, farad }) => farad * (FARAD[set] ?? 0));
  const network = networkOf({
    components: [
      ...coils,
      // What lies by itself is held.
      ...ends.map(({ start }) => resistor({ name: `air at ${start}`, from: start, to: ground, ohm: 1e14 })),
      ...joined.pairs.flatMap(({ a, b, coupling }) => {
        const [first, second] = [coils[a], coils[b]];
        if (!first || !second) return [];
        const henry = COUPLING * coupling * Math.sqrt(first.henry * second.henry);
        return [mutualInductance(`M ${a} ${b}`, first, second, henry)];
      }),
      ...coils.map((each, at) => {
        const { share = 0, corner = 1 } = METAL[joined.coils[at]?.set ?? 0] ?? {};
        const coupling = Math.sqrt(share);
        const beside = joined.pairs.flatMap(({ a, b }, pair) => {
          const other = at === a ? coils[b] : at === b ? coils[a] : undefined;
          const reach = REACH[pair]?.[at === a ? 0 : 1];
          return other && reach !== undefined ? [{ coil: other, coupling: coupling * reach, drive: 0 }] : [];
        });
        return shortedTurn({
          name: `turn ${at}`,
          cornerHz: corner,
          beside: [{ coil: each, coupling, drive: 0 }, ...beside],
        });
      }),
      ...placed.map(({ coil: at, start, finish }) =>
        capacitor({ name: `C ${at}`, from: nodeOf(start), to: nodeOf(finish), farad: farads[at] ?? 0 }),
      ),
      ...capacitors.map(({ from, to, farad, scaledBy }, index) =>
        capacitor({
          name: `about ${index}`,
          from: nodeOf(from),
          to: nodeOf(to),
          farad: farad * (typeof scaledBy === 'object' ? ABOUT * (farads[scaledBy.coil] ?? 0) : CABLE),
        }),
      ),
      currentSource({ name: 'probe', from: ground, to: nodeOf(1) }),
    ],
  });
  const solution = solve(network, hz, { probe: 1 });
  const voltage = solution === 'undetermined' ? 'floating' : solution.voltageAt(nodeOf(1));
  return voltage === 'floating' ? assert.fail() : voltage;
}

describe('joined coils between two probes', () => {
  for (const [name, joined] of [
    ['three coils of which one shares its metal with both others', JOINED],
    ['two coils that share their metal', TWO],
  ] as const) {
    const network = coilNetwork('loop', joined);
    const values = valuesOf(joined);
    const admittanceAt = (circuit: number, of: readonly number[], hz: number) => {
      network.take(of);
      network.at(circuit, hz, 1, false);
      return { re: network.admittance[0] ?? 0, im: network.admittance[1] ?? 0 };
    };

    it(`have the admittance of their circuit: ${name}`, () => {
      for (const circuit of joined.circuits.keys())
        for (const hz of [20, 500, 3000, 9000, 14_000, 20_000]) {
          const voltage = solvedAt(joined, circuit, hz);
          const { re, im } = admittanceAt(circuit, values, hz);
          // Y · V of one ampere.
          const off = Math.hypot(re * voltage.re - im * voltage.im - 1, re * voltage.im + im * voltage.re);
          assert.ok(off < 1e-7, `${off} at ${hz} Hz of circuit ${circuit}`);
        }
    });

    it(`have slopes by every parameter: ${name}`, () => {
      for (const circuit of joined.circuits.keys())
        for (const hz of [50, 4000, 11_000, 18_000]) {
          network.take(values);
          network.at(circuit, hz, 1, true);
          const slopes = Array.from(network.slopes);
          const size = Math.hypot(...Array.from(network.admittance));
          for (let at = 0; at < values.length; at++) {
            const step = 1e-5;
            const moved = (by: number) => admittanceAt(circuit, values.with(at, (values[at] ?? 0) + by), hz);
            const [above, below] = [moved(step), moved(-step)];
            const [re, im] = [(above.re - below.re) / (2 * step), (above.im - below.im) / (2 * step)];
            const off = Math.hypot((slopes[2 * at] ?? 0) - re, (slopes[2 * at + 1] ?? 0) - im);
            assert.ok(off < 1e-7 * size, `parameter ${at} at ${hz} Hz: ${off / size}`);
          }
        }
    });
  }
});
