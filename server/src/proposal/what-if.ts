/** What of a pickup may be moved by hand to see what it would do, and the lines that would say so in its text. */
import { present } from '../../../grammar/values/present.ts';
import { grouped } from '../../../grammar/values/quantity.ts';
import { insertFirstLines, isIn, replaceAt, replaceWord } from '../checks/edits.ts';
import type { Edit } from '../checks/finding.ts';
import { ownEdits } from '../checks/own-edits.ts';
import { isWound } from '../estimates/coils-to-wind.ts';
import type { QuickEstimates } from '../estimates/quick.ts';
import type { Coil } from '../model/coil.ts';
import type { Pickup } from '../model/pickup.ts';
import { type Place, samePlace } from '../model/place.ts';
import type { Shelf, WireOption } from './shelf.ts';
import { magnetOptions, wireOptions } from './shelf.ts';

/** Where each knob that was moved stands, by its id: a number of a slider, the id of a choice. */
export type Settings = Readonly<Record<string, number | string>>;

export interface TurnsKnob {
  readonly kind: 'turns';
  readonly id: string;
  readonly coil: Coil;
  readonly now: number;
  readonly fewest: number;
  readonly most: number;
}

export interface WireKnob {
  readonly kind: 'wire';
  readonly id: string;
  readonly coil: Coil;
  readonly now: string;
  readonly options: ReadonlyMap<string, WireOption>;
}

export interface MagnetKnob {
  readonly kind: 'magnet';
  readonly id: string;
  readonly now: string;
  readonly options: readonly string[];
}

export type PickupKnob = TurnsKnob | WireKnob | MagnetKnob;

export interface PickupKnobs {
  readonly knobs: readonly PickupKnob[];
  readonly wound: readonly Coil[];
}

export const TURNS_STEP = 10;
/** Of the turns now, either way. */
const TURNS_REACH = 0.4;

/** `within`: what sets the ids of one pickup's knobs apart from those of others. */
export function pickupKnobs(quick: QuickEstimates, shelf: Shelf, within = ''): PickupKnobs {
  const { pickup } = quick.netlist;
  const wound = pickup.coils.filter((coil) => isWound(coil, quick));
  return {
    knobs: [
      ...pickup.coils.flatMap((coil) => (wound.includes(coil) ? [] : coilKnobs(pickup, coil, shelf))),
      ...magnetKnobs(pickup, shelf),
    ].map((knob) => ({ ...knob, id: within + knob.id })),
    wound,
  };
}

function coilKnobs(pickup: Pickup, coil: Coil, shelf: Shelf): readonly PickupKnob[] {
  if (coil.unread.length > 0 || coil.turns === undefined) return [];
  const { si: now } = coil.turns.value;
  const steps = Math.floor((TURNS_REACH * now) / TURNS_STEP);
  const turns = {
    kind: 'turns' as const,
    id: `${coil.name}.turns`,
    coil,
    now,
    fewest: now - steps * TURNS_STEP,
    most: now + steps * TURNS_STEP,
  };
  const options = new Map(
    wireOptions(shelf, pickup, coil).flatMap((option) =>
      option.isUndeclared ? [] : [[lineOf(option), option] as const],
    ),
  );
  const wire = coil.spool ? `spool ${coil.spool.name}` : coil.wire && `wire ${coil.wire.name}`;
  if (wire === undefined || !options.has(wire) || options.size < 2) return [turns];
  return [turns, { kind: 'wire', id: `${coil.name}.wire`, coil, now: wire, options }];
}

const lineOf = ({ wire, spool }: WireOption): string => (spool ? `spool ${spool.name}` : `wire ${wire.name}`);

function magnetKnobs({ barMagnet }: Pickup, shelf: Shelf): readonly PickupKnob[] {
  const now = barMagnet?.value.magnet?.name;
  const options = magnetOptions(shelf, true).map(({ name }) => name);
  return now === undefined || !options.includes(now) || options.length < 2
    ? []
    : [{ kind: 'magnet', id: 'magnet', now, options }];
}

/** Knobs that stand elsewhere than now; what no knob can be set to is left out. */
export const movedKnobs = (knobs: readonly PickupKnob[], settings: Settings): readonly PickupKnob[] =>
  knobs.filter((knob) => {
    const to = settings[knob.id];
    return to !== undefined && to !== knob.now && takes(knob, to);
  });

function takes(knob: PickupKnob, to: number | string): boolean {
  switch (knob.kind) {
    case 'turns':
      return typeof to === 'number' && Number.isInteger(to) && to >= knob.fewest && to <= knob.most;
    case 'wire':
      return typeof to === 'string' && knob.options.has(to);
    case 'magnet':
      return typeof to === 'string' && knob.options.includes(to);
  }
}

/** The text with all knobs where they were moved to; `undefined` where this pickup's own text cannot say it. */
export function whatIfEdits(
  pickup: Pickup,
  knobs: readonly PickupKnob[],
  settings: Settings,
): readonly Edit[] | undefined {
  const moved = movedKnobs(knobs, settings);
  const lines = (kind: 'turns' | 'wire'): ReadonlyMap<Coil, string> =>
    new Map(
      moved.flatMap((knob) => {
        if (knob.kind !== kind) return [];
        const to = settings[knob.id];
        return [[knob.coil, typeof to === 'number' ? `turns ${grouped(to)}` : String(to)] as const];
      }),
    );
  const coils = restated(pickup, [
    { lines: lines('turns'), placeOf: ({ turns }) => turns?.place },
    { lines: lines('wire'), placeOf: ({ wirePlace }) => wirePlace },
  ]);
  const bars = moved.map(({ kind, id, now }) =>
    kind === 'magnet' && pickup.barMagnet
      ? replaceWord(pickup.barMagnet.place, String(now), String(settings[id]))
      : undefined,
  );
  return ownEdits([...coils, ...present(bars)], pickup);
}

interface Restated {
  /** What the line of a coil is to be. */
  readonly lines: ReadonlyMap<Coil, string>;
  readonly placeOf: (coil: Coil) => Place | undefined;
}

/**
 * Lines of single coils. One that `like` brings to others too is changed in the coil that states it; those keep what it said. A coil
 * that has it by `like` states it itself.
 */
function restated(pickup: Pickup, facts: readonly Restated[]): readonly Edit[] {
  const replaced: Edit[] = [];
  const inserted = new Map<Coil, string[]>();
  const insert = (coil: Coil, line: string) => inserted.set(coil, [...(inserted.get(coil) ?? []), line]);
  for (const { lines, placeOf } of facts)
    for (const [coil, line] of lines) {
      const own = placeOf(coil);
      if (!own || !isIn(own, coil, pickup)) {
        insert(coil, line);
        continue;
      }
      replaced.push(replaceAt(own, line));
      for (const other of pickup.coils) {
        const place = placeOf(other);
        if (other !== coil && !lines.has(other) && place && samePlace(place, own)) insert(other, textAt(own));
      }
    }
  return [...replaced, ...[...inserted].map(([coil, lines]) => insertFirstLines(coil.place, lines))];
}

const textAt = ({ chunk, span }: Place): string => chunk.text.slice(span.start, span.end);
