/**
 * What pickups and instruments give, by signed sources in a dense circuit: nothing of the product's code. Each part of a coil between
 * two of its leads is a source with its own resistance and inductance. A string drives it by its turns and the sign wind · pole; a
 * uniform field of the mains by its turn-area and the sign of its wind; inner turns are shorter and smaller.
 */
import { type Branch, type Complex, GROUND, sizeOf, transfers } from './dense-circuit.ts';
import { BOBBINS, type Coil, type Control, type Instrument, type Joined, type Pickup, WIRES } from './structure.ts';

export interface Figures {
  /** At 20 degC; `null`: open. */
  readonly ohm: number | null;
  readonly phase: 'in' | 'out' | 'single' | 'unproven';
  /** dB over the strongest coil in place; `undefined`: nothing sounds. */
  readonly signalDb: number | undefined;
  readonly humDb: number | undefined;
}

export interface PositionFigures extends Figures {
  /** dB over the unloaded signal of one coil of 5,000 turns, at 10 Hz. */
  readonly levelDb: number;
}

/** Copper: 1/58 ohm mm²/m at 20 degC (IEC 60028). Packing of a scatter winding: 0.64, the language's default. */
const OHM_M = 1 / 58e6;
const PACKING = 0.64;

/** Build, wire and turn-area of the first turns of a racetrack winding, SI units. */
function firstTurns(coil: Coil, turns: number) {
  const { core, heightMm } = BOBBINS[coil.bobbin];
  const { bareMm, overallMm } = WIRES[coil.wire];
  const [length, width] = [core[0] / 1e3, core[1] / 1e3];
  const build = (turns * (Math.PI / 4) * (overallMm / 1e3) ** 2) / (PACKING * (heightMm / 1e3));
  const straight = 2 * (length - width);
  const round = Math.PI * width;
  const coreArea = (length - width) * width + (Math.PI / 4) * width ** 2;
  return {
    build,
    wireM: turns * (straight + round + Math.PI * build),
    // Area inside a turn at depth x: core + perimeter · x + π x², on the mean over the build.
    turnAreaM2: turns * (coreArea + ((straight + round) * build) / 2 + (Math.PI * build ** 2) / 3),
    ohm: (turns * (straight + round + Math.PI * build) * OHM_M) / ((Math.PI / 4) * (bareMm / 1e3) ** 2),
  };
}

/**
 * Wheeler's formula for a round multilayer coil (1928, recalled), metres: L = 31.6 µH/m · N² a²/(6a + 9h + 10b), with the circle that
 * encloses as much; a long racetrack has 6 to 17 % more, 11 % on the mean (field integrals, test/physics/reference/racetrack-self.json).
 */
function inductance(coil: Coil): number {
  const { heightMm } = BOBBINS[coil.bobbin];
  const { build, turnAreaM2 } = firstTurns(coil, coil.turns);
  const radius = Math.sqrt(turnAreaM2 / coil.turns / Math.PI);
  return (RACETRACK * 31.6e-6 * coil.turns ** 2 * radius ** 2) / (6 * radius + (9 * heightMm) / 1e3 + 10 * build);
}

/** Centre lines side by side, mm, and flanges between the windings of a stack, mm: what the language takes for granted. */
const APART_MM = 18;
const FLANGES_MM = 3;

/**
 * Mutual inductance of two coils counted the same way round, as two pairs of long wires: M = µ0 l/2π · N₁N₂ · ln(product of the
 * distances of like wires over that of unlike ones). Coils in line under different strings hardly couple.
 */
function mutualInductance(a: Coil, b: Coil, apart: { readonly acrossMm: number; readonly belowMm: number }): number {
  const size = (coil: Coil) => {
    const { build } = firstTurns(coil, coil.turns);
    const [length, width] = BOBBINS[coil.bobbin].core;
    return { length: length / 1e3 + build, half: (width / 1e3 + build) / 2 };
  };
  const [one, other] = [size(a), size(b)];
  const [across, below] = [apart.acrossMm / 1e3, apart.belowMm / 1e3];
  const distance = (sign: number) =>
    Math.hypot(across + sign * other.half - one.half, below) * Math.hypot(across - sign * other.half + one.half, below);
  return 2e-7 * Math.min(one.length, other.length) * a.turns * b.turns * Math.log(distance(-1) / distance(1));
}

