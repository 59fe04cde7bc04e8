import type { InstrumentAnalysis } from '../analysis/analysis-types.ts';
import type { Place } from '../model/place.ts';
import { ENGLISH } from '../words/languages/language.ts';
import type { PickupPart } from './drawn-parts.ts';

/** Every part that the schematic of an instrument may show, by the name that the drawing gives it. */
export function instrumentParts({ instrument }: InstrumentAnalysis, t = ENGLISH): readonly PickupPart[] {
  const parts: PickupPart[] = [];
  const add = (id: string, label: string, place: Place | undefined): void => {
    if (place) parts.push({ id, label, place });
  };
  for (const { key, title, place } of instrument.positions) {
    add(`position:${key.value}`, [t('position {0}', key.value), ...(title ? [title] : [])].join(', '), place);
  }
  for (const { name, place, pickup } of instrument.slots) {
    add(`pickup:${name}`, t('{0} pickup', name), place);
    for (const coil of pickup?.coils ?? [])
      add(`coil:${name}.${coil.name}`, t('{0} coil', `${name} ${coil.name}`), coil.place);
  }
  add('selector', t('selector'), instrument.selectorPlace);
  const counts = new Map<string, number>();
  for (const { kind, forSlot, place } of instrument.controls) {
    const part = controlPart(kind, forSlot?.value);
    const index = counts.get(part) ?? 0;
    counts.set(part, index + 1);
    const label = [t(kind), ...(forSlot ? [forSlot.value] : [])].join(' ');
    add(index === 0 ? part : `${part} ${index + 1}`, label, place);
  }
  for (const { name, place } of instrument.switches) add(`switch:${name}`, t('switch {0}', name), place);
  for (const { terminals } of instrument.wiring?.lines ?? [])
    for (const { name, path } of terminals) add(`terminal:${name}`, name, path.place);
  add('jack', t('cable and input'), instrument.cable?.place ?? instrument.input?.place);
  return parts;
}

const controlPart = (kind: string, slot: string | undefined): string =>
  `control:${slot === undefined ? '' : `${slot}.`}${kind}`;
