import { given } from '../../../grammar/values/present.ts';
import type { Analysis, FileSpan, Played } from '../analysis/analysis-types.ts';
import { ownParts } from '../analysis/own-parts.ts';
import { instrumentPicture } from '../documents/instrument-diagram/from-model.ts';
import { instrumentDiagram, instrumentTable } from '../documents/instrument-diagram/instrument-diagram.ts';
import { partId, partsSheet, partsTable, partWords } from '../documents/parts-sheet.ts';
import { instrumentParts } from '../features/instrument-parts.ts';
import type { Language } from '../words/languages/language.ts';
import { instrumentNamed, pickupNamed } from './compared-states.ts';
import { fileName } from './file-key.ts';
import type { FactTable, Subject } from './protocol-parts.ts';
import { sheetWidth } from './sheet-width.ts';
import { wiringDrawing } from './wiring-drawing.ts';

/** The drawing of a pickup or an instrument, with the places of its parts and the table that says the same. */
export interface SubjectDrawing {
  readonly svg: string;
  /** In the order in which one walks through them. */
  readonly parts: readonly PlacedPart[];
  readonly table: FactTable;
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
  readonly live?: string;
  readonly played?: Played;
  /** Where it stands beside others in one page: what sets its id apart. */
  readonly within?: string;
  readonly t: Language;
}

/** `undefined` where the file has no such subject. */
export function subjectDrawing(
  analysis: Analysis,
  { kind, name }: Subject,
  drawnAs: DrawnAs,
): SubjectDrawing | undefined {
  const width = widthFrom(drawnAs.width);
  const { live, played, within = '', t } = drawnAs;
  if (kind === 'parts') return partsDrawing(analysis, { width, within, t });
  const pickup = kind === 'pickup' ? pickupNamed(analysis, name) : undefined;
  if (pickup) {
    const { svg, parts, joints } = wiringDrawing(analysis, pickup, { width, within, t });
    const rows = joints.map(({ joint, leads }) => [joint, leads.join(', ')]);
    return {
      svg,
      parts: placed(analysis, parts),
      table: { caption: t('Joints'), columns: [t('joint'), t('soldered together')], rows },
    };
  }
  const instrument = kind === 'instrument' ? instrumentNamed(analysis, name) : undefined;
  if (instrument === undefined) return undefined;
  const picture = instrumentPicture(analysis, instrument, {
    t,
    ...given({ live, played }),
  });
  return {
    svg: instrumentDiagram({ ...picture, id: within + picture.id }, sheetWidth(width)),
    parts: placed(analysis, instrumentParts(instrument, t)),
    table: instrumentTable(picture),
  };
}

function partsDrawing(
  analysis: Analysis,
  { width, within, t }: { readonly width: number; readonly within: string; readonly t: Language },
): SubjectDrawing | undefined {
  const parts = ownParts(analysis);
  if (parts.length === 0) return undefined;
  const title = fileName(analysis.uri);
  const picture = { t, id: `${within}parts-${title}`, title, parts };
  const places = parts.map((each) => ({ id: partId(each), label: partWords(each, t), place: each.place }));
  return {
    svg: partsSheet(picture, sheetWidth(width)),
    parts: placed(analysis, places),
    table: partsTable(picture),
  };
}

const placed = (analysis: Analysis, parts: ReturnType<typeof instrumentParts>): readonly PlacedPart[] =>
  parts.flatMap(({ id, label, place }) => {
    const at = analysis.locate(place);
    return at ? [{ id, label, at }] : [];
  });

const widthFrom = (width: unknown): number =>
  typeof width === 'number' && Number.isFinite(width) ? Math.min(Math.max(width, 200), 4000) : 960;
