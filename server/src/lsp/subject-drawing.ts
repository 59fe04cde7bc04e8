import type { Analysis, FileSpan } from '../analysis-types.ts';
import type { Subject } from './bench-protocol.ts';
import { pickupNamed } from './bench-states.ts';
import type { JointRow } from './protocol.ts';
import { wiringDrawing } from './wiring-drawing.ts';

/** The drawing of a pickup or an instrument, with the places of its parts and the table that says the same. */
export interface SubjectDrawing {
  readonly svg: string;
  /** In the order in which one walks through them. */
  readonly parts: readonly PlacedPart[];
  readonly joints: readonly JointRow[];
}

export interface PlacedPart {
  readonly id: string;
  readonly label: string;
  readonly at: FileSpan;
}

export interface DrawnAs {
  /** Width on screen in px. */
  readonly width: number;
  /** Position of an instrument that is emphasised. */
  readonly position?: string;
}

/** `undefined` where the file has no such subject. */
export function subjectDrawing(
  analysis: Analysis,
  { kind, name }: Subject,
  { width }: DrawnAs,
): SubjectDrawing | undefined {
  const pickup = kind === 'pickup' ? pickupNamed(analysis, name) : undefined;
  if (pickup === undefined) return undefined;
  const { svg, parts, joints } = wiringDrawing(analysis, pickup, widthFrom(width));
  const placed = parts.flatMap(({ id, label, place }) => {
    const at = analysis.locate(place);
    return at ? [{ id, label, at }] : [];
  });
  return { svg, parts: placed, joints };
}

const widthFrom = (width: unknown): number =>
  typeof width === 'number' && Number.isFinite(width) ? Math.min(Math.max(width, 200), 4000) : 960;
