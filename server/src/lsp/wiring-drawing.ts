import type { PickupAnalysis } from '../analysis-types.ts';
import { type PickupPart, pickupParts } from '../features/drawn-parts.ts';
import { type JointRow, jointRows } from '../features/joint-rows.ts';

export interface WiringDrawing {
  readonly svg: string | undefined;
  readonly parts: readonly PickupPart[];
  readonly joints: readonly JointRow[];
}

/** The drawing of a pickup with the places of its parts and the table that says the same. */
export function wiringDrawing(analysed: PickupAnalysis, _width: number): WiringDrawing {
  return { svg: undefined, parts: pickupParts(analysed), joints: jointRows(analysed) };
}
