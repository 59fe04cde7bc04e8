import type { InstrumentAnalysis } from '../analysis/analysis-types.ts';
import type { Place } from '../model/place.ts';
import type { PickupPart } from './drawn-parts.ts';

/** Every part that the schematic of an instrument may show, by the name that the drawing gives it. */
export function instrumentParts({ instrument }: InstrumentAnalysis): readonly PickupPart[] {
  const parts: PickupPart[] = [];
  const add = (id: string, label: string, place: Place | undefined): void => {
    if (place) parts.push({ id, label, place });
  };
  for (const { key, title, place } of instrument.positions) {
    add(`position:${key.value}`, `position ${key.value}${title === undefined ? '' : `, ${title}`}`, place);
  }
  for (const { name, place, pickup } of instrument.slots) {
    add(`pickup:${name}`, `${name} pickup`, place);
    for (const coil of pickup?.coils ?? []) add(`coil:${name}.${coil.name}`, `${name} ${coil.name} coil`, coil.place);
  }
  add('selector', 'selector', instrument.selectorPlace);
  const counts = new Map<string, number>();
  for (const { kind, forSlot, place } of instrument.controls) {
    const name = `${kind}${forSlot === undefined ? '' : ` ${forSlot.value}`}`;
    const index = counts.get(name) ?? 0;
    counts.set(name, index + 1);
    add(controlPart(kind, forSlot?.value, index), name, place);
  }
  for (const { name, place } of instrument.switches) add(`switch:${name}`, `switch ${name}`, place);
  for (const { terminals } of instrument.wiring?.lines ?? [])
    for (const { name, path } of terminals) add(`terminal:${name}`, name, path.place);
  add('jack', 'cable and input', instrument.cable?.place ?? instrument.input?.place);
  return parts;
}

const controlPart = (kind: string, slot: string | undefined, index: number): string =>
  `control:${slot === undefined ? '' : `${slot}.`}${kind}${index === 0 ? '' : ` ${index + 1}`}`;
