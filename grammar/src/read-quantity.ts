/** A quantity that stands by itself, as an option of a command states it: written in every way that a line of a spec may have it. */
import { type Quantity, quantityOf, type WrittenQuantity } from '../values/quantity.ts';
import type { Dimension } from '../values/unit-table.ts';
import { buildChunk } from './build-tree.ts';
import { attemptOf } from './match-attempt.ts';
import { matchQuantity } from './match-quantity.ts';
import { quantity } from './schema/shape.ts';

/** `4k1`, `4.1 kohm`, `4.10 ± 0.02 kohm`, `4_100ohm`; `undefined` where it is anything else. */
export function readQuantity(text: string, dimension: Dimension): Quantity | undefined {
  const { content, problems } = buildChunk(`bench {\n  value ${text}\n}`);
  const [line, another] = content?.kind === 'block' ? content.body : [];
  if (problems.length > 0 || another || line?.kind !== 'fact') return undefined;
  const attempt = attemptOf(line.items);
  const match = matchQuantity(attempt, 1, quantity(dimension));
  if (!match || match.next !== line.items.length || attempt.problems.length > 0) return undefined;
  const result = quantityOf((match.value as { readonly value: WrittenQuantity }).value);
  return result.ok ? { ...result.quantity, written: text.trim() } : undefined;
}
