import type { Analysis, PickupAnalysis } from '../analysis/analysis-types.ts';
import { tellIn } from '../checks/telling.ts';
import { pickupPicture } from '../documents/wiring-diagram/from-model.ts';
import type { PickupPicture } from '../documents/wiring-diagram/picture.ts';
import { drawPickup } from '../documents/wiring-diagram/wiring-diagram.ts';
import { type PickupPart, pickupParts } from '../features/drawn-parts.ts';
import { type JointRow, jointRows } from '../features/joint-rows.ts';
import type { Language } from '../words/languages/language.ts';
import { sheetWidth } from './sheet-width.ts';

export interface WiringDrawing {
  readonly svg: string;
  /** In the order in which one walks through the drawing: along the path from ground to hot, then the rest. */
  readonly parts: readonly PickupPart[];
  readonly joints: readonly JointRow[];
}

/** The drawing of a pickup with the places of its parts and the table that says the same; `within` goes before its id. */
export function wiringDrawing(
  analysis: Analysis,
  analysed: PickupAnalysis,
  { width, within, t }: { readonly width: number; readonly within: string; readonly t: Language },
): WiringDrawing {
  const picture = pickupPicture(analysis, analysed, t);
  const { svg } = drawPickup({ ...picture, id: within + picture.id }, sheetWidth(width));
  const parts = [...pickupParts(analysed, t), ...findingParts(picture, analysed)];
  return { svg, parts: alongPath(parts, picture), joints: jointRows(analysed, t) };
}

/** The numbered findings of the drawing, each with the line of its finding. */
function findingParts({ findings, t }: PickupPicture, analysed: PickupAnalysis): readonly PickupPart[] {
  return findings.flatMap(({ code, cause }, index) => {
    const finding = analysed.findings.find(
      (each) => each.code === code && [each.what, tellIn(each, t).what].some((told) => told === cause),
    );
    return finding ? [{ id: `finding:${index + 1}`, label: code, place: finding.place }] : [];
  });
}

function alongPath(parts: readonly PickupPart[], { coils, findings }: PickupPicture): readonly PickupPart[] {
  const order = [
    ...findings.map((_, index) => `finding:${index + 1}`),
    ...coils.flatMap((coil) => {
      const [entered, left] = coil.entered === 'finish' ? [coil.finish, coil.start] : [coil.start, coil.finish];
      const way = [entered.conductor?.part, entered.own?.part, `coil:${coil.id}`, left.own?.part, left.conductor?.part];
      return [...way.flatMap((part) => part ?? []), `net:${left.net}`];
    }),
  ];
  const rank = ({ id }: PickupPart): number => {
    const at = order.indexOf(id);
    return at < 0 ? order.length : at;
  };
  return [...parts].sort((a, b) => rank(a) - rank(b));
}
