import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Analysis } from '../analysis/analysis-types.ts';
import { cautionsFor } from '../checks/explanation.ts';
import type { Finding } from '../checks/finding.ts';
import { formerLabel } from '../comparison/reworks.ts';
import { diagnostics } from '../features/diagnostics.ts';
import { type HeardPosition, heardPositions } from '../features/heard-positions.ts';
import { type OwnSubject, ownSubjects } from '../features/own-subjects.ts';
import { pickupsIn } from './compared-states.ts';
import { offsetFrom } from './from-protocol.ts';
import { heardAt, potsFrom } from './heard.ts';
import { type DrawingParams, type DrawingResult, type HeardAt, PROTOCOL_VERSION } from './protocol.ts';
import type { Subject } from './protocol-parts.ts';
import { subjectDrawing } from './subject-drawing.ts';
import { toRange } from './to-protocol.ts';

/** The drawing of one pickup or instrument of a document, or why there is none. */
export function drawing(
  params: DrawingParams,
  { document, analysis }: { readonly document: TextDocument; readonly analysis: Analysis },
): DrawingResult {
  const own = ownSubjects(analysis);
  const chosen = chosenSubject(own, params, { document, analysis });
  const result = {
    protocol: PROTOCOL_VERSION,
    uri: params.uri,
    version: document.version,
    subjects: own.map(({ kind, name, title, isRecord, span }) => ({
      kind,
      name,
      title: isRecord ? `${title} (record)` : title,
      range: toRange(document, span),
    })),
    ...findingsOf(analysis, document, chosen),
  };
  const broken = brokenAt(analysis, document, chosen);
  const stale = broken ? { broken } : {};
  if (chosen === undefined) return { ...result, ...stale, parts: [], positions: [] };
  const subject: Subject = { kind: chosen.kind, name: chosen.name };
  const heard = heardAt(analysis, { subject, ...(params.position === undefined ? {} : { position: params.position }) });
  const former = formerLabel(pickupsIn(analysis, subject));
  const drawn = subjectDrawing(analysis, subject, {
    width: params.width,
    played: potsFrom(params.pots),
    ...(heard === undefined ? {} : { live: heard.position.key.value }),
  });
  return {
    ...result,
    ...stale,
    subject,
    title: chosen.title,
    ...(former === undefined ? {} : { former }),
    ...(drawn === undefined ? {} : { svg: drawn.svg, table: drawn.table }),
    positions: heardPositions(analysis, subject).map(toHeardAt),
    ...(heard === undefined ? {} : { position: heard.id }),
    parts: (drawn?.parts ?? []).flatMap(({ id, label, at }) =>
      at.uri === analysis.uri ? [{ id, label, range: toRange(document, at) }] : [],
    ),
  };
}

function chosenSubject(
  own: readonly OwnSubject[],
  { subject, cursor }: DrawingParams,
  { document, analysis }: { readonly document: TextDocument; readonly analysis: Analysis },
): OwnSubject | undefined {
  const offset = cursor && offsetFrom(document, cursor);
  const around = own.find(({ around: at }) => offset !== undefined && at.start <= offset && offset < at.end);
  const named = own.find(({ kind, name }) => kind === subject?.kind && name === subject.name);
  if (around ?? named) return around ?? named;
  // Where the one that was shown no longer reads, another one is no answer.
  const isGone = subject !== undefined && brokenAt(analysis, document, undefined) !== undefined;
  return isGone ? undefined : (own.find(({ isRecord }) => !isRecord) ?? own[0]);
}

function toHeardAt({ id, instrument, position }: HeardPosition): HeardAt {
  const { controls } = instrument.instrument;
  const title = position.title === undefined ? '' : ` ${position.title}`;
  return {
    id,
    label: `${position.key.value}${title}`,
    hasPots: controls.some(({ kind }) => kind === 'volume' || kind === 'tone'),
  };
}

/** Findings about the subject drawn, and those of its block that are about nothing in particular; cautions for the work they ask for. */
function findingsOf(analysis: Analysis, document: TextDocument, drawn: OwnSubject | undefined) {
  const isOwn = ({ subject, place }: Finding): boolean =>
    drawn !== undefined && (subject[drawn.kind] === drawn.name || place.chunk === drawn.chunk);
  const own = analysis.findings.filter(isOwn);
  const findings = diagnostics({ ...analysis, findings: own }).map(({ code, severity, message, span }) => ({
    code,
    severity,
    message,
    range: toRange(document, span),
  }));
  return { findings, cautions: cautionsFor(own) };
}

/** The first line of the subject's text that does not read. Broken text elsewhere does not make this drawing older. */
function brokenAt(analysis: Analysis, document: TextDocument, drawn: OwnSubject | undefined) {
  const found = analysis.findings.find(
    ({ code, severity, place }) =>
      severity === 'error' && code.startsWith('syntax/') && (drawn === undefined || place.chunk === drawn.chunk),
  );
  const at = found && analysis.locate(found.place);
  return found && at?.uri === analysis.uri
    ? { line: document.positionAt(at.start).line, message: found.what }
    : undefined;
}
