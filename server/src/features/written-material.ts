/** What is reckoned of a material that is named: a magnet's grade, a metal, an enamel, a bobbin's plastic. */

import { gradeOf } from '../estimates/coil-places.ts';
import { METALS } from '../physics/constants.ts';
import { ENAMELS } from '../physics/enamel.ts';
import { HANDLING_NOTE } from '../physics/magnet-grades.ts';
import { printCelsius, printQuantity } from '../quantities/print.ts';
import { softeningWords } from '../words/bath-limits.ts';
import { PLASTIC_NAMES } from '../words/parts.ts';
import type { EstimateRow } from './estimate-rows.ts';
import type { RichText } from './rich-text.ts';
import type { SyntaxAt } from './syntax-at.ts';

/** Nothing where no material stands there. */
export function writtenMaterial({ fact, item }: SyntaxAt): RichText {
  const word = fact?.items[0]?.text;
  if (!fact || item?.kind !== 'word' || item === fact.items[0] || word === undefined) return [];
  switch (word) {
    case 'material':
    case 'pole':
      return [...magnetic(item.text), ...metal(item.text)];
    case 'baseplate':
    case 'cover':
      return metal(item.text);
    case 'enamel':
      return enamel(item.text);
    case 'plastic':
      return plastic(item.text);
    default:
      return [];
  }
}

const rowsText = (rows: readonly EstimateRow[]): RichText => [{ kind: 'values', rows }];

function magnetic(name: string): RichText {
  const found = gradeOf(name);
  if (!found) return [];
  const { remanenceT, coercivityAPerM, relativeSpread, cast, source } = found;
  const spread = (value: number) => ({ value, sd: value * relativeSpread });
  return [
    ...rowsText([
      {
        name: 'remanence',
        value: printQuantity({ ...spread(remanenceT), dimension: 'flux density' }),
        restsOn: source,
      },
      {
        name: 'coercivity',
        value: printQuantity({ ...spread(coercivityAPerM), dimension: 'field strength' }),
        restsOn: source,
      },
    ]),
    ...(cast ? [{ kind: 'paragraph', text: HANDLING_NOTE } as const] : []),
  ];
}

function metal(name: string): RichText {
  const found = Object.entries(METALS).find(([each]) => each === name)?.[1];
  if (!found) return [];
  const { resistivityOhmM, resistivityRelativeSpread, relativePermeability, permeabilitySpreadFactor, source } = found;
  const microohmCm = resistivityOhmM * 1e8;
  const printed = printQuantity({ value: microohmCm, sd: microohmCm * resistivityRelativeSpread, dimension: 'ratio' });
  const permeability = printQuantity({ value: relativePermeability, dimension: 'ratio' });
  return rowsText([
    { name: 'resistivity at 20 °C', value: `${printed}\u202Fµ\u03A9\u00B7cm`, restsOn: source },
    {
      name: 'relative permeability',
      value:
        permeabilitySpreadFactor > 1 ? `${permeability}, within a factor of ${permeabilitySpreadFactor}` : permeability,
      restsOn: source,
    },
  ]);
}

function enamel(name: string): RichText {
  const found = Object.entries(ENAMELS).find(([each]) => each === name)?.[1];
  if (!found) return [];
  const { thermalClassC, solderThroughC, source } = found;
  const through = solderThroughC
    ? `from ${printCelsius(solderThroughC.minimum)} to ${printCelsius(solderThroughC.maximum)}`
    : 'no: it is stripped first';
  return rowsText([
    { name: 'thermal class', value: printCelsius(thermalClassC), restsOn: source },
    { name: 'solders through', value: through, restsOn: source },
  ]);
}

function plastic(name: string): RichText {
  const plastic = PLASTIC_NAMES.find((each) => each === name);
  const words = plastic && softeningWords(plastic);
  return words ? [{ kind: 'paragraph', text: `In the wax bath ${words}.` }] : [];
}
