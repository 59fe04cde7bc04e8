/** Two coils, each swept by itself and both in series: circuits solved by ngspice, each coil giving or taking 0.27 H (test/physics/sweeps/README.md). */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { createAnalyser } from '../../server/src/analysis/analysis.ts';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import { diskHost, uriOf } from '../../server/src/cli/files.ts';
import { UNSCREENED } from '../../server/src/estimates/electric.ts';
import { pickupMagnetics } from '../../server/src/estimates/magnetics.ts';
import { loadWithCable, pickupResponse } from '../../server/src/estimates/pickup-estimates.ts';
import { AS_PLAYED, positionNetwork } from '../../server/src/estimates/position-network.ts';
import { FULL_UP } from '../../server/src/estimates/positions.ts';
import { stringDrives } from '../../server/src/estimates/sources.ts';
import { sweptCoupling } from '../../server/src/estimates/sweep-coupling.ts';
import { sweptEach } from '../../server/src/estimates/sweeps-measured.ts';
import { sweptTogether } from '../../server/src/estimates/sweeps-together.ts';
import { ground } from '../../server/src/physics/circuit/circuit.ts';
import { coil, mutualInductance, shortedTurn } from '../../server/src/physics/circuit/coil.ts';
import { capacitor, resistor } from '../../server/src/physics/circuit/components.ts';
import { networkOf } from '../../server/src/physics/circuit/network.ts';
import { responseFigures } from '../../server/src/physics/circuit/response.ts';
import { analysedSample, SAMPLES, sampleText } from '../support/sample-files.ts';
import { referenceCurves } from './reference-sweeps.ts';

const SAMPLE = 'mistakes/reading-contradicts-sweep.pickup';
const truthOf = (file: string) => referenceCurves.find((each) => each.file.includes(file))?.truth ?? {};
const analyser = createAnalyser();

type Edit = (text: string) => string;
const joinedAsSwept: Edit = (text) =>
  text.replace('hot grey', 'hot violet').replace('link orange violet', 'link orange grey');
/** Their resistances as a meter of 0.3 % read them, and the cable of 60 pF. */
const withReadings: Edit = (text) =>
  text
    .replace('coils 18.6', 'cable 0.5 m of 120 pF/m\n  coils 18.6')
    .replace(
      'room 20 degC',
      'room 20 degC\n    screw.finish to screw.start 4.053 kohm ± 0.012\n    slug.finish to slug.start 4.038 kohm ± 0.012\n    hot to ground 8.064 kohm ± 0.024',
    );
const aiding: Edit = (text) => text.replaceAll('t-series-opposing', 't-series-aiding');
const all =
  (...edits: readonly Edit[]): Edit =>
  (text) =>
    edits.reduce((before, edit) => edit(before), text);

function analysed(edit: Edit = (text) => text) {
  const uri = uriOf(path.join(SAMPLES, SAMPLE));
  const curve = 't-series-aiding.csv';
  const beside = [
    uriOf(path.join(SAMPLES, 'mistakes/sweeps', curve)),
    readFileSync(path.resolve(import.meta.dirname, '../physics/sweeps/curves', curve), 'utf8'),
  ] as const;
  const analysis = analyser.analyse(uri, diskHost(SAMPLES, new Map([[uri, edit(sampleText(SAMPLE))], beside])));
  const [{ pickup } = assert.fail()] = analysis.pickups;
  const quick = quickOf(analysis.bench)(pickup);
  const { coupled, swept } = sweptTogether(quick.netlist, quick.bench);
  const [{ mutualH } = assert.fail()] = coupled;
  return { quick, pickup, analysis, swept, mutualH };
}
const tells = ({ analysis }: ReturnType<typeof analysed>) =>
  analysis.allFindings().some(({ code }) => code === 'reading/contradicts');

