/**
 * Every way in which the ends of untraced coils can be soldered to the leads, and whether the readings allow it. What all that are
 * allowed have in common is proven; nothing else is.
 */

import type { Coil, Sign } from '../../model/coil.ts';
import { TAP_SHARE_LIMIT } from '../common-practice.ts';
import type { CoilEvidence, Evidence, PairReading, Point } from './evidence.ts';

export interface Ends {
  readonly start: Point;
  readonly finish: Point;
}

export interface Hypothesis {
  readonly ends: ReadonlyMap<Coil, Ends>;
  /** What wind · pole each coil may have, given where its ends are. */
  readonly windPoles: ReadonlyMap<Coil, readonly Sign[]>;
}

export interface Space {
  readonly hypotheses: readonly Hypothesis[];
  /** `own conductors`: each end leaves by a conductor of its own. `shared`: ends may share a lead, lie on the shield or be joined inside. */
  readonly assuming: 'own conductors' | 'shared';
  /** True where there are too many ways to look at: nothing is deduced. */
  readonly tooMany: boolean;
}

/** A point inside the pickup that no lead brings out. */
export const HIDDEN: Point = -1;

const MOST = 20_000;

/** With two conductors for each coil, first without shared leads; else, or where the readings contradict that, with them. */
export function hypothesesOf(evidence: Evidence): Space {
  const open = evidence.coils.filter(isUntraced);
  const needed = open.reduce(
    (sum, { start, finish }) => sum + (start === undefined ? 1 : 0) + (finish === undefined ? 1 : 0),
    0,
  );
  if (evidence.untraced.length >= needed) {
    const found = enumerate(evidence, open, 'own conductors');
    if (found === undefined) return { hypotheses: [], assuming: 'own conductors', tooMany: true };
    if (found.length > 0) return { hypotheses: found, assuming: 'own conductors', tooMany: false };
  }
  const found = enumerate(evidence, open, 'shared');
  return { hypotheses: found ?? [], assuming: 'shared', tooMany: found === undefined };
}

export const isUntraced = ({ start, finish }: CoilEvidence): boolean => start === undefined || finish === undefined;

function enumerate(
  evidence: Evidence,
  open: readonly CoilEvidence[],
  assuming: Space['assuming'],
): readonly Hypothesis[] | undefined {
  const shared = assuming === 'shared';
  const points = shared ? [...evidence.untraced, ...evidence.others, HIDDEN] : evidence.untraced;
  const domains = open.map((coil) => domainOf(coil, points, evidence, shared));
  const found: Hypothesis[] = [];
  const ends = new Map<Coil, Ends>();
  const used = new Set<Point>();
  let looked = 0;
  const place = (index: number): boolean => {
    const coil = open[index];
    if (!coil) {
      looked += 1;
      const hypothesis = allowed(evidence, ends);
      if (hypothesis) found.push(hypothesis);
      return looked <= MOST;
    }
    for (const each of domains[index] ?? []) {
      const own = [each.start, each.finish].filter((point) => point !== coil.start && point !== coil.finish);
      if (!shared && own.some((point) => used.has(point))) continue;
      for (const point of own) used.add(point);
      ends.set(coil.coil, each);
      const more = place(index + 1);
      ends.delete(coil.coil);
      if (!shared) for (const point of own) used.delete(point);
      if (!more) return false;
    }
    return true;
  };
  return place(0) ? found : undefined;
}

/** Where the ends of one coil can be by what is read of its leads alone. */
function domainOf(
  { coil, start, finish, taps }: CoilEvidence,
  points: readonly Point[],
  { readings, kicks }: Evidence,
  shared: boolean,
): readonly Ends[] {
  const starts = start === undefined ? points : [start];
  const finishes = finish === undefined ? points : [finish];
  const pairs = starts.flatMap((from) =>
    finishes.flatMap((onto) => (from === onto ? [] : [{ start: from, finish: onto }])),
  );
  const isOpen = (a: Point, b: Point) => readings.some((each) => each.at20COhm === null && between(each, a, b));
  const own = kicks.filter((kick) => kick.coil === coil);
  // Without taps and shared leads, a lead that reads through a coil to another one is of that coil, as the other one is.
  const partner = (point: Point) => {
    const read = readings.find(({ a, b, at20COhm }) => at20COhm !== null && (a === point || b === point));
    return read && (read.a === point ? read.b : read.a);
  };
  return pairs.filter((ends) => {
    if (isOpen(ends.start, ends.finish)) return false;
    if (shared || taps.length > 0) return true;
    if (
      [partner(ends.start) ?? ends.finish, partner(ends.finish) ?? ends.start].join() !==
      [ends.finish, ends.start].join()
    )
      return false;
    return own.every(({ red, black }) => [red, black].every((point) => point === ends.start || point === ends.finish));
  });
}

const between = ({ a, b }: PairReading, one: Point, other: Point): boolean =>
  (a === one && b === other) || (a === other && b === one);

/** A part of a coil between two points. */
interface Edge {
  readonly evidence: CoilEvidence;
  readonly from: Point;
  readonly to: Point;
  /** Of the coil's wire; `undefined`: not known. */
  readonly share: number | undefined;
}

/** An edge of a path, and whether it is walked from start to finish. */
interface Step {
  readonly edge: Edge;
  readonly along: boolean;
}

