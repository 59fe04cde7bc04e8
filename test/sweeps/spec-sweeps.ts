/**
 * Sweeps of what a spec declares: its own circuit, solved by the circuit solver, recorded through a set-up that is off by what is not known
 * of it, with noise; and the spec with these sweeps in its readings. No formula of the fit is used.
 */
import assert from 'node:assert/strict';
import path from 'node:path';
import { createAnalyser } from '../../server/src/analysis/analysis.ts';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import { diskHost, uriOf } from '../../server/src/cli/files.ts';
import { NO_SCALING, windingComponents } from '../../server/src/estimates/electric.ts';
import { pickupMagnetics } from '../../server/src/estimates/magnetics.ts';
import { segmentsOf } from '../../server/src/estimates/pickup-circuit.ts';
import type { QuickEstimates } from '../../server/src/estimates/quick.ts';
import { looseNetlist, probedNets } from '../../server/src/model/netlist.ts';
import { ground } from '../../server/src/physics/circuit/circuit.ts';
import { capacitor, currentSource, resistor } from '../../server/src/physics/circuit/components.ts';
import { networkOf } from '../../server/src/physics/circuit/network.ts';
import { solve } from '../../server/src/physics/circuit/solve.ts';
import { uniform } from '../support/chance.ts';
import { SAMPLES } from '../support/sample-files.ts';

/** One deviation: of the resistor, of the input's resistance and capacitance, of the channels, of a meter. */
const SD = { resistor: 0.005, ohm: 0.025, farad: 30e-12, balance: 0.03 * (Math.LN10 / 20), meter: 0.003 } as const;
const NOISE = { share: 0.0006, floor: 4e-6 } as const;
const RESISTOR_OHM = 10_000;

export interface DrawnSpec {
  readonly build: string;
  /** Beside those of the stock. */
  readonly parts?: string;
  /** Leads that are swept, the signal's first; before any joint of the hookup was made, where `apart`. */
  readonly sweeps: readonly { readonly red: string; readonly black: string; readonly apart?: boolean }[];
}

const analyser = createAnalyser();

function analysed(text: string, files: ReadonlyMap<string, string> = new Map()): QuickEstimates {
  const at = (name: string) => uriOf(path.join(SAMPLES, name));
  const others = [...files].map(([name, content]) => [at(name), content] as const);
  const analysis = analyser.analyse(
    at('drawn.pickup'),
    diskHost(SAMPLES, new Map([[at('drawn.pickup'), text], ...others])),
  );
  const [{ pickup } = assert.fail()] = analysis.pickups;
  return quickOf(analysis.bench)(pickup);
}

export interface SweptSpec {
  /** As it is declared: what was swept. */
  readonly truth: QuickEstimates;
  /** The same with its sweeps. */
  readonly swept: QuickEstimates;
  /** Im Z / Re Z at 1 kHz, between the points of each sweep. */
  qualityOf(sweep: number): number;
  /** What capacitances add to the susceptance there where voltages part by inductances, F. */
  capacitanceOf(sweep: number): number;
}

export function sweptSpec({ build, parts = '', sweeps }: DrawnSpec, seed: number): SweptSpec {
  const next = uniform(seed);
  const normal = () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next());
  const setUp = {
    resistor: RESISTOR_OHM * (1 + SD.resistor * normal()),
    ohm: 1e6 * (1 + SD.ohm * normal()),
    farad: 150e-12 + SD.farad * normal(),
  };
  const truth = analysed(specText(parts, build, ''));
  const files = new Map<string, string>();
  const impedances = sweeps.map(({ red, black, apart = false }) => impedanceBetween(truth, [red, black], apart));
  const blocks = impedances.map((impedance, index) => {
    const { red = '', black = '', apart = false } = sweeps[index] ?? {};
    const name = `sweeps/drawn-${index}.csv`;
    const gain = 1 + SD.balance * normal();
    const rows = Array.from({ length: 160 }, (_, at) => 20 * 2 ** (at / 16)).map((hz) => {
      const [re, im] = ratioOver(impedance(hz), hz, setUp);
      const size = Math.hypot(re, im);
      const noise = Math.hypot(NOISE.share, NOISE.floor / size);
      const level = 20 * Math.log10(size * gain * Math.exp(noise * normal()));
      const phase = (180 / Math.PI) * (Math.atan2(im, re) + noise * normal());
      return `${hz},${level},${phase}`;
    });
    files.set(name, `frequency Hz,level dB,phase deg\n${rows.join('\n')}\n`);
    const ohm = Number(impedance(0)[0]) * (1 + SD.meter * normal());
    return `  readings ${apart ? 'apart ' : ''}"${index}" {
    room 20 degC
    ${red} to ${black} ${(ohm / 1000).toFixed(4)} kohm ± ${((ohm * SD.meter) / 1000).toFixed(4)}
    sweep ${red} to ${black} "${name}" over 10 kohm
  }`;
  });
  return {
    truth,
    swept: analysed(specText(parts, build, blocks.join('\n')), files),
    qualityOf: (sweep) => {
      const [re = 1, im = 0] = impedances[sweep]?.(1000) ?? [];
      return im / re;
    },
    capacitanceOf: (sweep) => {
      const { red = '', black = '', apart = false } = sweeps[sweep] ?? {};
      const bare = impedanceBetween(truth, [red, black], apart, 0);
      const susceptance = ([re, im]: readonly [number, number]) => -im / (re ** 2 + im ** 2);
      const all = impedances[sweep] ?? bare;
      return (susceptance(all(MIDDLE_HZ)) - susceptance(bare(MIDDLE_HZ))) / (2 * Math.PI * MIDDLE_HZ);
    },
  };
}

