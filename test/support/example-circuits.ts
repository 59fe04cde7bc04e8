import { type Circuit, type Component, circuit, ground } from '../../server/src/physics/circuit/circuit.ts';
import type { Coil, CoilValues } from '../../server/src/physics/circuit/coil.ts';
import type { Taper } from '../../server/src/physics/circuit/potentiometer.ts';
import type { SourceValues } from '../../server/src/physics/circuit/solve.ts';
import { capacitor, coil, coupling, potentiometer, resistor, rheostat, shortedTurn, wire } from './spice-components.ts';

/** A circuit with its sources' values and output, ready to be solved or written as a netlist. Values are invented. */
export interface Example {
  readonly title: string;
  readonly circuit: Circuit;
  readonly values: SourceValues;
  readonly output: string;
}

type CoilData = Omit<CoilValues, 'name' | 'start' | 'finish'>;

const screwCoil: CoilData = { ohm: 4090, henry: 2.12, farad: 61e-12 };
const slugCoil: CoilData = { ohm: 4010, henry: 2.03, farad: 58e-12 };
const singleCoil: CoilData = { ohm: 5890, henry: 2.51, farad: 88e-12 };

interface Load {
  readonly trackOhm?: number;
  readonly volume?: number;
  readonly tone?: number;
  readonly taper?: Taper;
}

/** Volume and tone, cable and input, from the net `hot` to `out`. */
export function load({ trackOhm = 500e3, volume = 10, tone = 10, taper = 'audio' }: Load = {}): Component[] {
  return [
    potentiometer({ name: 'volume', high: 'hot', wiper: 'out', low: ground, trackOhm, taper, rotation: volume }),
    rheostat({ name: 'tone', from: 'hot', to: 'tone lug', trackOhm, taper, rotation: tone }),
    capacitor({ name: 'tone capacitor', from: 'tone lug', to: ground, farad: 22e-9 }),
    capacitor({ name: 'cable', from: 'out', to: ground, farad: 460e-12 }),
    resistor({ name: 'input', from: 'out', to: ground, ohm: 1e6 }),
  ];
}

function pair(link: readonly [start: string, finish: string, start: string, finish: string]): [Coil, Coil, Component] {
  const screw = coil({ name: 'screw', start: link[0], finish: link[1], ...screwCoil });
  const slug = coil({ name: 'slug', start: link[2], finish: link[3], ...slugCoil });
  return [screw, slug, coupling('coupling', screw, slug, 0.13)];
}

/** A coil with two shorted turns beside it, which the string drives too. */
function covered(name: string, start: string, finish: string, data: CoilData): Component[] {
  const single = coil({ name, start, finish, ...data });
  return [
    single,
    shortedTurn({ name: `${name} cover`, cornerHz: 9000, beside: [{ coil: single, coupling: 0.14, drive: 0.9 }] }),
    shortedTurn({ name: `${name} poles`, cornerHz: 1200, beside: [{ coil: single, coupling: -0.3, drive: -0.4 }] }),
  ];
}

const series = () => pair([ground, 'link', 'link', 'hot']);

/** A turn that both coils share, with its sign. */
function underOneCover(coils: [Coil, Coil, Component]): Component[] {
  const [screw, slug] = coils;
  const beside = [
    { coil: screw, coupling: 0.35, drive: 0.6 },
    { coil: slug, coupling: -0.32, drive: -0.5 },
  ];
  return [...coils, shortedTurn({ name: 'cover', cornerHz: 21_000, beside })];
}

export const examples: readonly Example[] = [
  {
    title: 'single coil with a cover',
    circuit: circuit([...covered('single', ground, 'hot', singleCoil), ...load({ trackOhm: 250e3 })]),
    values: { single: 1 },
    output: 'out',
  },
  { title: 'series', circuit: circuit([...series(), ...load()]), values: { screw: 1, slug: 0.97 }, output: 'out' },
  {
    title: 'series under one cover',
    circuit: circuit([...underOneCover(series()), ...load()]),
    values: { screw: 1, slug: 0.97 },
    output: 'out',
  },
  {
    title: 'parallel',
    circuit: circuit([...pair([ground, 'hot', ground, 'hot']), ...load()]),
    values: { screw: 1, slug: 0.97 },
    output: 'out',
  },
  {
    title: 'split: the screw coil shorted by the link to ground',
    circuit: circuit([...series(), wire({ name: 'split', from: 'link', to: ground }), ...load()]),
    values: { screw: 1, slug: 0.97 },
    output: 'out',
  },
  {
    title: 'partial split through 4.7 kohm',
    circuit: circuit([...series(), resistor({ name: 'split', from: 'link', to: ground, ohm: 4700 }), ...load()]),
    values: { screw: 1, slug: 0.97 },
    output: 'out',
  },
  {
    title: 'out of phase: two pickups in parallel, one reversed',
    circuit: circuit([
      ...covered('neck', ground, 'hot', singleCoil),
      ...covered('bridge', 'hot', ground, { ...singleCoil, ohm: 6620, henry: 2.83 }),
      ...load({ trackOhm: 250e3 }),
    ]),
    values: { neck: 1, bridge: 0.72 },
    output: 'out',
  },
  {
    title: 'tone at 0',
    circuit: circuit([...series(), ...load({ tone: 0 })]),
    values: { screw: 1, slug: 0.97 },
    output: 'out',
  },
  {
    title: 'tone at 10',
    circuit: circuit([...series(), ...load({ tone: 10 })]),
    values: { screw: 1, slug: 0.97 },
    output: 'out',
  },
  {
    title: 'volume at 6',
    circuit: circuit([...series(), ...load({ volume: 6, taper: 'linear' })]),
    values: { screw: 1, slug: 0.97 },
    output: 'out',
  },
  ...[1, 2, 3, 4, 5].map(instrumentPosition),
];

