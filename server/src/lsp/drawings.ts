import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Analysis, PickupAnalysis } from '../analysis-types.ts';
import type { Finding } from '../checks/finding.ts';
import { diagnostics } from '../features/diagnostics.ts';
import { ownPickups } from '../features/own-blocks.ts';
import { offsetFrom } from './from-protocol.ts';
import { type DrawingParams, type DrawingResult, PROTOCOL_VERSION } from './protocol.ts';
import { toRange } from './to-protocol.ts';
import { wiringDrawing } from './wiring-drawing.ts';

/** The drawing of one pickup of a document, or why there is none. */
export function drawing(
  params: DrawingParams,
  { document, analysis }: { readonly document: TextDocument; readonly analysis: Analysis },
): DrawingResult {
  const own = ownPickups(analysis);
  const offset = params.position ? offsetFrom(document, params.position) : undefined;
  const isAround = ({ placed }: (typeof own)[number]): boolean =>
    offset !== undefined && placed.offset <= offset && offset < placed.offset + placed.chunk.text.length;
  const named = own.find(isAround) ?? own.find(({ analysed }) => analysed.pickup.name === params.name);
  // Where the pickup that was shown no longer reads, another one is no answer.
  const isGone = params.name !== undefined && brokenAt(analysis, document, undefined) !== undefined;
  const chosen = named ?? (isGone ? undefined : own[0]);
  const result = {
    protocol: PROTOCOL_VERSION,
    uri: params.uri,
    version: document.version,
    pickups: own.map(({ analysed: { pickup }, placed, block }) => ({
      name: pickup.name,
      title: pickup.title ?? pickup.name,
      range: toRange(document, { start: placed.offset + block.span.start, end: placed.offset + block.span.end }),
    })),
    findings: findingsOf(analysis, document, chosen?.analysed),
  };
  const broken = brokenAt(analysis, document, chosen?.analysed);
  const stale = broken ? { broken } : {};
  if (chosen === undefined) return { ...result, ...stale, parts: [], joints: [] };
  const { pickup } = chosen.analysed;
  const { svg, parts, joints } = wiringDrawing(analysis, chosen.analysed, widthFrom(params.width));
  return {
    ...result,
    ...stale,
    name: pickup.name,
    title: pickup.title ?? pickup.name,
    svg,
    joints,
    parts: parts.flatMap(({ id, label, place }) => {
      const at = analysis.locate(place);
      return at?.uri === analysis.uri ? [{ id, label, range: toRange(document, at) }] : [];
    }),
  };
}

const widthFrom = (width: unknown): number =>
  typeof width === 'number' && Number.isFinite(width) ? Math.min(Math.max(width, 200), 4000) : 960;

/** Findings about the pickup drawn, and those of its block that are about nothing in particular. */
function findingsOf(analysis: Analysis, document: TextDocument, drawn: PickupAnalysis | undefined) {
  const inPickup = (finding: Finding): boolean =>
    drawn !== undefined &&
    (finding.subject.pickup === drawn.pickup.name || finding.place.chunk === drawn.pickup.place.chunk);
  return diagnostics({ ...analysis, findings: analysis.findings.filter(inPickup) }).map(
    ({ code, severity, message, span }) => ({ code, severity, message, range: toRange(document, span) }),
  );
}

/** The first line of the pickup's text that does not read. Broken text elsewhere does not make this drawing older. */
function brokenAt(analysis: Analysis, document: TextDocument, drawn: PickupAnalysis | undefined) {
  const found = analysis.findings.find(
    ({ code, severity, place }) =>
      severity === 'error' &&
      code.startsWith('syntax/') &&
      (drawn === undefined || place.chunk === drawn.pickup.place.chunk),
  );
  const at = found && analysis.locate(found.place);
  return found && at?.uri === analysis.uri
    ? { line: document.positionAt(at.start).line, message: found.message }
    : undefined;
}
