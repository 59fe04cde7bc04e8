/** Every selector position of an instrument, pots anywhere: resistance at the jack, phase, hum, signal and response. */
import { type Bench, benchMainsHz, benchRoomC } from '../model/bench.ts';
import { type Sign, servesDifferentStrings } from '../model/coil.ts';
import type { Instrument, Position, Selection, Slot } from '../model/instrument.ts';
import { ground } from '../physics/circuit/circuit.ts';
import { levelAgainstDb } from '../physics/circuit/combined-level.ts';
import { resistanceBetween } from '../physics/circuit/dc.ts';
import { audioFrequencies, type ResponseFigures, responseFigures, responseOf } from '../physics/circuit/response.ts';
import { transfers } from '../physics/circuit/solve.ts';
import { add, type Complex, magnitude, scale, zero } from '../physics/complex.ts';
import { type Estimate, estimateOf, functionOf } from '../quantities/estimate.ts';
import { NO_SCALING, type Scaling, turnsShare } from './electric.ts';
import type { FrequencyResponse, PhaseVerdict, PositionEstimates } from './estimates.ts';
import { pickupMagnetics } from './magnetics.ts';
import {
  AS_PLAYED,
  AT_THE_METER,
  type PlacedSegment,
  type PositionNetwork,
  positionNetwork,
  type QuickOf,
  type Setting,
} from './position-network.ts';
import { type QuickEstimates, soundTogether } from './quick.ts';
import { scalingCauses } from './scaling-causes.ts';
import { times } from './signs.ts';

/** A coil as it stands in a position: what it gives to the output and with which signs. */
export interface SoundingCoil {
  readonly placed: PlacedSegment;
  /** Real part of its transfer at the frequency asked for. */
  readonly transfer: number;
  readonly string: Sign | undefined;
  readonly hum: Sign | undefined;
}

export interface PotsAt {
  readonly volume: number;
  readonly tone: number;
  /** Farad of cable instead of the instrument's own. */
  readonly cableF?: number;
}

export const FULL_UP: PotsAt = { volume: 10, tone: 10 };

export function positionEstimates(
  instrument: Instrument,
  position: Position,
  quickOf: QuickOf,
  bench: Bench | undefined,
  pots: PotsAt = FULL_UP,
): PositionEstimates {
  const { selection } = position;
  const base = { key: position.key.value, title: position.title };
  const complete = selection && slotsOf(selection).every(({ pickup }) => pickup !== undefined);
  if (!selection || !complete) return { ...base, ...NOTHING_KNOWN };
  const quick = pickupsOf(selection, quickOf);
  const resistanceOhm = jackResistance(instrument, selection, quickOf, bench, pots);
  const settings: Setting = { ...AS_PLAYED, ...pots };
  const dc = positionNetwork(instrument, selection, quickOf, AT_THE_METER);
  const phase = phaseOf(soundingCoils(dc, 0));
  if (quick.some((each) => !fullyKnown(each))) return { ...base, ...NOTHING_KNOWN, resistanceOhm, phase };

  const build = (scaling: Scaling) => positionNetwork(instrument, selection, quickOf, { ...settings, scaling });
  const played = build(NO_SCALING);
  const string = stringSources(played);
  const figures = (scaling: Scaling): ResponseFigures | undefined => {
    const network = scaling === NO_SCALING ? played : build(scaling);
    const result = responseFigures(network.network, network.output, stringSources(network));
    return typeof result === 'string' ? undefined : result;
  };
  const best = figures(NO_SCALING);
  const causes = scalingCauses(quick);
  const estimate = (pick: (figures: ResponseFigures) => number | null): Estimate | undefined => {
    if (!best || pick(best) === null) return undefined;
    return functionOf(causes, ([resistance = 1, inductance = 1, capacitance = 1]) => {
      const scaled = figures({ temperatureC: 20, resistance, inductance, capacitance });
      return (scaled && pick(scaled)) ?? Number.NaN;
    });
  };
  const restsOn = [
    ...new Set(
      quick.flatMap((each) => [...pickupMagnetics(each).coils.values()].flatMap(({ totalH }) => totalH.restsOn)),
    ),
  ];
  const resting = (value: Estimate | undefined) =>
    value && { ...value, restsOn: [...restsOn, loadWords(instrument, pots)] };
  const level =
    best &&
    estimateOf(Math.max(-120, best.lowFrequencyLevelDb - REFERENCE_LEVEL_DB), { sd: 0.5, basis: 'computed', restsOn });
  return {
    ...base,
    resistanceOhm,
    phase,
    resonanceHz: resting(estimate(({ peakHz }) => peakHz)),
    peakDb: resting(estimate(({ peakDb }) => peakDb)),
    minus3DbHz: resting(estimate(({ minus3DbHz }) => minus3DbHz)),
    levelDb: level,
    signalDb: levelEstimate(played, string, 100, restsOn),
    humDb: levelEstimate(played, humSources(played), benchMainsHz(bench), [
      'uniform field; the steel of the poles is left out',
    ]),
    response: responseAt(played, string),
  };
}

