import type { Instrument, Selection } from '../model/instrument.ts';
import type { SensingPoint } from './comb.ts';
import { DEFAULT_COILS_APART_M } from './common-practice.ts';
import { hearsString, knownOrAlike } from './phase.ts';
import { AT_THE_METER, type PlacedSegment, positionNetwork, type QuickOf } from './position-network.ts';
import { soundingCoils } from './positions.ts';

/**
 * Where a selector position listens to one string, and how strongly: the coils that sound, each by its turns, its share of the
 * output at 0 Hz and its sign. `undefined` where the place of a pickup is not stated.
 */
export function sensingPoints(
  instrument: Instrument,
  selection: Selection,
  quickOf: QuickOf,
  string: number,
): readonly SensingPoint[] | undefined {
  const coils = soundingCoils(positionNetwork(instrument, selection, quickOf, AT_THE_METER), 0);
  const turns = knownOrAlike(
    coils.map((each) => each.stringTurns),
    1,
  );
  const points = coils.map(({ coil, placed, slot, transfer, string: sign }, index): SensingPoint | undefined => {
    if (slot.distance === undefined) return undefined;
    const heard = hearsString(coil, string) ? (turns[index] ?? 1) : 0;
    return { distanceM: slot.distance.si + offsetM(placed), weight: (sign ?? 1) * Math.abs(transfer) * heard };
  });
  const known = points.flatMap((each) => each ?? []);
  return known.length < points.length || known.length === 0 ? undefined : known;
}

/** From the pickup's own centre line; toward the bridge is negative. Where it is not said which coil lies there, the first does. */
function offsetM({ segment, slot }: PlacedSegment): number {
  const { pickup } = slot;
  const side = pickup?.coils.filter(({ below, serves }) => below === undefined && serves === undefined) ?? [];
  if (pickup === undefined || side.length !== 2 || !side.includes(segment.coil)) return 0;
  const apart = pickup.coilsApart?.value;
  const isNamed = apart?.coil === undefined ? segment.coil === side[0] : segment.coil.name === apart.coil;
  const namedWay = apart?.toward === 'neck' ? 1 : -1;
  return ((isNamed ? namedWay : -namedWay) * (apart?.distance.si ?? DEFAULT_COILS_APART_M)) / 2;
}