/**
 * An instrument of three pickups with five coils, leads of some resistance and capacitance to their shields, a volume and
 * a tone for neck and bridge before the selector, a master volume with bleed, cable and input: 20 nets and more. All
 * pickups stay in the network; the selector joins some of them to its output.
 */
export function instrumentPosition(position: number): Example {
  const pickup = (name: string, scale: number): Component[] => {
    const screw = coil({ name: `${name} screw`, start: ground, finish: `${name} link`, ...scaled(screwCoil, scale) });
    const slug = coil({
      name: `${name} slug`,
      start: `${name} link`,
      finish: `${name} lead`,
      ...scaled(slugCoil, scale),
    });
    return [
      screw,
      slug,
      coupling(`${name} coupling`, screw, slug, 0.12),
      resistor({ name: `${name} lead`, from: `${name} lead`, to: `${name} hot`, ohm: 0.3 }),
      capacitor({ name: `${name} shield`, from: `${name} hot`, to: ground, farad: 45e-12 }),
      potentiometer({ name: `${name} volume`, high: `${name} hot`, wiper: `${name} wiper`, low: ground, ...pot(8) }),
      rheostat({ name: `${name} tone`, from: `${name} hot`, to: `${name} tone lug`, ...pot(7) }),
      capacitor({ name: `${name} tone capacitor`, from: `${name} tone lug`, to: ground, farad: 22e-9 }),
      resistor({ name: `${name} joint`, from: `${name} wiper`, to: `${name} switch`, ohm: 0.02 }),
    ];
  };
  const pot = (rotation: number) => ({ trackOhm: 500e3, taper: 'audio' as const, rotation, endOhm: 2 });
  const chosen = [['bridge'], ['bridge', 'middle'], ['middle'], ['middle', 'neck'], ['neck']][position - 1] ?? [];
  return {
    title: `instrument, position ${position}`,
    circuit: circuit([
      ...pickup('neck', 0.9),
      ...pickup('bridge', 1.15),
      coil({ name: 'middle coil', start: ground, finish: 'middle lead', ...singleCoil }),
      resistor({ name: 'middle lead', from: 'middle lead', to: 'middle switch', ohm: 0.3 }),
      capacitor({ name: 'middle shield', from: 'middle switch', to: ground, farad: 60e-12 }),
      ...chosen.map((name) => wire({ name: `selector ${name}`, from: `${name} switch`, to: 'selector' })),
      resistor({ name: 'selector joint', from: 'selector', to: 'master', ohm: 0.02 }),
      potentiometer({ name: 'master volume', high: 'master', wiper: 'master wiper', low: ground, ...pot(9) }),
      capacitor({ name: 'bleed capacitor', from: 'master', to: 'bleed', farad: 680e-12 }),
      resistor({ name: 'bleed resistor', from: 'bleed', to: 'master wiper', ohm: 150e3 }),
      resistor({ name: 'jack', from: 'master wiper', to: 'cable', ohm: 0.05 }),
      capacitor({ name: 'cable', from: 'cable', to: ground, farad: 470e-12 }),
      resistor({ name: 'plug', from: 'cable', to: 'plug', ohm: 0.05 }),
      resistor({ name: 'plug joint', from: 'plug', to: 'out', ohm: 0.02 }),
      resistor({ name: 'input', from: 'out', to: ground, ohm: 1e6 }),
      capacitor({ name: 'input capacitance', from: 'out', to: ground, farad: 20e-12 }),
    ]),
    values: { 'neck screw': 0.9, 'neck slug': 0.88, 'bridge screw': 1.15, 'bridge slug': 1.12, 'middle coil': 1.3 },
    output: 'out',
  };
}

function scaled(data: CoilData, factor: number): CoilData {
  return { ...data, ohm: data.ohm * factor, henry: data.henry * factor ** 2 };
}