describe('two coils swept alone and in series', () => {
  it('give their mutual inductance to a thousandth of a henry, and all numbers within what is stated of them', () => {
    // A case holds where each number lies within three deviations or half a per cent (test/physics/sweeps/README.md).
    const off: string[] = [];
    let [values, near] = [0, 0];
    for (const [series, edit] of [
      ['t-series-opposing', withReadings],
      ['t-series-aiding', all(withReadings, aiding)],
    ] as const) {
      const { mutualH, swept } = analysed(edit);
      // The current passes the slug coil from its finish to its start.
      const alongH = -mutualH.value;
      assert.ok(mutualH.sd < 0.001, `${mutualH.sd}`);
      assert.ok(Math.abs(alongH - Number(truthOf(series).mutualH)) < 2 * mutualH.sd, `${alongH} ± ${mutualH.sd}`);
      for (const each of swept) {
        assert.ok(each.kind === 'coil' && each.verdict === 'holds');
        const file = each.group.sweeps[0]?.file.value ?? '';
        const truth = truthOf(file.slice('sweeps/'.length, -'.csv'.length));
        for (const name of ['inductanceH', 'resistanceOhm', 'capacitanceF', 'quality1kHz'] as const) {
          const { value, sd } = each[name];
          const error = Math.abs(value - Number(truth[name]));
          values += 1;
          if (error < 2 * sd) near += 1;
          if (error > Math.max(3 * sd, 0.005 * value)) off.push(`${file} ${name}: ${value} ± ${sd}`);
        }
      }
    }
    assert.deepEqual(off, []);
    assert.ok(values === 24 && near >= 21, `${near} of ${values}`);
  });

  it('give the loaded resonance of both together within half a per cent', () => {
    const { quick } = analysed(all(withReadings, aiding));
    // Volume and tone of 500 kohm, 22 nF, 450 pF, 1 Mohm; nothing between the strings and the coils.
    const load = { ...loadWithCable(450e-12), volumeOhm: 500e3, toneOhm: 500e3, toneF: 22e-9, inputOhm: 1e6 };
    const response = pickupResponse(quick, load, UNSCREENED) ?? assert.fail();
    const best = response.levelDb.reduce((high, level, at) => (level > (response.levelDb[high] ?? 0) ? at : high), 0);
    const { hz } = truthOf('t-series-aiding').loadedPeak as { readonly hz: number };
    const found = crestOf(response.frequencyHz, response.levelDb, best);
    assert.ok(Math.abs(found / hz - 1) < 0.005, `${found}, ${hz} there`);
  });

  it('tell by the coupling that one of them is joined the other way round', () => {
    const turned = analysed();
    const coupling = sweptCoupling(turned.quick) ?? assert.fail();
    assert.ok(coupling.isSeries && coupling.expectedH > 0 && coupling.measured.value < 0);
    assert.ok(tells(turned));
    // The same sweep of coils that are stated as they were swept says nothing.
    assert.ok(!tells(analysed(joinedAsSwept)));
    // Nor, where nobody stated which way they were wound, is anything stated otherwise.
    assert.ok(!tells(analysed((text) => text.replace('    wound counterclockwise\n', ''))));
  });
});

/** Between points by a parabola over the logarithm. */
function crestOf(hz: readonly number[], level: readonly number[], at: number): number {
  const [before = 0, here = 0, after = 0] = level.slice(at - 1, at + 2);
  const shift = (before - after) / (2 * (before - 2 * here + after));
  return (hz[at] ?? 0) * ((hz[at + 1] ?? 0) / (hz[at] ?? 1)) ** shift;
}

describe('two coils swept each alone, the other one loose beside it', () => {
  /** As `fallow-upper.csv` and `fallow-lower.csv` were made (test/physics/sweeps/README.md). */
  const TRUTH = [
    { resistanceOhm: 3950, inductanceH: 2.05, capacitanceF: 55e-12 },
    { resistanceOhm: 4080, inductanceH: 2.2, capacitanceF: 60e-12 },
  ];
  const sweptWith = (...edits: readonly Edit[]) => {
    const { pickups, bench } = analysedSample('mistakes/sweep-circuit-differs-linked.pickup', all(...edits));
    const [{ netlist } = assert.fail()] = pickups;
    return { ...sweptTogether(netlist, bench), netlist, bench };
  };
  const alone: Edit = (text) => text.replace(/ +sweep hot.*\n/, '');
  const apart: Edit = (text) => text.replace('readings "taken', 'readings apart "taken');

  it('tell both, though the other rings along, and their metal; not which way round they couple', () => {
    const { swept, coupled } = sweptWith(alone, apart);
    assert.equal(coupled.length, 0);
    swept.forEach((each, index) => {
      assert.ok(each.kind === 'coil' && each.verdict === 'holds');
      for (const name of ['resistanceOhm', 'inductanceH', 'capacitanceF'] as const) {
        const { value, sd } = each[name];
        assert.ok(
          Math.abs(value - (TRUTH[index]?.[name] ?? 0)) < 2 * sd && sd < 0.01 * value,
          `${name}: ${value} ± ${sd}`,
        );
      }
    });
    // By itself the circuit of one coil leaves hundreds of times what the points scatter by.
    const { netlist, bench } = sweptWith(alone, apart);
    assert.ok(sweptEach(netlist, bench).every((each) => each.kind === 'coil' && each.verdict === 'does not hold'));
  });

  it('tell the same where their readings do not say that they were apart: there is nothing to mend', () => {
    const [stated, unstated] = [sweptWith(alone, apart), sweptWith(alone)].map(({ swept }) => swept);
    unstated?.forEach((each, index) => {
      const other = stated?.[index];
      assert.ok(each.kind === 'coil' && other?.kind === 'coil' && each.verdict === 'holds');
      for (const name of ['inductanceH', 'capacitanceF'] as const)
        assert.ok(Math.abs(each[name].value - other[name].value) < each[name].sd, `${each[name].value}`);
    });
  });
});