const RACETRACK = 1.11;

export interface Part {
  readonly source: string;
  readonly coil: Coil;
  readonly key: string;
  readonly turns: number;
  /** String e.m.f. and hum e.m.f. of one unit of turns and turn-area, signs included. */
  readonly string: number;
  readonly hum: number;
}

export interface Placed {
  readonly branches: readonly Branch[];
  readonly parts: readonly Part[];
}

/** A lower coil of a stack hears a string a tenth to a fifth as strongly, a dummy coil not at all. Common practice. */
const heard = (coil: Coil) => (coil.serves === 'none' ? 0 : coil.below ? 0.15 : 1);

/** Nodes of one pickup: leads that a joint holds together are one. */
function nodesOf(pickup: Pickup, key: string): (lead: string) => string {
  const groups = [pickup.hot, pickup.ground, ...pickup.links];
  return (lead) => {
    const group = groups.findIndex((leads) => leads.includes(lead));
    return group < 0 ? `${key}:${lead}` : `${key}#${group}`;
  };
}

/** Values that a model has of a pickup's coils: this one's own, or others put in their place. */
export interface Values {
  henry(coil: Coil): number;
  /** Of two coils counted the same way round. */
  mutualHenry(a: Coil, b: Coil): number;
  /** Coupling of the parts of one coil. */
  readonly ofOneCoil: number;
  /** Stray capacitances of the coils that are in place, as branches between nodes. */
  capacitors(coils: readonly Coil[], node: (lead: string) => string, hot: string): readonly Branch[];
}

const ownValues = (pickup: Pickup): Values => ({
  henry: inductance,
  mutualHenry: (a, b) => {
    const apart = distanceOf(pickup, a, b);
    return apart ? mutualInductance(a, b, apart) : 0;
  },
  ofOneCoil: 1,
  capacitors: () => [],
});

function coilParts(coil: Coil, key: string, node: (lead: string) => string, values: Values): Placed {
  const stops = [
    ...[...coil.taps].sort((a, b) => a.turns - b.turns).map(({ turns, lead }) => ({ turns, lead })),
    { turns: coil.turns, lead: coil.finish },
  ];
  const branches: Branch[] = [];
  const parts: Part[] = [];
  let from = { turns: 0, lead: coil.start };
  for (const stop of stops) {
    const [inner, outer] = [firstTurns(coil, from.turns), firstTurns(coil, stop.turns)];
    const turns = stop.turns - from.turns;
    const source = `${key}.${coil.name}@${stop.turns}`;
    branches.push({
      from: node(from.lead),
      to: node(stop.lead),
      ohm: outer.ohm - inner.ohm,
      henry: values.henry(coil) * ((outer.wireM - inner.wireM) / firstTurns(coil, coil.turns).wireM) ** 2,
      source,
    });
    parts.push({
      source,
      coil,
      key: `${key}.${coil.name}`,
      turns,
      string: turns * coil.wind * coil.pole * heard(coil),
      hum: (outer.turnAreaM2 - inner.turnAreaM2) * coil.wind,
    });
    from = stop;
  }
  return { branches, parts };
}

/** The branches of one pickup's coils with the couplings between them. */
function coupled(values: Values, { branches, parts }: Placed): Placed {
  const henries = new Map(branches.map(({ source = '', henry = 0 }) => [source, henry]));
  const shareOf = ({ coil, source }: Part) => Math.sqrt((henries.get(source) ?? 0) / values.henry(coil));
  const between = (a: Part, b: Part): number => {
    if (a.coil === b.coil)
      return values.ofOneCoil * Math.sqrt((henries.get(a.source) ?? 0) * (henries.get(b.source) ?? 0));
    return shareOf(a) * shareOf(b) * a.coil.wind * b.coil.wind * values.mutualHenry(a.coil, b.coil);
  };
  return {
    parts,
    branches: branches.map((branch) => {
      const own = parts.find(({ source }) => source === branch.source);
      if (!own) return branch;
      const others = parts.filter((each) => each !== own);
      return { ...branch, mutual: new Map(others.map((other) => [other.source, between(own, other)])) };
    }),
  };
}

