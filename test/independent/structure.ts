/**
 * Random pickups and instruments as plain structures, and the text that a winder would write for each. A generator of its own beside
 * `support/generated-specs.ts` by purpose: the model outside the product reads the structure, never a text, and needs every fact;
 * those specs leave facts out, and nobody but the product knows what they mean.
 */
import { type Chance, chance } from '../support/chance.ts';

export interface Coil {
  readonly name: string;
  readonly bobbin: keyof typeof BOBBINS;
  readonly wire: keyof typeof WIRES;
  readonly turns: number;
  /** +1 counterclockwise from start to finish, seen from the strings. */
  readonly wind: 1 | -1;
  /** +1 north-up. */
  readonly pole: 1 | -1;
  readonly start: string;
  readonly finish: string;
  readonly taps: readonly { readonly turns: number; readonly lead: string }[];
  readonly below?: string;
  readonly serves?: 'none' | readonly [from: number, to: number];
}

export interface Pickup {
  readonly name: string;
  readonly strings: number;
  readonly coils: readonly Coil[];
  readonly hot: readonly string[];
  readonly links: readonly (readonly string[])[];
  readonly ground: readonly string[];
  readonly free: readonly string[];
}

export interface Control {
  readonly kind: 'volume' | 'tone';
  readonly ohm: number;
  readonly farad: number;
  /** The slot that it serves; all where left out. */
  readonly slot?: string;
}

export type Joined =
  | { readonly kind: 'pickup'; readonly slot: string }
  | { readonly kind: 'coil'; readonly slot: string; readonly coil: string; readonly throughOhm?: number }
  | { readonly kind: 'tap'; readonly slot: string; readonly lead: string }
  | { readonly kind: 'reversed'; readonly of: Joined }
  | { readonly kind: 'series' | 'parallel'; readonly of: readonly Joined[] };

export interface Instrument {
  readonly slots: readonly { readonly name: string; readonly pickup: Pickup }[];
  readonly controls: readonly Control[];
  readonly cableF: number;
  readonly inputOhm: number;
  readonly positions: readonly Joined[];
}

/** Bare and overall diameter, mm. */
export const WIRES = {
  thick: { bareMm: 0.0635, overallMm: 0.0711 },
  thin: { bareMm: 0.056, overallMm: 0.0635 },
} as const;

/** Core and height, mm. Without poles: what they add to an inductance is another matter, tested by itself. */
export const BOBBINS = {
  tall: { core: [60, 5.8], heightMm: 11 },
  flat: { core: [63, 6.4], heightMm: 7.2 },
  bare: { core: [58, 3], heightMm: 8 },
  half: { core: [29, 5.8], heightMm: 11 },
} as const;

const SHAPES = [
  'one',
  'two',
  'three',
  'four',
  'stack',
  'two stacks',
  'tapped',
  'two, tapped',
  'split',
  'dummy',
] as const;
type Shape = (typeof SHAPES)[number];

const COUNT: Readonly<Record<Shape, number>> = {
  one: 1,
  two: 2,
  three: 3,
  four: 4,
  stack: 2,
  'two stacks': 4,
  tapped: 1,
  'two, tapped': 2,
  split: 2,
  dummy: 2,
};

export function randomPickup(seed: number): Pickup {
  const luck = chance(seed);
  return pickup('wren', SHAPES[seed % SHAPES.length] ?? 'one', luck);
}

function pickup(name: string, shape: Shape, luck: Chance): Pickup {
  const count = COUNT[shape];
  const made = Array.from({ length: count }, (_, index) => coil(shape, index, luck));
  // The rods of a stack go through both bobbins.
  const coils = made.map((each) => ({
    ...each,
    pole: made.find(({ name }) => name === each.below)?.pole ?? each.pole,
  }));
  return { name, strings: 6, coils, ...joints(coils, luck) };
}

function coil(shape: Shape, index: number, luck: Chance): Coil {
  const stacked = shape === 'stack' || shape === 'two stacks';
  const lower = stacked && index % 2 === 1;
  const dummy = shape === 'dummy' && index === 1;
  const turns = luck.pick([3600, 5000, 6400]);
  const bobbin: Coil['bobbin'] =
    shape === 'split' ? 'half' : dummy || lower ? 'bare' : luck.pick(['tall', 'flat', 'bare']);
  const taps = shape === 'tapped' || (shape === 'two, tapped' && index === 0) ? 1 + luck.whole(2) : 0;
  return {
    name: `c${index}`,
    bobbin,
    wire: bobbin === 'bare' ? 'thin' : 'thick',
    turns,
    wind: luck.pick([1, -1]),
    pole: luck.pick([1, -1]),
    start: `s${index}`,
    finish: `f${index}`,
    taps: Array.from({ length: taps }, (_, tap) => ({
      turns: Math.round((turns * (tap + 1 + luck.whole(60) / 100)) / (taps + 2)),
      lead: `t${index}${tap}`,
    })),
    ...(lower ? { below: `c${index - 1}` } : {}),
    ...(dummy ? { serves: 'none' as const } : {}),
    ...(shape === 'split' ? { serves: index === 0 ? ([1, 3] as const) : ([4, 6] as const) } : {}),
  };
}

