/** A winding direction or a pole as it is written: how the spindle turns for it, and what compass and kick show over it. */
import type { Analysis } from '../analysis/analysis-types.ts';
import { quickOf } from '../analysis/pickup-analysis.ts';
import type { QuickEstimates } from '../estimates/quick.ts';
import { declaredPolarity } from '../estimates/signs.ts';
import { type Coil, type PoleUp, poleOf } from '../model/coil.ts';
import { polesWords, seekingTip } from '../words/directions.ts';
import { KICK_METER } from '../words/kick.ts';
import { coilWords, endLead, endsWords } from '../words/parts.ts';
import { phaseExplained } from '../words/phases.ts';
import type { EstimateRow } from './estimate-rows.ts';
import { spindleRows } from './part-numbers.ts';
import type { RichText } from './rich-text.ts';
import { nameItem, type SyntaxAt } from './syntax-at.ts';

const DIRECTIONS: ReadonlySet<string> = new Set(['clockwise', 'counterclockwise']);
const POLES: ReadonlySet<string> = new Set<PoleUp>(['north-up', 'south-up']);
const BAR_POLES: ReadonlySet<string> = new Set(['north', 'south']);

/** Nothing where no direction and no pole of a pickup of this file stands there. */
export function writtenSign(analysis: Analysis, { placed, blocks, item }: SyntaxAt): RichText {
  const pickup = analysis.pickups.find((each) => each.pickup.place.chunk === placed.chunk)?.pickup;
  const block = blocks.at(-1);
  if (!pickup || !block || item?.kind !== 'word') return [];
  const quick = quickOf(analysis.bench)(pickup);
  const rows = ((): readonly EstimateRow[] => {
    if (block.keyword.text === 'pickup' && BAR_POLES.has(item.text))
      return pickup.coils.flatMap((each) => compassRows(quick, each));
    const coil =
      block.keyword.text === 'coil' ? pickup.coils.find(({ name }) => name === nameItem(block).text) : undefined;
    if (!coil) return [];
    if (POLES.has(item.text)) return [...compassRows(quick, coil), ...kickRows(quick, coil)];
    if (!DIRECTIONS.has(item.text)) return [];
    const ends = { name: 'ends', value: endsWords(quick.netlist, coil), restsOn: 'start: the inner end' };
    return [ends, ...spindleRows(quick, coil), ...kickRows(quick, coil), ...soundRow(quick)];
  })();
  return rows.length === 0 ? [] : [{ kind: 'values', rows }];
}

const compassRows = ({ netlist: { pickup } }: QuickEstimates, coil: Coil): readonly EstimateRow[] => {
  const pole = declaredPolarity(coil, pickup);
  if (!pole) return [];
  const up = poleOf(pole.sign);
  return [{ name: `compass over ${coilWords(coil)}`, value: `${seekingTip(up)} turns to it`, restsOn: polesWords(up) }];
};

/** North-up, wound clockwise, red on the finish: approach reads positive. */
function kickRows({ signs, netlist }: QuickEstimates, coil: Coil): readonly EstimateRow[] {
  const windPole = signs.find((each) => each.coil === coil)?.windPole;
  if (!windPole) return [];
  const [red, black] = [endLead(netlist, coil, 'finish'), endLead(netlist, coil, 'start')];
  return [
    {
      name: `kick, ${red} to ${black}`,
      value: `approach reads ${windPole.sign < 0 ? 'positive' : 'negative'}`,
      restsOn: `loose, red on ${red}; meter at its ${KICK_METER}`,
    },
  ];
}

const soundRow = ({ phase, signs }: QuickEstimates): readonly EstimateRow[] =>
  signs.length > 1 ? [{ name: 'with the other coils', value: phaseExplained(phase), restsOn: '' }] : [];