function distanceOf({ coils }: Pickup, a: Coil, b: Coil): { acrossMm: number; belowMm: number } | undefined {
  if (a.serves && a.serves !== 'none' && b.serves && b.serves !== 'none') return undefined;
  const tops = coils.filter(({ below }) => below === undefined);
  const place = (coil: Coil) => {
    const above = coils.find(({ name }) => name === coil.below);
    const across = APART_MM * tops.indexOf(above ?? coil);
    if (!above) return { across, below: 0 };
    const heights = BOBBINS[above.bobbin].heightMm + BOBBINS[coil.bobbin].heightMm;
    return { across, below: heights / 2 + FLANGES_MM };
  };
  const [one, other] = [place(a), place(b)];
  return { acrossMm: other.across - one.across, belowMm: other.below - one.below };
}

function figures({ branches, parts }: Placed, output: string, others: readonly Branch[]): Omit<PositionFigures, 'ohm'> {
  const all = [...branches, ...others];
  const at = (hz: number) => transfers(all, output, hz);
  const [still, string, mains, low] = [0, 100, 50, 10].map(at);
  return {
    phase: phaseOf(parts, still ?? new Map()),
    signalDb: inPlaceDb(amplitudes(parts, string, 'string'), STRINGS),
    humDb: inPlaceDb(amplitudes(parts, mains, 'hum'), [() => true]),
    levelDb: 20 * Math.log10(loudness(amplitudes(parts, low, 'string'), STRINGS) / 5000),
  };
}

type Amplitudes = ReadonlyMap<Coil, Complex & { readonly key: string }>;

/** A coil of which less than this reaches the output is silent: shorted, hanging at one end, behind an open switch. */
const SILENT = 0.01;

/** What each coil gives to the output, its parts added; silent coils left out. */
function amplitudes(
  parts: readonly Part[],
  transfer: ReadonlyMap<string, Complex> | undefined,
  what: 'string' | 'hum',
): Amplitudes {
  const found = new Map<Coil, Complex & { readonly key: string; readonly whole: number }>();
  for (const part of parts) {
    const { re, im } = transfer?.get(part.source) ?? { re: 0, im: 0 };
    const before = found.get(part.coil) ?? { re: 0, im: 0, key: part.key, whole: 0 };
    found.set(part.coil, {
      ...before,
      re: before.re + re * part[what],
      im: before.im + im * part[what],
      whole: before.whole + Math.abs(part[what]),
    });
  }
  return new Map([...found].filter(([, { whole, ...amplitude }]) => sizeOf(amplitude) > SILENT * whole));
}

/** Six strings, each heard by the coils that serve it. */
const STRINGS: readonly ((coil: Coil) => boolean)[] = [1, 2, 3, 4, 5, 6].map(
  (string) => (coil: Coil) =>
    coil.serves === undefined || (coil.serves !== 'none' && string >= coil.serves[0] && string <= coil.serves[1]),
);

/** Root of the mean square over the strings that anything hears. */
function loudness(each: Amplitudes, heardBy: readonly ((coil: Coil) => boolean)[]): number {
  const sums = heardBy.flatMap((hears) => {
    const own = [...each].filter(([coil, amplitude]) => hears(coil) && sizeOf(amplitude) > 1e-9);
    if (own.length === 0) return [];
    return own.reduce(({ re, im }, [, one]) => ({ re: re + one.re, im: im + one.im }), { re: 0, im: 0 });
  });
  return Math.sqrt(sums.reduce((total, each) => total + sizeOf(each) ** 2, 0) / Math.max(1, sums.length));
}

function inPlaceDb(each: Amplitudes, heardBy: readonly ((coil: Coil) => boolean)[]): number | undefined {
  const strongest = Math.max(0, ...[...each.values()].map(sizeOf));
  return strongest > 0 ? 20 * Math.log10(loudness(each, heardBy) / strongest) : undefined;
}

