/** The label on a pickup: what it is, what it reads, which way it points, which lead is which, and where its file lies. */

import type { PickupAnalysis } from '../../analysis/analysis-types.ts';
import { quickOf } from '../../analysis/pickup-analysis.ts';
import type { QuickEstimates } from '../../estimates/quick.ts';
import { poleOf } from '../../model/coil.ts';
import type { OutgoingLead, PickupNetlist } from '../../model/netlist.ts';
import { upWords } from '../../words/directions.ts';
import type { Language, PlainText } from '../../words/languages/language.ts';
import { titleOf } from '../../words/parts.ts';
import { phaseExplained } from '../../words/phases.ts';
import { type HtmlNode, h, typed } from '../html.ts';
import type { Card, CardSource } from './card.ts';
import { cardWith, cautions, mind, pickupHead } from './frame.ts';
import { ohmText } from './numbers.ts';
import { positionText } from './pickup-words.ts';
import { qrCode } from './qr-code.ts';
import { leadNodes } from './swatch.ts';

export function labelCard(analysed: PickupAnalysis, { analysis, setting }: CardSource): Card {
  const { pickup } = analysed;
  const { t } = setting;
  const quick = quickOf(analysis.bench)(pickup);
  // The file, and in it the piece by its serial.
  const target = `${setting.file}#${pickup.serial?.value ?? pickup.name}`;
  return cardWith(
    {
      ...pickupHead(analysed, 'label', t('Label'), t),
      about: [t('two alike: one for the pickup, one for the shop')],
      atRoom: false,
    },
    setting,
    h('div', { class: 'labels' }, label(quick, target, t), label(quick, target, t)),
    h('p', { class: 'q' }, `${t('The code holds:')} `, typed(target)),
    mind(t, cautions(t, 'magnets')),
  );
}

function label(quick: QuickEstimates, target: string, t: Language): HtmlNode {
  const { netlist } = quick;
  const { pickup } = netlist;
  const code = qrCode(target, t('Code with the path of the file and the serial'));
  return h(
    'div',
    { class: 'label' },
    ...(code ? [{ svg: code }] : []),
    h('h2', {}, typed(pickup.serial?.value ?? pickup.name)),
    h('p', {}, typed(shortened(titleOf(pickup)))),
    h(
      'p',
      {},
      [positionText(pickup, t), pickup.made && t('made {0}', pickup.made.value)]
        .filter((each) => each !== undefined)
        .join(' · ') || t('date unknown: write it here'),
    ),
    h(
      'p',
      {},
      h('b', {}, ohmText(quick.resistance20COhm, 'unknown: read it', t)),
      ` ${t('hot to ground at 20\u202F°C')}`,
    ),
    h('p', {}, ...polarity(quick, t)),
    ...leadMap(netlist, t),
    ...(code ? [] : [h('p', {}, t('Path too long for a code; it stands below.'))]),
  );
}

const LONGEST_NAME = 80;
const shortened = (name: string): string => (name.length > LONGEST_NAME ? `${name.slice(0, LONGEST_NAME)}…` : name);

function polarity({ signs, phase }: QuickEstimates, t: Language): readonly HtmlNode[] {
  const coils = signs.flatMap(({ coil, pole }, index): readonly HtmlNode[] => [
    index > 0 ? ', ' : '',
    typed(coil.name),
    ` ${upWords(pole && poleOf(pole.sign), t)}`,
  ]);
  return [...coils, `; ${phaseExplained(phase, t)}`];
}

/** Every lead that leaves the pickup with what it is: hot, ground, or the coil's end behind it. */
function leadMap(netlist: PickupNetlist, t: Language): readonly HtmlNode[] {
  return [...netlist.leads.values()].map((lead) =>
    h(
      'p',
      {},
      ...leadNodes(lead.name, lead.what === 'shield' ? 'shield' : 'lead', t),
      ': ',
      ...purpose(netlist, lead, t),
    ),
  );
}

function purpose(netlist: PickupNetlist, { node, ends, what }: OutgoingLead, t: Language): readonly HtmlNode[] {
  const joint = jointOf(netlist, netlist.netOf(node));
  const behind = ends.map(({ coil, end }) => `${coil.name} ${t(end)}`).join(', ');
  const words = [joint && t(joint), behind || (what === 'tap' ? t('tap') : '')].filter(
    (each) => each !== undefined && each !== '',
  );
  return [typed(words.join(', ') || t('unknown: not traced'))];
}

function jointOf(netlist: PickupNetlist, net: number | undefined): PlainText | undefined {
  if (net === undefined) return undefined;
  if (net === netlist.hot) return 'hot';
  if (net === netlist.ground) return 'ground';
  if (net === netlist.chassis) return 'shield, to ground';
  if (netlist.free.has(net)) return 'taped off';
  return (netlist.nets[net]?.joints.length ?? 0) > 0 ? 'link' : undefined;
}