/** In series or side by side, coils turned any way round, now and then one shorted, left out, or taken at a tap. */
function joints(coils: readonly Coil[], luck: Chance): Pick<Pickup, 'hot' | 'links' | 'ground' | 'free'> {
  const turned = coils.map(({ start, finish }) => (luck.whole(2) === 0 ? [start, finish] : [finish, start]));
  const free = coils.flatMap(({ taps }) => taps.map(({ lead }) => lead));
  const low = turned.map(([first = '']) => first);
  const high = turned.map(([, second = '']) => second);
  const odd = coils.length > 1 ? luck.whole(8) : 9;
  if (odd === 0) {
    const at = luck.whole(coils.length);
    const rest = coils.map((_, index) => index).filter((index) => index !== at);
    const chain = series(rest.map((index) => [low[index] ?? '', high[index] ?? '']));
    return { ...chain, links: [...chain.links, [low[at] ?? '', high[at] ?? '']], free };
  }
  if (odd === 1) {
    const at = luck.whole(coils.length);
    const rest = coils.map((_, index) => index).filter((index) => index !== at);
    const chain = series(rest.map((index) => [low[index] ?? '', high[index] ?? '']));
    return { ...chain, free: [...free, low[at] ?? '', high[at] ?? ''] };
  }
  if (coils.length > 1 && luck.whole(3) === 0) {
    if (coils.length === 4 && luck.whole(2) === 0)
      return {
        ground: [low[0] ?? '', low[2] ?? ''],
        links: [
          [high[0] ?? '', low[1] ?? ''],
          [high[2] ?? '', low[3] ?? ''],
        ],
        hot: [high[1] ?? '', high[3] ?? ''],
        free,
      };
    return { ground: low, links: [], hot: high, free };
  }
  const chain = series(coils.map((_, index) => [low[index] ?? '', high[index] ?? '']));
  const last = coils.at(-1);
  const tap = coils[0]?.taps[luck.whole(2)]?.lead;
  // Hot is the tap: the turns behind it hang free.
  if (tap !== undefined && coils.length === 1 && luck.whole(2) === 0)
    return { ...chain, hot: [tap], free: [...free.filter((lead) => lead !== tap), ...chain.hot] };
  if (tap !== undefined && last && coils.length > 1 && luck.whole(2) === 0)
    // The next coil stands on the tap of the first.
    return {
      ...chain,
      links: chain.links.map((link, index) => (index === 0 ? [tap, link[1] ?? ''] : link)),
      free: [...free.filter((lead) => lead !== tap), high[0] ?? ''],
    };
  return { ...chain, free };
}

const series = (pairs: readonly (readonly [low: string, high: string])[]) => ({
  ground: [pairs[0]?.[0] ?? ''],
  links: pairs.slice(1).map(([low], index) => [pairs[index]?.[1] ?? '', low]),
  hot: [pairs.at(-1)?.[1] ?? ''],
});

export function randomInstrument(seed: number): Instrument {
  const luck = chance(seed);
  const names = luck.whole(2) === 0 ? ['neck', 'bridge'] : ['neck', 'middle', 'bridge'];
  const slots = names.map((name) => ({ name, pickup: pickup(`made-${name}`, luck.pick(SHAPES), luck) }));
  const controls: Control[] = [];
  if (luck.whole(5) > 0) controls.push({ kind: 'volume', ohm: luck.pick([250e3, 500e3]), farad: 0 });
  if (luck.whole(2) > 0)
    controls.push({ kind: 'tone', ohm: luck.pick([250e3, 500e3]), farad: luck.pick([22e-9, 47e-9]) });
  for (const slot of names) {
    if (luck.whole(3) === 0) controls.push({ kind: 'volume', ohm: 500e3, farad: 0, slot });
    if (luck.whole(4) === 0) controls.push({ kind: 'tone', ohm: 250e3, farad: 22e-9, slot });
  }
  const part = (): Joined => {
    const { name, pickup: held } = slots[luck.whole(slots.length)] ?? { name: 'neck', pickup: slots[0]?.pickup };
    const coil = held?.coils[luck.whole(held.coils.length)];
    const tap = coil?.taps[0];
    const kinds: Joined[] = [{ kind: 'pickup', slot: name }];
    if (coil && held.coils.length > 1) {
      kinds.push({ kind: 'coil', slot: name, coil: coil.name });
      kinds.push({ kind: 'coil', slot: name, coil: coil.name, throughOhm: 4700 });
    }
    if (tap) kinds.push({ kind: 'tap', slot: name, lead: tap.lead });
    return kinds[luck.whole(kinds.length)] ?? { kind: 'pickup', slot: name };
  };
  const turned = (of: Joined): Joined => (luck.whole(3) === 0 ? { kind: 'reversed', of } : of);
  const pair = (): readonly Joined[] => {
    const [one, other] = [part(), part()];
    return slotOf(one) === slotOf(other) ? [turned(one)] : [turned(one), turned(other)];
  };
  const position = (): Joined => {
    const of = pair();
    const [only] = of;
    if (of.length === 1 && only) return only;
    return { kind: luck.pick(['series', 'parallel', 'parallel']), of };
  };
  return { slots, controls, cableF: 450e-12, inputOhm: 1e6, positions: Array.from({ length: 3 }, position) };
}

