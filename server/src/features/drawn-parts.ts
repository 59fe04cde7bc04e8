import type { PickupAnalysis } from '../analysis/analysis-types.ts';
import { COIL_ENDS } from '../model/coil.ts';
import { endNode, foilNode, leadNode, partNode, tapNode } from '../model/netlist.ts';
import type { Place } from '../model/place.ts';
import { ENGLISH } from '../words/languages/language.ts';

/** A part of a pickup as drawings and tables name it, with the line that says it. */
export interface PickupPart {
  /** As the netlist names its nodes; a coil as a whole is `coil:slug`. */
  readonly id: string;
  readonly label: string;
  readonly place: Place;
}

const END_OF = { start: 'start of the {0} coil', finish: 'finish of the {0} coil' } as const;

/** Every part that a drawing of the pickup may show. */
export function pickupParts({ pickup, netlist }: PickupAnalysis, t = ENGLISH): readonly PickupPart[] {
  const parts: PickupPart[] = [];
  for (const coil of pickup.coils) {
    parts.push({ id: `coil:${coil.name}`, label: t('{0} coil', coil.name), place: coil.place });
    for (const end of COIL_ENDS) {
      const place = coil[end]?.place;
      if (place) parts.push({ id: endNode(coil.name, end), label: t(END_OF[end], coil.name), place });
    }
    if (coil.foil && coil.foil.value !== 'none')
      parts.push({ id: foilNode(coil.name), label: t('foil of the {0} coil', coil.name), place: coil.foil.place });
    for (const { value, place } of coil.taps) {
      const lead = value.lead.value;
      parts.push({
        id: tapNode(coil.name, lead),
        label: t('tap of the {0} coil, {1}', coil.name, t.word(lead)),
        place,
      });
    }
  }
  for (const { name, place, what } of netlist.leads.values()) {
    parts.push({ id: leadNode(name), label: `${t(what)} ${t.word(name)}`, place });
  }
  for (const { name, fitting, place } of netlist.metal) {
    const part = fitting === 'shield' ? 'shield' : fitting.part;
    const called = t.word(part);
    parts.push({ id: partNode(part), label: part === name ? called : `${called} (${t.word(name)})`, place });
  }
  for (const { index, nodes, joints } of netlist.nets) {
    const [joint] = joints;
    if (joint && nodes.length > 1) parts.push({ id: `net:net${index}`, label: t(joint.kind), place: joint.place });
  }
  if (pickup.barMagnet) parts.push({ id: 'magnet', label: t('bar magnet'), place: pickup.barMagnet.place });
  return parts;
}
