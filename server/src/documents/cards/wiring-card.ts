/** The wiring of a pickup on paper: the drawing, the joints, what each hand needs to know at the iron. */

import type { PickupAnalysis } from '../../analysis/analysis-types.ts';
import { quickOf } from '../../analysis/pickup-analysis.ts';
import type { QuickEstimates } from '../../estimates/quick.ts';
import { printCelsius } from '../../quantities/print.ts';
import { cautionsOf } from '../../words/cautions.ts';
import { numberText } from '../../words/number-text.ts';
import { PICKUP_NUMBERS } from '../../words/numbers.ts';
import { phaseExplained } from '../../words/phases.ts';
import { h } from '../html.ts';
import { pickupPicture } from '../wiring-diagram/from-model.ts';
import { drawPickup } from '../wiring-diagram/wiring-diagram.ts';
import type { Card, CardSource } from './card.ts';
import { cardWith, type Field, fields, MOST_WARNINGS, mind, pickupHead, unknown } from './frame.ts';
import { jointTable } from './joint-table.ts';
import { inRoom, kiloohm, passText } from './numbers.ts';
import { placedDrawing } from './placed-drawing.ts';

export function wiringCard(analysed: PickupAnalysis, { analysis, setting }: CardSource): Card {
  const { pickup } = analysed;
  const quick = quickOf(analysis.bench)(pickup);
  // What the verdict says stands in the fields, further faults in the check; the room goes to the joints.
  const picture = pickupPicture(analysis, analysed);
  const shorter = { ...picture, verdict: undefined, findings: picture.findings.slice(0, MOST_WARNINGS) };
  // The joints of more coils need the whole height beside the drawing, and may go on on the next page.
  const hasManyJoints = pickup.coils.length > 2;
  const { node, css } = placedDrawing(drawPickup(shorter, 'narrow').svg);
  return cardWith(
    { ...pickupHead(analysed, 'wiring', 'Wiring'), css },
    setting,
    fields([
      resistanceField(quick, { analysis, setting }),
      { label: 'phase', value: phaseExplained(analysed.quick.phase) },
      { label: PICKUP_NUMBERS.humDb.what, value: humText(quick) },
      { label: 'date, hand' },
    ]),
    h(
      'div',
      { class: 'beside' },
      node,
      h('div', {}, jointTable(quick.netlist), ...(hasManyJoints ? [] : [mind(WHAT_TO_MIND, 'column')])),
    ),
    ...(hasManyJoints ? [mind(WHAT_TO_MIND)] : []),
  );
}

const WHAT_TO_MIND = [
  'Letters are IEC 60757; they, not the colours of another pickup, say which lead is meant.',
  'Before the iron: every pair by the bench check card. After it: hot to ground, and cover to ground.',
  ...cautionsOf('solder', 'magnets'),
];

function resistanceField(quick: QuickEstimates, { analysis: { bench }, setting: { roomC } }: CardSource): Field {
  const label = `hot to ground at ${printCelsius(roomC)}, kΩ`;
  const at20C = quick.resistance20COhm;
  if (at20C === null) return { label, value: 'open' };
  if (at20C === undefined) return { label, value: unknown('read each coil') };
  const ohm = inRoom(at20C, roomC);
  return { label, value: `${kiloohm(ohm.value, bench)}, passes ${passText(ohm, bench)}` };
}

const humText = ({ humDb }: QuickEstimates): string =>
  humDb ? numberText(humDb, PICKUP_NUMBERS.humDb) : unknown('a kick and a compass at each coil settle it');
