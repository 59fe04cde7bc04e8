/** A drawn build as a spec with a target, nothing drawn. */
import assert from 'node:assert/strict';
import type { JudgedAim } from '../../server/src/estimates/aims.ts';
import { analyse } from '../support/check-fixture.ts';
import { type DrawnCase, specOf } from '../support/drawn-pickup.ts';

export function aimsFor(drawn: DrawnCase, target: string): readonly JudgedAim[] {
  const spec = specOf(drawn);
  const end = spec.lastIndexOf('}');
  const [pickup] = analyse(`${spec.slice(0, end)}  target { ${target} }\n}\n`).pickups;
  assert.ok(pickup);
  return pickup.aims();
}