const NOTHING_KNOWN = {
  resistanceOhm: undefined,
  resonanceHz: undefined,
  peakDb: undefined,
  minus3DbHz: undefined,
  levelDb: undefined,
  phase: 'unproven' as PhaseVerdict,
  signalDb: undefined,
  humDb: undefined,
  response: undefined,
};

/** Unloaded string signal of one coil of 5,000 turns. */
export const REFERENCE_TURNS = 5000;
export const REFERENCE_LEVEL_DB = 20 * Math.log10(REFERENCE_TURNS);

const loadWords = ({ cable, input }: Instrument, pots: PotsAt): string =>
  `cable ${cable ? `${cable.value.length.written} of ${cable.value.capacitancePerLength.written}` : '450 pF, assumed'}, input ${input ? input.value.written : '1 Mohm, assumed'}, volume ${pots.volume}, tone ${pots.tone}`;

/** The pickups, coils and taps that a selection names, in order. */
export function partsOf(
  selection: Selection,
): readonly Extract<Selection, { readonly kind: 'pickup' | 'coil' | 'tap' }>[] {
  if (selection.kind === 'reversed') return partsOf(selection.of);
  if (selection.kind === 'series' || selection.kind === 'parallel') return selection.of.flatMap(partsOf);
  return [selection];
}

/** The slots that a selection names, in order. */
export const slotsOf = (selection: Selection): readonly Slot[] => partsOf(selection).map(({ slot }) => slot);

const pickupsOf = (selection: Selection, quickOf: QuickOf): readonly QuickEstimates[] =>
  slotsOf(selection).flatMap(({ pickup }) => (pickup ? [quickOf(pickup)] : []));

const fullyKnown = (quick: QuickEstimates): boolean =>
  [...quick.windings.values()].every(({ turns, buildM, resistance20COhm }) => turns && buildM && resistance20COhm);

/** What a meter on the jack reads in the bench's room, nothing plugged in, pots where they are. */
export function jackResistance(
  instrument: Instrument,
  selection: Selection,
  quickOf: QuickOf,
  bench: Bench | undefined,
  pots: PotsAt = FULL_UP,
  temperatureC = benchRoomC(bench),
): Estimate | null | undefined {
  const quick = pickupsOf(selection, quickOf);
  const resistances = quick.flatMap((each) =>
    [...each.windings.values()].map(({ resistance20COhm }) => resistance20COhm),
  );
  if (resistances.some((each) => each === undefined)) return undefined;
  const at = (resistance: number) => {
    const setting = { ...AT_THE_METER, ...pots, scaling: { ...NO_SCALING, temperatureC, resistance } };
    const { network, output } = positionNetwork(instrument, selection, quickOf, setting);
    return resistanceBetween(network, output, ground);
  };
  const best = at(1);
  if (best === null) return null;
  const relative = Math.max(
    0,
    ...resistances.flatMap((each) => (each && each.value > 0 ? [each.sd / each.value] : [])),
  );
  const restsOn = [...new Set(resistances.flatMap((each) => each?.restsOn ?? []))];
  const cause = estimateOf(1, { sd: relative, basis: 'computed', restsOn: [...restsOn, `at ${temperatureC} degC`] });
  return functionOf([cause], ([scale = 1]) => at(scale) ?? Number.NaN);
}

/** Coils of the position that drive the output, at 0 Hz where only directions are asked for. */
export function soundingCoils(
  { network, output, segments }: PositionNetwork,
  frequencyHz: number,
): readonly SoundingCoil[] {
  const shares = transfers(network, output, frequencyHz);
  if (typeof shares === 'string') return [];
  const real = segments.map(({ segment }) => shares[network.sources.indexOf(segment.source)]?.re ?? 0);
  const strongest = Math.max(0, ...real.map(Math.abs));
  return segments.flatMap((placed, index): readonly SoundingCoil[] => {
    const transfer = real[index] ?? 0;
    if (!(Math.abs(transfer) > 1e-3 * strongest) || strongest < 1e-9) return [];
    const signs = placed.quick.signs.find(({ coil }) => coil === placed.segment.coil);
    const direction: Sign = transfer > 0 ? 1 : -1;
    return [
      {
        placed,
        transfer,
        string: signs?.windPole && times(direction, signs.windPole.sign),
        hum: signs?.wind && times(direction, signs.wind.sign),
      },
    ];
  });
}