function allowed(evidence: Evidence, ends: ReadonlyMap<Coil, Ends>): Hypothesis | undefined {
  const edges = edgesOf(evidence, ends);
  const paths = (a: Point, b: Point) => simplePaths(edges, a, b);
  for (const { a, b, at20COhm } of evidence.readings) {
    const joined = paths(a, b).length > 0;
    if (joined !== (at20COhm !== null)) return undefined;
  }
  if (!resistancesAgree(evidence, paths)) return undefined;
  const windPoles = new Map<Coil, readonly Sign[]>(
    evidence.coils.map(({ coil, wind, pole }) => [coil, wind && pole ? [wind === pole ? 1 : -1] : [1, -1]]),
  );
  for (const kick of evidence.kicks) {
    const through = paths(kick.black, kick.red);
    const coil = kick.coil ?? soleCoil(through);
    if (!coil) {
      if (through.length === 0) return undefined;
      continue;
    }
    const steps = through.flatMap((path) => path.filter(({ edge }) => edge.evidence.coil === coil));
    const step = steps[0];
    if (!step) return undefined;
    // North-up, wound clockwise (wind · pole −1), red probe on the finish: approach reads positive.
    const needed: Sign = step.along ? (-kick.onApproach as Sign) : kick.onApproach;
    windPoles.set(
      coil,
      (windPoles.get(coil) ?? []).filter((sign) => sign === needed),
    );
  }
  if ([...windPoles.values()].some((signs) => signs.length === 0)) return undefined;
  return { ends: new Map(ends), windPoles };
}

export function edgesOf({ coils }: Evidence, ends: ReadonlyMap<Coil, Ends>): readonly Edge[] {
  return coils.flatMap((evidence): readonly Edge[] => {
    const placed = ends.get(evidence.coil);
    const [start, finish] = [placed?.start ?? evidence.start, placed?.finish ?? evidence.finish];
    if (start === undefined || finish === undefined) return [];
    const stops: CoilEvidence['taps'] = [...evidence.taps, { point: finish, shareFromStart: 1 }];
    let from: (typeof stops)[number] = { point: start, shareFromStart: 0 };
    return stops.map((stop) => {
      const [before, upTo] = [from.shareFromStart, stop.shareFromStart];
      const share = before === undefined || upTo === undefined ? undefined : upTo - before;
      const edge = { evidence, from: from.point, to: stop.point, share };
      from = stop;
      return edge;
    });
  });
}

export function simplePaths(edges: readonly Edge[], from: Point, to: Point): readonly (readonly Step[])[] {
  const found: (readonly Step[])[] = [];
  const walk = (at: Point, steps: readonly Step[], visited: readonly Point[]): void => {
    if (at === to) {
      found.push(steps);
      return;
    }
    for (const edge of edges) {
      const along = edge.from === at;
      if (!along && edge.to !== at) continue;
      const next = along ? edge.to : edge.from;
      if (!visited.includes(next)) walk(next, [...steps, { edge, along }], [...visited, next]);
    }
  };
  walk(from, [], [from]);
  return found;
}

function soleCoil(paths: readonly (readonly Step[])[]): Coil | undefined {
  const coils = new Set(paths.flatMap((path) => path.map(({ edge }) => edge.evidence.coil)));
  return coils.size === 1 ? [...coils][0] : undefined;
}

/** Sums along single paths, where every coil of the path is known or was found by a reading of it alone. */
function resistancesAgree(
  { coils, readings }: Evidence,
  paths: (a: Point, b: Point) => readonly (readonly Step[])[],
): boolean {
  const known = new Map<Coil, { readonly value: number; readonly limit: number }>();
  for (const { coil, ohm20C } of coils) if (ohm20C) known.set(coil, ohm20C);
  const single = readings.flatMap(({ a, b, at20COhm, limitOhm }) => {
    const through = at20COhm === null ? [] : paths(a, b);
    const [path] = through;
    if (!path || through.length !== 1 || at20COhm === null) return [];
    const shares = sharesOf(path);
    return shares ? [{ shares, at20COhm, limitOhm }] : [];
  });
  // Readings through fewer coils first: they say what the others rest on.
  const ordered = [...single].sort((a, b) => a.shares.size - b.shares.size);
  for (const { shares, at20COhm, limitOhm } of ordered) {
    const missing = [...shares.keys()].filter((coil) => !known.has(coil));
    let ohm = 0;
    let limit = limitOhm;
    for (const [coil, share] of shares) {
      const each = known.get(coil);
      if (!each) continue;
      ohm += share * each.value;
      limit += share * each.limit + (share < 1 ? TAP_SHARE_LIMIT * each.value : 0);
    }
    const [only] = missing;
    if (missing.length > 1) continue;
    if (only) {
      const share = shares.get(only) ?? 1;
      const value = (at20COhm - ohm) / share;
      if (value < -limit / share || !(share > 0)) return false;
      known.set(only, { value: Math.max(0, value), limit: limit / share + (share < 1 ? TAP_SHARE_LIMIT * value : 0) });
    } else if (Math.abs(at20COhm - ohm) > limit) return false;
  }
  return true;
}

/** Shares of the coils along a path; `undefined` where one is not known. */
function sharesOf(path: readonly Step[]): ReadonlyMap<Coil, number> | undefined {
  const parts = new Map<Coil, number>();
  for (const { edge } of path) {
    const { coil, taps } = edge.evidence;
    if (edge.share === undefined && path.filter((step) => step.edge.evidence.coil === coil).length <= taps.length)
      return undefined;
    parts.set(coil, (parts.get(coil) ?? 0) + (edge.share ?? Number.NaN));
  }
  return new Map([...parts].map(([coil, share]) => [coil, Number.isNaN(share) ? 1 : share]));
}