/** Whether coils that one string drives add or oppose each other; the parts of a coil weigh by their turns. */
function phaseOf(parts: readonly Part[], transfer: ReadonlyMap<string, Complex>): Figures['phase'] {
  const directions = new Map<Coil, number>();
  for (const { coil, source, turns } of parts)
    directions.set(coil, (directions.get(coil) ?? 0) + ((transfer.get(source)?.re ?? 0) * turns) / coil.turns);
  const live = [...directions].filter(([, direction]) => Math.abs(direction) > 1e-3);
  if (live.length === 0) return 'unproven';
  if (live.length === 1) return 'single';
  const driven = live
    .filter(([coil]) => heard(coil) === 1)
    .map(([coil, direction]) => ({ coil, signed: direction * coil.wind * coil.pole }));
  const opposed = driven.some((a) =>
    driven.some((b) => a.signed * b.signed < 0 && STRINGS.some((hears) => hears(a.coil) && hears(b.coil))),
  );
  return opposed ? 'out' : 'in';
}

export function pickupFigures(pickup: Pickup): Figures {
  const node = nodesOf(pickup, 'p');
  const values = ownValues(pickup);
  const placed = coupled(values, joinedParts(pickup.coils.map((coil) => coilParts(coil, 'p', node, values))));
  const [hot = '', ground = ''] = [pickup.hot[0], pickup.ground[0]].map((lead) => node(lead ?? ''));
  const grounded = rename(placed, new Map([[ground, GROUND]]));
  const { phase, signalDb, humDb } = figures(grounded, hot, []);
  return { phase, signalDb, humDb, ohm: resistance(grounded.branches, hot) };
}

const joinedParts = (all: readonly Placed[]): Placed => ({
  branches: all.flatMap(({ branches }) => branches),
  parts: all.flatMap(({ parts }) => parts),
});

function rename({ branches, parts }: Placed, names: ReadonlyMap<string, string>): Placed {
  const of = (name: string) => names.get(name) ?? name;
  return { parts, branches: branches.map((branch) => ({ ...branch, from: of(branch.from), to: of(branch.to) })) };
}

/** Resistance from a node to ground: the voltage of one ampere, from a source of 1 Gvolt behind 1 Gohm. */
function resistance(branches: readonly Branch[], from: string): number | null {
  const silent = branches.map(({ source: _, ...branch }) => branch);
  const huge = 1e9;
  const volt =
    transfers([...silent, { from: GROUND, to: from, ohm: huge, source: 'meter' }], from, 0).get('meter')?.re ?? 0;
  const ohm = (huge * volt) / (1 - volt);
  return ohm > 1e8 ? null : ohm;
}

interface Build {
  readonly instrument: Instrument;
  readonly valuesOf: (pickup: Pickup) => Values;
  readonly parts: Part[];
  readonly branches: Branch[];
  readonly same: Map<string, string>;
  count: number;
}

export interface PositionCircuit extends Placed {
  readonly output: string;
}

/** A position as it is played, pots full up, with cable and input. */
export function positionCircuit(
  instrument: Instrument,
  position: Joined,
  valuesOf: (pickup: Pickup) => Values = ownValues,
): PositionCircuit & { readonly plugged: readonly Branch[] } {
  const build: Build = { instrument, valuesOf, parts: [], branches: [], same: new Map(), count: 0 };
  join(position, 'selected', GROUND, false, build);
  const masters = instrument.controls.filter(({ slot }) => slot === undefined);
  controls(masters, 'selected', 'jack', GROUND, 'master', build);
  const output = finalName(build.same, 'jack');
  return {
    ...united(build),
    output,
    plugged: [
      { from: output, to: GROUND, farad: instrument.cableF },
      { from: output, to: GROUND, ohm: instrument.inputOhm },
    ],
  };
}

export function positionFigures(instrument: Instrument, position: Joined): PositionFigures {
  const { output, plugged, ...placed } = positionCircuit(instrument, position);
  return { ...figures(placed, output, plugged), ohm: resistance(placed.branches, output) };
}

