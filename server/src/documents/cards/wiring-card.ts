/** The wiring of a pickup on paper: the drawing, the joints, what each hand needs to know at the iron. */

import type { PickupAnalysis } from '../../analysis/analysis-types.ts';
import { quickOf } from '../../analysis/pickup-analysis.ts';
import type { QuickEstimates } from '../../estimates/quick.ts';
import { printCelsius } from '../../quantities/print.ts';
import type { Language, PlainText } from '../../words/languages/language.ts';
import { numberText } from '../../words/number-text.ts';
import { PICKUP_NUMBERS } from '../../words/numbers.ts';
import { phaseExplained } from '../../words/phases.ts';
import { type HtmlNode, h } from '../html.ts';
import { pickupPicture } from '../wiring-diagram/from-model.ts';
import { drawPickup } from '../wiring-diagram/wiring-diagram.ts';
import type { Card, CardSource } from './card.ts';
import { cardWith, cautions, type Field, fields, MOST_WARNINGS, mind, pickupHead, unknown } from './frame.ts';
import { jointTable } from './joint-table.ts';
import { inRoom, kiloohm, passText } from './numbers.ts';
import { placedDrawing } from './placed-drawing.ts';

export function wiringCard(analysed: PickupAnalysis, { analysis, setting }: CardSource): Card {
  const { t } = setting;
  const { pickup } = analysed;
  const quick = quickOf(analysis.bench)(pickup);
  // What the verdict says stands in the fields, further faults in the check; the room goes to the joints.
  const picture = pickupPicture(analysis, analysed, t);
  const shorter = { ...picture, verdict: undefined, findings: picture.findings.slice(0, MOST_WARNINGS) };
  // The joints of more coils need the whole height beside the drawing, and may go on on the next page.
  const hasManyJoints = pickup.coils.length > 2;
  const { node, css } = placedDrawing(drawPickup(shorter, 'narrow').svg);
  return cardWith(
    { ...pickupHead(analysed, 'wiring', t('Wiring'), t), css },
    setting,
    fields([
      resistanceField(quick, { analysis, setting }),
      { label: t('phase'), value: phaseExplained(analysed.quick.phase, t) },
      { label: t(PICKUP_NUMBERS.humDb.what), value: humText(quick, t) },
      { label: t('date, hand') },
    ]),
    h(
      'div',
      { class: 'beside' },
      node,
      h('div', {}, jointTable(quick.netlist, t), ...(hasManyJoints ? [] : [whatToMind(t, 'column')])),
    ),
    ...(hasManyJoints ? [whatToMind(t, 'wide')] : []),
  );
}

const WHAT_TO_MIND: readonly PlainText[] = [
  'Letters are IEC 60757; they, not the colours of another pickup, say which lead is meant.',
  'Before the iron: every pair by the bench check card. After it: hot to ground, and cover to ground.',
];

const whatToMind = (t: Language, layout: 'column' | 'wide'): HtmlNode =>
  mind(t, [...WHAT_TO_MIND.map((each) => t(each)), ...cautions(t, 'solder', 'magnets')], layout);

function resistanceField(quick: QuickEstimates, { analysis: { bench }, setting: { roomC, t } }: CardSource): Field {
  const label = t('hot to ground at {0}, kΩ', printCelsius(roomC, t.numbers));
  const at20C = quick.resistance20COhm;
  if (at20C === null) return { label, value: t('open') };
  if (at20C === undefined) return { label, value: unknown('read each coil', t) };
  const ohm = inRoom(at20C, roomC);
  return { label, value: t('{0}, passes {1}', kiloohm(ohm.value, bench, t), passText(ohm, bench, t)) };
}

const humText = ({ humDb }: QuickEstimates, t: Language): string =>
  humDb ? numberText(humDb, PICKUP_NUMBERS.humDb, t) : unknown('a kick and a compass at each coil settle it', t);