export function phaseOf(coils: readonly SoundingCoil[]): PhaseVerdict {
  if (coils.length === 0) return 'unproven';
  const pairs = coils.flatMap((a, index) =>
    coils
      .slice(index + 1)
      .filter((b) => heardTogether(a, b))
      .map((b) => [a, b] as const),
  );
  if (pairs.some(([a, b]) => a.string !== undefined && b.string !== undefined && a.string !== b.string)) return 'out';
  if (pairs.some(([a, b]) => a.string === undefined || b.string === undefined)) return 'unproven';
  return new Set(coils.map(({ placed }) => placed.segment.coil)).size > 1 ? 'in' : 'single';
}

/** Different pickups are heard together where a string runs over both; coils of one pickup as the pickup says. */
export const heardTogether = (a: SoundingCoil, b: SoundingCoil): boolean => {
  const [first, second] = [a.placed, b.placed];
  if (first.segment.coil === second.segment.coil) return false;
  const [one, other] = [first.segment.coil, second.segment.coil];
  if (first.slot === second.slot) return soundTogether(one, other);
  return isHeard(a) && isHeard(b) && !servesDifferentStrings(one, other);
};

const isHeard = ({ placed: { segment } }: SoundingCoil) => segment.coil.serves?.value !== 'none' && !segment.coil.below;

/**
 * How strongly a string excites a coil, against one right under it: nothing for a dummy, little for the lower coil of a stack
 * (common practice, no published source; a lower coil gives roughly a tenth to a fifth).
 */
export const stringShare = (segment: PlacedSegment['segment']): number =>
  segment.coil.serves?.value === 'none' ? 0 : segment.coil.below ? 0.15 : 1;

/** Signed e.m.f. of each coil by its turns. */
export function stringSources({ segments }: PositionNetwork): Record<string, number> {
  return Object.fromEntries(
    segments.map(({ segment, quick }) => {
      const sign = quick.signs.find(({ coil }) => coil === segment.coil)?.windPole?.sign ?? 1;
      const turns = (quick.windings.get(segment.coil)?.turns?.value ?? REFERENCE_TURNS) * turnsShare(segment, quick);
      return [segment.source, sign * turns * stringShare(segment)];
    }),
  );
}

/** Signed e.m.f. of each coil by its turn-area, in a uniform field. */
export function humSources({ segments }: PositionNetwork): Record<string, number> {
  return Object.fromEntries(
    segments.map(({ segment, quick }) => {
      const sign = quick.signs.find(({ coil }) => coil === segment.coil)?.wind?.sign ?? 1;
      const area = (quick.windings.get(segment.coil)?.turnAreaM2?.value ?? 1) * turnsShare(segment, quick);
      return [segment.source, sign * area];
    }),
  );
}

/** Level of all coils against the strongest single one, in place. The parts of a tapped coil are one coil. */
function levelEstimate(
  { network, output, segments }: PositionNetwork,
  sources: Record<string, number>,
  frequencyHz: number,
  restsOn: readonly string[],
): Estimate | undefined {
  const shares = transfers(network, output, frequencyHz);
  if (typeof shares === 'string') return undefined;
  const byCoil = new Map<string, Complex>();
  for (const { segment, slot } of segments) {
    const share = shares[network.sources.indexOf(segment.source)];
    if (!share) continue;
    const key = `${slot.name}.${segment.coil.name}`;
    byCoil.set(key, add(byCoil.get(key) ?? zero, scale(share, sources[segment.source] ?? 0)));
  }
  const contributions = [...byCoil.values()];
  const db = levelAgainstDb(contributions, Math.max(0, ...contributions.map(magnitude)));
  // A null is as deep as the coils are equal: one per cent of the strongest is what turns and areas are known to.
  const bound = 20 * Math.log10(10 ** (db / 20) + 0.01);
  return estimateOf(db, { sd: bound - db, basis: 'computed', restsOn });
}

function responseAt(position: PositionNetwork, sources: Record<string, number>): FrequencyResponse | undefined {
  const response = responseOf(position.network, position.output, sources, audioFrequencies());
  if (typeof response === 'string') return undefined;
  return {
    frequencyHz: [...response.frequencyHz],
    levelDb: [...response.levelDb].map((level) => level - REFERENCE_LEVEL_DB),
  };
}