const MIDDLE_HZ = 3000;

const specText = (parts: string, build: string, readings: string) => `use "parts/stock.pickup"
${parts}
bench {
  recorder input 1 Mohm with 150 pF ± 30 pF
}

pickup drawn "Drawn" {
${build}
${readings}
}
`;

/** Between two leads of the pickup as it is joined, or with nothing joined; `capacitance`: a factor on all of it. */
export function impedanceBetween(
  quick: QuickEstimates,
  [red, black]: readonly [string, string],
  apart: boolean,
  capacitance = 1,
) {
  const netlist = apart ? looseNetlist(quick.netlist.pickup) : quick.netlist;
  const probe = (text: string) => ({ text, parts: text.split('.') }) as unknown as Parameters<typeof netlist.netAt>[0];
  const nets = probedNets({ red: probe(red), black: probe(black) }, netlist) ?? assert.fail(`${red} to ${black}`);
  const nodeOf = (net: number) =>
    net === nets[1]
      ? ground
      : net === netlist.chassis && netlist.ground !== undefined
        ? `net ${netlist.ground}`
        : `net ${net}`;
  const magnetics = pickupMagnetics(quick);
  const screen = apart || netlist.ground === undefined ? undefined : nodeOf(netlist.ground);
  const scaling = { ...NO_SCALING, capacitance };
  const { components } = windingComponents(segmentsOf(netlist, nodeOf), quick, magnetics, scaling, screen);
  const { hot, ground: zero } = netlist;
  const cable =
    apart || hot === undefined || zero === undefined
      ? []
      : [capacitor({ name: 'cable', from: nodeOf(hot), to: nodeOf(zero), farad: magnetics.leadF * capacitance })];
  // A coil that hangs in the air is held by next to nothing.
  const held = [...new Set(segmentsOf(netlist, nodeOf).map(({ start }) => start))]
    .filter((node) => node !== ground)
    .map((node) => resistor({ name: `air at ${node}`, from: node, to: ground, ohm: 1e13 }));
  const network = networkOf({
    components: [...components, ...cable, ...held, currentSource({ name: 'probe', from: ground, to: nodeOf(nets[0]) })],
  });
  return (hz: number): readonly [number, number] => {
    const solution = solve(network, hz, { probe: 1 });
    const voltage = solution === 'undetermined' ? 'floating' : solution.voltageAt(nodeOf(nets[0]));
    assert.ok(voltage !== 'floating');
    return [voltage.re, voltage.im];
  };
}

/** The voltage over the resistor, with the input of the recorder across, against that of the output. */
function ratioOver(
  [re, im]: readonly [number, number],
  hz: number,
  { resistor: ohm, ohm: inputOhm, farad }: { readonly resistor: number; readonly ohm: number; readonly farad: number },
): readonly [number, number] {
  const [gRe, gIm] = [1 / ohm + 1 / inputOhm, 2 * Math.PI * hz * farad];
  // 1/(1 + Z·Y).
  const [dRe, dIm] = [1 + re * gRe - im * gIm, re * gIm + im * gRe];
  const square = dRe ** 2 + dIm ** 2;
  return [dRe / square, -dIm / square];
}