const slotOf = (joined: Joined): string | undefined => ('slot' in joined ? joined.slot : undefined);

const SHARED = [
  ...Object.entries(WIRES).map(
    ([name, { bareMm, overallMm }]) => `wire ${name} {\n  diameter ${bareMm} mm\n  overall ${overallMm} mm\n}`,
  ),
  ...Object.entries(BOBBINS).map(
    ([name, { core, heightMm }]) =>
      `bobbin ${name}-bobbin {\n  core ${core.join(' x ')} mm\n  window ${heightMm} x 12 mm\n  pole none\n}`,
  ),
  '',
].join('\n');

const listed = (word: string, leads: readonly string[]) => (leads.length > 0 ? [`    ${word} ${leads.join(' ')}`] : []);

function pickupLines(pickup: Pickup): readonly string[] {
  return [
    `pickup ${pickup.name} {`,
    `  strings ${pickup.strings}`,
    ...pickup.coils.flatMap((coil) => [
      `  coil ${coil.name} {`,
      `    bobbin ${coil.bobbin}-bobbin`,
      `    wire ${coil.wire}`,
      `    turns ${coil.turns}`,
      `    wound ${coil.wind > 0 ? 'counterclockwise' : 'clockwise'}`,
      ...(coil.below ? [`    below ${coil.below}`] : [`    polarity ${coil.pole > 0 ? 'north-up' : 'south-up'}`]),
      ...(coil.serves === 'none' ? ['    serves none'] : []),
      ...(coil.serves && coil.serves !== 'none' ? [`    serves strings ${coil.serves.join(' to ')}`] : []),
      `    start ${coil.start}`,
      `    finish ${coil.finish}`,
      ...coil.taps.map(({ turns, lead }) => `    tap ${turns} turns ${lead}`),
      '  }',
    ]),
    '  cover none',
    '  hookup {',
    ...listed('hot', pickup.hot),
    ...pickup.links.flatMap((link) => listed('link', link)),
    ...listed('ground', pickup.ground),
    ...listed('free', pickup.free),
    '  }',
    '}',
  ];
}

export const pickupText = (pickup: Pickup): string => [SHARED, ...pickupLines(pickup), ''].join('\n');

export function selectionText(joined: Joined): string {
  switch (joined.kind) {
    case 'pickup':
      return joined.slot;
    case 'coil':
      return `${joined.slot}.${joined.coil}${joined.throughOhm ? ` through ${joined.throughOhm} ohm` : ''}`;
    case 'tap':
      return `${joined.slot}.${joined.lead}`;
    case 'reversed':
      return `reversed (${selectionText(joined.of)})`;
    default:
      return joined.of.map((each) => `(${selectionText(each)})`).join(` ${joined.kind} `);
  }
}

export const instrumentText = (instrument: Instrument): string =>
  [
    SHARED,
    ...instrument.slots.flatMap(({ pickup }) => pickupLines(pickup)),
    'instrument made-up {',
    '  scale 648 mm',
    ...instrument.slots.map(({ name, pickup }, index) => `  pickup ${name} ${pickup.name} at ${160 - 55 * index} mm`),
    ...(instrument.controls.length === 0
      ? []
      : [
          '  controls {',
          ...instrument.controls.map(
            ({ kind, ohm, farad, slot }) =>
              `    ${kind} ${ohm / 1e3} kohm audio${kind === 'tone' ? ` with ${farad * 1e9} nF` : ''}${slot ? ` for ${slot}` : ''}`,
          ),
          '  }',
        ]),
    `  cable 4.5 m of ${(instrument.cableF * 1e12) / 4.5} pF/m`,
    `  input ${instrument.inputOhm / 1e6} Mohm`,
    '  selector {',
    ...instrument.positions.map((position, index) => `    ${index + 1} ${selectionText(position)}`),
    '  }',
    '}',
    '',
  ].join('\n');
