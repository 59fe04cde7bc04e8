/** How many numbers of specs whose own circuits were swept lie within one and two of their stated deviations. */
import { computedMagnetics } from '../../server/src/estimates/computed-magnetics.ts';
import { isCoil } from '../../server/src/estimates/sweep-set-up.ts';
import { sweptTogether } from '../../server/src/estimates/sweeps-together.ts';
import type { Estimate } from '../../server/src/quantities/estimate.ts';
import { uniform } from '../support/chance.ts';
import { type DrawnSpec, type SweptSpec, sweptSpec } from './spec-sweeps.ts';

export const KINDS = [
  'one coil',
  'in series',
  'in series, taken apart',
  'in parallel',
  'both at once',
  'four coils',
] as const;
export type Kind = (typeof KINDS)[number];

/** A pickup of poles of steel below its coils, of turns drawn by chance. */
export function drawnSpec(kind: Kind, seed: number): DrawnSpec {
  const next = uniform(seed + 7_000_000);
  const turns = () => Math.round(4500 + 1500 * next());
  const cover = next() < 0.5 ? 'cover none' : 'cover nickel-silver';
  const coil = (name: string, start: string, finish: string, bobbin = `${name}-six`, strings = '') => `  coil ${name} {
    bobbin ${bobbin}
    wire poly-42
    turns ${turns()}
    wound counterclockwise
    ${strings}
    start to ${start}
    finish to ${finish}
  }`;
  const end = `  magnet bar-5 north toward screw
  baseplate none
  ${cover}
  cable 0.3 m of 100 pF/m
`;
  const whole = { red: 'hot', black: 'ground' };
  if (kind === 'one coil')
    return {
      build: `  conductors orange brown\n${coil('screw', 'brown', 'orange')}\n${end}  hookup {\n    hot orange\n    ground brown\n  }`,
      sweeps: [whole],
    };
  if (kind === 'four coils') {
    const coils = [
      coil('screw', 'brown', 'orange', 'screw-three', 'serves strings 4 to 6'),
      coil('slug', 'violet', 'grey', 'slug-three', 'serves strings 4 to 6'),
      coil('screw-high', 'pink', 'white', 'screw-three', 'serves strings 1 to 3'),
      coil('slug-high', 'turquoise', 'gold', 'slug-three', 'serves strings 1 to 3'),
    ];
    const alone = ['screw', 'slug', 'screw-high', 'slug-high'];
    return {
      parts: ['screw', 'slug']
        .map((name) => `\nbobbin ${name}-three like ${name}-six {\n  core 31.5 x 5.6 mm\n  poles 3 spread 20 mm\n}\n`)
        .join(''),
      build: `  conductors orange brown grey violet white pink gold turquoise\n  coils 18.6 mm apart\n${coils.join('\n')}\n  baseplate none\n  ${cover}\n  cable 0.3 m of 100 pF/m\n  hookup {\n    hot orange\n    link brown grey\n    link violet white\n    link pink gold\n    ground turquoise\n  }`,
      sweeps: [
        ...alone.map((name) => ({ red: `${name}.finish`, black: `${name}.start`, apart: true })),
        { red: 'orange', black: 'violet' },
        { red: 'violet', black: 'turquoise' },
        whole,
      ],
    };
  }
  const hookup =
    kind === 'in parallel'
      ? '    hot orange grey\n    ground brown violet'
      : '    hot grey\n    link orange violet\n    ground brown';
  const apart = kind !== 'in series';
  const alone = ['screw', 'slug'].map((name) => ({ red: `${name}.finish`, black: `${name}.start`, apart }));
  return {
    build: `  conductors orange brown grey violet\n  coils 18.6 mm apart, screw toward bridge\n${coil('screw', 'brown', 'orange')}\n${coil('slug', 'grey', 'violet')}\n${end}  hookup {\n${hookup}\n  }`,
    sweeps: kind === 'both at once' ? [whole] : [...alone, whole],
  };
}

export interface Told {
  readonly what: string;
  readonly told: Estimate;
  readonly truth: number;
}

/** Every number that the spec's circuit has, and what its sweeps tell of it. */
export function toldOf({ truth, swept, qualityOf, capacitanceOf }: SweptSpec): {
  readonly told: readonly Told[];
  readonly left: number;
} {
  const computed = computedMagnetics(truth);
  const { swept: groups, coupled } = sweptTogether(swept.netlist, swept.bench);
  let left = 0;
  const told = groups.flatMap((each, index): readonly Told[] => {
    if (each.kind !== 'coil') return [];
    left = Math.max(left, each.fit.rest / each.fit.scatter);
    const { subject } = each.group;
    const name = isCoil(subject) ? subject.name : undefined;
    const coil = truth.netlist.pickup.coils.find((own) => own.name === name);
    const ohm = coil ? truth.windings.get(coil)?.resistance20COhm : truth.resistance20COhm;
    const henry = coil ? computed.coils.get(coil)?.totalH : computed.inductanceH;
    const of = coil ? 'coil' : 'whole';
    const seen = [
      { what: 'Q at 1 kHz', told: each.quality1kHz, truth: qualityOf(index) },
      ...(coil ? [] : [{ what: 'C of a whole', told: each.capacitanceF, truth: capacitanceOf(index) }]),
    ];
    // Of two coils among others the spec itself tells no inductance.
    if (typeof subject === 'object' && !coil) return seen;
    return [
      { what: `L of a ${of}`, told: each.inductanceH, truth: henry?.value ?? 0 },
      { what: `R of a ${of}`, told: each.resistance20COhm, truth: ohm?.value ?? 0 },
      ...seen,
    ];
  });
  const windOf = (name: string) => truth.signs.find(({ coil }) => coil.name === name)?.wind?.sign ?? 1;
  const coils = truth.netlist.pickup.coils;
  const mutual = coupled.flatMap(({ coils: [a, b], mutualH }) => {
    const [first, second] = [a, b].map(({ name }) => coils.find((each) => each.name === name));
    if (!first || !second) return [];
    const henry = computed.mutualSameSenseH(first, second) * windOf(a.name) * windOf(b.name);
    return [{ what: 'M', told: mutualH, truth: henry }];
  });
  return { told: [...told, ...mutual], left };
}

export interface SpecCoverage {
  readonly counts: ReadonlyMap<
    string,
    { readonly values: number; readonly one: number; readonly two: number; readonly off: number }
  >;
  /** Of the greatest rest against the scatter of the points. */
  readonly worstLeft: number;
}

export function specCoverage(kind: Kind, draws: number, firstSeed = 1): SpecCoverage {
  const counts = new Map<string, { values: number; one: number; two: number; off: number }>();
  let worstLeft = 0;
  for (let seed = firstSeed; seed < firstSeed + draws; seed++) {
    const { told, left } = toldOf(sweptSpec(drawnSpec(kind, seed), seed));
    worstLeft = Math.max(worstLeft, left);
    for (const { what, told: found, truth } of told) {
      const count = counts.get(what) ?? { values: 0, one: 0, two: 0, off: 0 };
      counts.set(what, count);
      const apart = (found.value - truth) / found.sd;
      count.values += 1;
      count.off += apart;
      if (Math.abs(apart) <= 1) count.one += 1;
      if (Math.abs(apart) <= 2) count.two += 1;
    }
  }
  return { counts, worstLeft };
}