/** `turned`: an odd number of reversals stands above. */
function join(joined: Joined, top: string, bottom: string, turned: boolean, build: Build): void {
  switch (joined.kind) {
    case 'reversed':
      join(joined.of, top, bottom, !turned, build);
      return;
    case 'parallel':
      for (const each of joined.of) join(each, top, bottom, turned, build);
      return;
    case 'series': {
      build.count += 1;
      const order = turned ? [...joined.of].reverse() : joined.of;
      const node = (index: number) =>
        index === 0 ? top : index === order.length ? bottom : `series${build.count}.${index}`;
      const nodes = order.map((_, index) => [node(index), node(index + 1)] as const);
      order.forEach((each, index) => {
        const [high = top, low = bottom] = nodes[index] ?? [];
        join(each, high, low, turned, build);
      });
      return;
    }
    default:
      place(joined, top, bottom, turned, build);
  }
}

function place(
  part: Extract<Joined, { kind: 'pickup' | 'coil' | 'tap' }>,
  top: string,
  bottom: string,
  turned: boolean,
  build: Build,
): void {
  const pickup = build.instrument.slots.find(({ name }) => name === part.slot)?.pickup;
  if (!pickup) return;
  build.count += 1;
  const key = `${part.slot}${build.count}`;
  const node = nodesOf(pickup, key);
  const own = build.instrument.controls.filter(({ slot }) => slot === part.slot);
  const inner = own.length > 0 ? `${key}.own` : top;
  if (own.length > 0) controls(own, inner, top, bottom, key, build);
  const hot = part.kind === 'tap' ? node(part.lead) : node(pickup.hot[0] ?? '');
  unite(build, hot, turned ? bottom : inner);
  unite(build, node(pickup.ground[0] ?? ''), turned ? inner : bottom);
  const values = build.valuesOf(pickup);
  const sounding: Coil[] = [];
  for (const coil of pickup.coils) {
    const ends = [node(coil.start), node(coil.finish)];
    const across = [node(pickup.hot[0] ?? ''), node(pickup.ground[0] ?? '')].every((end) => ends.includes(end));
    const alone = part.kind === 'coil' ? part : undefined;
    const silenced = alone !== undefined && alone.coil !== coil.name;
    if (silenced && !across) {
      const [from = '', to = ''] = ends;
      if (alone.throughOhm === undefined) unite(build, from, to);
      else build.branches.push({ from, to, ohm: alone.throughOhm });
    }
    if (silenced && alone.throughOhm === undefined) continue;
    sounding.push(coil);
  }
  const made = coupled(values, joinedParts(sounding.map((coil) => coilParts(coil, key, node, values))));
  build.branches.push(...made.branches, ...values.capacitors(sounding, node, hot));
  build.parts.push(...made.parts);
}

function controls(own: readonly Control[], from: string, to: string, low: string, key: string, build: Build): void {
  const volumes = own.filter(({ kind }) => kind === 'volume');
  unite(build, from, to);
  for (const { ohm } of volumes) build.branches.push({ from, to: low, ohm });
  own.forEach(({ kind, ohm, farad }, index) => {
    if (kind !== 'tone') return;
    const middle = `${key}.tone${index}`;
    build.branches.push({ from, to: middle, ohm }, { from: middle, to: low, farad });
  });
}

function unite(build: Build, a: string, b: string): void {
  const [one, other] = [finalName(build.same, a), finalName(build.same, b)];
  if (one === other) return;
  if (one === GROUND) build.same.set(other, one);
  else build.same.set(one, other);
}

function finalName(same: ReadonlyMap<string, string>, name: string): string {
  const next = same.get(name);
  return next === undefined ? name : finalName(same, next);
}

const united = ({ branches, parts, same }: Build): Placed => ({
  parts,
  branches: branches
    .map((branch) => ({ ...branch, from: finalName(same, branch.from), to: finalName(same, branch.to) }))
    // A shorted coil stays: its current couples to the others.
    .filter(({ from, to, source }) => from !== to || source !== undefined),
});