describe('the coupling of two coils', () => {
  it('is that of the sweeps wherever it is asked for', () => {
    const { quick, pickup, mutualH } = analysed(joinedAsSwept);
    const [a, b] = pickup.coils;
    assert.ok(a && b);
    const found = pickupMagnetics(quick).mutualSameSenseH(a, b);
    assert.equal(Math.abs(found), Math.abs(mutualH.value));
    assert.ok(Math.abs(Math.abs(found) - 0.27) < 2 * mutualH.sd, `${found}`);
  });

  it('is known of coils of which nothing else is', () => {
    const unknown = analysed(
      all(joinedAsSwept, (text) => text.replaceAll(/^ +(bobbin|wire|turns|wound|coils) .*\n/gm, '')),
    );
    const [a, b] = unknown.pickup.coils;
    assert.ok(a && b);
    const { mutualSameSenseH, inductanceH } = pickupMagnetics(unknown.quick);
    assert.ok(Math.abs(mutualSameSenseH(a, b) + 0.27) < 2 * unknown.mutualH.sd);
    assert.ok(Math.abs((inductanceH?.value ?? 0) - Number(truthOf('t-series-opposing').inductanceH)) < 0.03);
  });
});

describe('switch positions of coils that were swept together', () => {
  /** The coils of the reference by themselves, in the circuit of a position under a volume, a tone and a cable. */
  function peakOf(joined: 'in series' | 'in parallel' | 'one'): number {
    const load = [
      resistor({ name: 'volume', from: 'hot', to: ground, ohm: 500e3 }),
      resistor({ name: 'tone', from: 'hot', to: 'tone', ohm: 500e3 }),
      capacitor({ name: 'tone capacitor', from: 'tone', to: ground, farad: 22e-9 }),
      capacitor({ name: 'cable', from: 'hot', to: ground, farad: 450e-12 + 60e-12 }),
      resistor({ name: 'input', from: 'hot', to: ground, ohm: 1e6 }),
    ];
    const made = (name: string, start: string, finish: string, ohm: number, henry: number) =>
      coil({ name, start, finish, ohm, henry });
    const middle = joined === 'in series' ? 'link' : ground;
    const screw = made('screw', ground, joined === 'in series' ? 'link' : 'hot', 4034, 2.04);
    const slug = made('slug', middle, joined === 'one' ? ground : 'hot', 4054, 2.12);
    const across = (name: string, from: string, to: string, farad: number) => capacitor({ name, from, to, farad });
    const network = networkOf({
      components: [
        ...load,
        screw,
        slug,
        mutualInductance('M', screw, slug, 0.27),
        shortedTurn({
          name: 'screw turn',
          cornerHz: 9500,
          beside: [{ coil: screw, coupling: Math.sqrt(0.1), drive: 0 }],
        }),
        shortedTurn({
          name: 'slug turn',
          cornerHz: 8800,
          beside: [{ coil: slug, coupling: Math.sqrt(0.12), drive: 0 }],
        }),
        across('screw C', ground, joined === 'in series' ? 'link' : 'hot', 62e-12),
        ...(joined === 'one' ? [] : [across('slug C', middle, 'hot', 60e-12)]),
      ],
    });
    const drives = joined === 'one' ? { screw: 1 } : { screw: 1, slug: 1 };
    const figures = responseFigures(network, 'hot', drives);
    assert.ok(typeof figures !== 'string' && figures.peakHz !== null);
    return figures.peakHz;
  }

  it('lie where the circuit of the reference has its peak', () => {
    const reference = (truthOf('t-series-aiding').loadedPeak as { readonly hz: number }).hz;
    assert.ok(Math.abs(peakOf('in series') / reference - 1) < 2e-3, `${peakOf('in series')}, ${reference} by ngspice`);
    const instrument = `
instrument heron-guitar "Heron" {
  pickup neck heron
  cable 4.5 m of 100 pF/m ± 1 %
  controls {
    volume 500 kohm ± 1 % audio
    tone 500 kohm ± 1 % audio 22 nF ± 1 %
  }
  selector {
    1 neck
    2 neck.slug parallel neck.screw
    3 neck.screw
  }
}
`;
    const { analysis } = analysed(all(withReadings, aiding, (text) => text + instrument));
    const [made = assert.fail()] = analysis.instruments;
    const pickupQuick = quickOf(analysis.bench);
    // In series as they were swept; of a coil that a split shorts nothing is left in the circuit.
    for (const [index, [joined, within]] of (
      [
        ['in series', 0.005],
        ['in parallel', 0.01],
        ['one', 0.01],
      ] as const
    ).entries()) {
      const selection = made.instrument.positions[index]?.selection ?? assert.fail();
      const setting = { ...AS_PLAYED, ...FULL_UP, scaling: UNSCREENED };
      const built = positionNetwork(made.instrument, selection, pickupQuick, setting);
      const figures = responseFigures(built.network, built.output, stringDrives(built));
      assert.ok(typeof figures !== 'string' && figures.peakHz !== null);
      const hz = peakOf(joined);
      assert.ok(Math.abs(figures.peakHz / hz - 1) < within, `${joined}: ${figures.peakHz}, ${hz} there`);
    }
  });
});
