/** `--cable`: the capacitance between jack and input, stated as such or as a length of a cable. */
import { readQuantity } from '../../../grammar/src/read-quantity.ts';
import type { Dimension } from '../../../grammar/values/unit-table.ts';
import { CommandError } from './command.ts';

export const CABLE_MEANING =
  'a cable instead of the spec\'s own: 700pF, or a length of a cable such as "6 m of 100 pF/m"';

/** Farad. More than this is no cable. */
const MOST_F = 1e-6;

export function cableFarads(written: string | undefined): number | undefined {
  if (written === undefined) return undefined;
  const farad = capacitance(written);
  if (farad !== undefined && farad >= 0 && farad <= MOST_F) return farad;
  throw new CommandError(
    `--cable ${written.slice(0, 60)}: a capacitance up to 1 uF such as 700pF, or a length such as "6 m of 100 pF/m"`,
  );
}

function capacitance(written: string): number | undefined {
  const [first = '', second, ...more] = written.split(/\s+of\s+/);
  if (more.length > 0) return undefined;
  if (second === undefined) return amount(first, 'capacitance');
  const [lengthM, faradPerM] = [amount(first, 'length'), amount(second, 'capacitance per length')];
  return lengthM === undefined || faradPerM === undefined ? undefined : lengthM * faradPerM;
}

const amount = (text: string, dimension: Dimension): number | undefined => readQuantity(text, dimension)?.si;
