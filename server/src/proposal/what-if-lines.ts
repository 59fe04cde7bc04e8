/** Single values of lines that may be moved by hand: how high the poles are, what controls and the cable of an instrument have. */
import { replaceAt } from '../checks/edits.ts';
import type { Edit } from '../checks/finding.ts';
import type { Bobbin } from '../model/bobbin.ts';
import type { Control, Instrument } from '../model/instrument.ts';
import type { Pickup } from '../model/pickup.ts';
import type { Place } from '../model/place.ts';
import type { Settings } from './what-if.ts';

/** A value as it is written in a spec, and in SI. */
export interface ValueOption {
  readonly text: string;
  readonly si: number;
}

export interface ValueKnob {
  readonly kind: 'value';
  readonly what: 'poles' | 'volume' | 'tone' | 'capacitor' | 'cable';
  /** The bobbin of the poles, the slot that a control serves. */
  readonly of: string | undefined;
  readonly id: string;
  readonly now: string;
  readonly options: readonly ValueOption[];
  /** Of the line, and which of the numbers in it that are written alike. */
  readonly place: Place;
  readonly isLast: boolean;
}

const kohm = (value: number): ValueOption => ({ text: `${value} kohm`, si: value * 1e3 });
const nanofarad = (value: number): ValueOption => ({ text: `${value} nF`, si: value * 1e-9 });
/** As they are fitted. Common practice, no published source. */
const TRACKS = [kohm(100), kohm(250), kohm(300), kohm(500), kohm(1000)] as const;
/** IEC 60063, E6, as tone controls have them. */
const CAPACITORS = [4.7, 10, 15, 22, 33, 47, 68, 100].map(nanofarad);
const CABLES_M = [1, 2, 3, 4.5, 6, 8, 10] as const;
/** Around what is written, mm either way. */
const POLE_REACH_MM = 4;

/** Poles of the pickups' bobbins, each bobbin once. */
export function poleKnobs(pickups: readonly Pickup[]): readonly ValueKnob[] {
  const bobbins = new Set(pickups.flatMap(({ coils }) => coils.flatMap(({ bobbin }) => bobbin ?? [])));
  return [...bobbins].flatMap(poleKnob);
}

function poleKnob({ name, pole }: Bobbin): readonly ValueKnob[] {
  const length = pole && pole.value !== 'none' ? pole.value.length : undefined;
  const line = pole && textAt(pole.place);
  const now = line === undefined ? undefined : /([\d.]+)\s*mm$/.exec(line)?.[1];
  if (!pole || !length || now === undefined || Math.abs(Number(now) * 1e-3 - length.si) > 1e-9) return [];
  const options = Array.from({ length: 2 * POLE_REACH_MM + 1 }, (_, index) => Number(now) + index - POLE_REACH_MM)
    .filter((mm) => mm > 0)
    .map((mm) => ({ text: String(Number(mm.toFixed(3))), si: mm * 1e-3 }));
  const knob = { kind: 'value', what: 'poles', of: name, id: `poles.${name}`, isLast: true } as const;
  return [{ ...knob, now: String(Number(now)), options, place: pole.place }].filter(() => String(Number(now)) === now);
}

export function instrumentKnobs({ controls, cable }: Instrument): readonly ValueKnob[] {
  const knobs = controls.flatMap(controlKnobs);
  if (cable === undefined) return knobs;
  const { length } = cable.value;
  const options = CABLES_M.map((metres) => ({ text: `${metres} m`, si: metres }));
  const knob = { kind: 'value', what: 'cable', of: undefined, id: 'cable', isLast: false } as const;
  return [...knobs, { ...knob, now: length.written, options: withNow(options, length), place: cable.place }];
}

function controlKnobs(control: Control, index: number): readonly ValueKnob[] {
  if (control.kind !== 'volume' && control.kind !== 'tone') return [];
  const { kind, track, place, forSlot } = control;
  const common = { kind: 'value', of: forSlot?.value, place } as const;
  const tracks = withNow(TRACKS, track);
  const pot = { ...common, what: kind, id: `${kind}.${index}`, now: track.written, options: tracks, isLast: false };
  if (kind === 'volume') return [pot];
  const { capacitor } = control;
  const options = withNow(CAPACITORS, capacitor);
  return [
    pot,
    { ...common, what: 'capacitor', id: `capacitor.${index}`, now: capacitor.written, options, isLast: true },
  ];
}

/** What is written stands among them, in its own words. */
function withNow(
  options: readonly ValueOption[],
  { written, si }: { readonly written: string; readonly si: number },
): readonly ValueOption[] {
  const others = options.filter((each) => Math.abs(each.si - si) > 1e-3 * si);
  return [...others, { text: written, si }].sort((a, b) => a.si - b.si);
}

/** The lines with each of these knobs where it was moved to. */
export const valueEdits = (knobs: readonly ValueKnob[], settings: Settings): readonly Edit[] =>
  knobs.flatMap((knob) => {
    const { id, now, options, place, isLast } = knob;
    const to = options.find(({ text }) => text === settings[id])?.text;
    const line = textAt(place);
    const at = isLast ? line.lastIndexOf(now) : line.indexOf(now);
    if (to === undefined || to === now || at < 0) return [];
    const start = place.span.start + at;
    return [replaceAt({ chunk: place.chunk, span: { start, end: start + now.length } }, to)];
  });

const textAt = ({ chunk, span }: Place): string => chunk.text.slice(span.start, span.end);
