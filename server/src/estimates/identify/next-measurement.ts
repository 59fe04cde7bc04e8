/** Which one measurement tells most of what the readings leave open. */
import type { Coil, Sign } from '../../model/coil.ts';
import type { Evidence, Point } from './evidence.ts';
import { edgesOf, type Hypothesis, simplePaths } from './hypotheses.ts';

export type Measurement =
  | { readonly kind: 'resistance'; readonly a: Point; readonly b: Point }
  /** Steel at one coil's poles, the probes on one pair after the other until one kicks. */
  | { readonly kind: 'kick'; readonly coil: Coil; readonly pairs: readonly Pair[] }
  | { readonly kind: 'compass'; readonly coil: Coil }
  /** Which way the wire turns from its inner end, or which lead is the inner end: no meter tells it. */
  | { readonly kind: 'wind'; readonly coil: Coil };

export interface Pair {
  readonly red: Point;
  readonly black: Point;
}

export interface NextMeasurement {
  readonly measurement: Measurement;
  /** True where, whatever it shows, nothing is open after it. */
  readonly settles: boolean;
}

/** A case of the world: where the ends are, and the wind and poles of each coil that go with it. */
interface World {
  readonly hypothesis: Hypothesis;
  readonly wind: ReadonlyMap<Coil, Sign>;
  readonly pole: ReadonlyMap<Coil, Sign>;
}

export function nextMeasurement(evidence: Evidence, hypotheses: readonly Hypothesis[]): NextMeasurement | undefined {
  const worlds = hypotheses.slice(0, MOST_HYPOTHESES).flatMap((hypothesis) => worldsOf(evidence, hypothesis));
  if (worlds.length === 0 || worlds.length > MOST_WORLDS || isSettled(worlds)) return undefined;
  let best: { readonly measurement: Measurement; readonly left: number; readonly settles: boolean } | undefined;
  for (const measurement of candidates(evidence, worlds)) {
    const parts = new Map<string, World[]>();
    for (const world of worlds) {
      const shows = outcome(measurement, evidence, world);
      parts.set(shows, [...(parts.get(shows) ?? []), world]);
    }
    const left = Math.max(...[...parts.values()].map((part) => differing(part)));
    const settles = [...parts.values()].every(isSettled);
    const better = !best || (settles && !best.settles) || (settles === best.settles && left < best.left);
    if (better && left < differing(worlds)) best = { measurement, left, settles };
  }
  return best && { measurement: best.measurement, settles: best.settles };
}

const MOST_HYPOTHESES = 720;
const MOST_WORLDS = 6_000;

function worldsOf({ coils }: Evidence, hypothesis: Hypothesis): readonly World[] {
  let worlds: World[] = [{ hypothesis, wind: new Map(), pole: new Map() }];
  for (const { coil, wind, pole } of coils) {
    const signs: readonly Sign[] = [1, -1];
    const allowed = hypothesis.windPoles.get(coil) ?? signs;
    const pairs = (wind ? [wind] : signs).flatMap((w) =>
      (pole ? [pole] : signs).flatMap((p) => (allowed.includes(w === p ? 1 : -1) ? [{ w, p }] : [])),
    );
    // What no measurement of leads depends on need not be told apart.
    worlds = worlds.flatMap((world) =>
      pairs.map(({ w, p }) => ({
        hypothesis,
        wind: new Map([...world.wind, [coil, w]]),
        pole: new Map([...world.pole, [coil, p]]),
      })),
    );
    if (worlds.length > MOST_WORLDS) return worlds;
  }
  return worlds;
}

const endsKey = ({ hypothesis: { ends } }: World): string =>
  [...ends].map(([{ name }, { start, finish }]) => `${name} ${start} ${finish}`).join(';');

const differing = (worlds: readonly World[]): number => new Set(worlds.map(endsKey)).size;
const isSettled = (worlds: readonly World[]): boolean => differing(worlds) <= 1;

/** Resistances first: they are the quickest to take; then kicks, a compass, and what has to be looked at. */
function candidates(evidence: Evidence, worlds: readonly World[]): readonly Measurement[] {
  const { untraced, others, coils, readings } = evidence;
  const points = [...untraced, ...others];
  const pairs = points.flatMap((a, index) => points.slice(index + 1).map((b) => ({ a, b })));
  const unread = pairs.filter(
    ({ a, b }) => !readings.some((each) => (each.a === a && each.b === b) || (each.a === b && each.b === a)),
  );
  const open = coils.filter(({ coil }) => new Set(worlds.map(({ hypothesis }) => key(hypothesis, coil))).size > 1);
  return [
    ...unread.map(({ a, b }): Measurement => ({ kind: 'resistance', a, b })),
    ...open.map(
      ({ coil }): Measurement => ({ kind: 'kick', coil, pairs: kickingPairs(coil, pairs, evidence, worlds) }),
    ),
    ...open.flatMap(({ coil, pole }): readonly Measurement[] => (pole ? [] : [{ kind: 'compass', coil }])),
    ...open.map(({ coil }): Measurement => ({ kind: 'wind', coil })),
  ];
}

function key({ ends }: Hypothesis, coil: Coil): string {
  const placed = ends.get(coil);
  return placed ? `${placed.start} ${placed.finish}` : '';
}

/** What the measurement would show in that world. */
function outcome(measurement: Measurement, evidence: Evidence, world: World): string {
  const { hypothesis, wind, pole } = world;
  switch (measurement.kind) {
    case 'compass':
      return String(pole.get(measurement.coil));
    case 'wind':
      return String(wind.get(measurement.coil));
    case 'resistance':
      return simplePaths(edgesOf(evidence, hypothesis.ends), measurement.a, measurement.b).length > 0
        ? 'reads'
        : 'open';
    case 'kick':
      for (const pair of measurement.pairs) {
        const sign = kickOn(pair, measurement.coil, evidence, world);
        if (sign !== undefined) return `${pair.red} ${pair.black} ${sign}`;
      }
      return 'nothing';
  }
}

/** Pairs that kick at the coil in some world. */
function kickingPairs(
  coil: Coil,
  pairs: readonly { readonly a: Point; readonly b: Point }[],
  evidence: Evidence,
  worlds: readonly World[],
): readonly Pair[] {
  const hypotheses = [...new Set(worlds.map(({ hypothesis }) => hypothesis))];
  const reach = (red: Point, black: Point) =>
    hypotheses.some(({ ends }) => stepThrough(coil, { red, black }, evidence, ends) !== undefined);
  return pairs.flatMap(({ a, b }) => (reach(a, b) ? [{ red: a, black: b }] : []));
}

function kickOn(pair: Pair, coil: Coil, evidence: Evidence, { hypothesis, wind, pole }: World): Sign | undefined {
  const step = stepThrough(coil, pair, evidence, hypothesis.ends);
  if (!step) return undefined;
  const windPole = (wind.get(coil) ?? 1) * (pole.get(coil) ?? 1);
  return (step.along ? -windPole : windPole) > 0 ? 1 : -1;
}

function stepThrough(coil: Coil, { red, black }: Pair, evidence: Evidence, ends: Hypothesis['ends']) {
  const paths = simplePaths(edgesOf(evidence, ends), black, red);
  return paths.flatMap((path) => path.filter(({ edge }) => edge.evidence.coil === coil))[0];
}
