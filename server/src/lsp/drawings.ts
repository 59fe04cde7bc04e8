import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Span } from '../../../grammar/src/span.ts';
import { given } from '../../../grammar/values/present.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { type OwnPart, ownParts } from '../analysis/own-parts.ts';
import { cautionsFor } from '../checks/explanation.ts';
import type { Finding } from '../checks/finding.ts';
import { formerLabel } from '../comparison/reworks.ts';
import { diagnostics } from '../features/diagnostics.ts';
import type { HeardPosition } from '../features/heard-positions.ts';
import { type OwnSubject, ownSubjects } from '../features/own-subjects.ts';
import type { Language } from '../words/languages/language.ts';
import { isAbout } from './about-subject.ts';
import { pickupsIn } from './compared-states.ts';
import { fileName } from './file-key.ts';
import { offsetFrom } from './from-protocol.ts';
import { heardAt, knobsOf, positionsOf, potsFrom } from './heard.ts';
import { invitationTo } from './invitation.ts';
import type { DrawingParams, DrawingResult, HeardAt } from './protocol.ts';
import type { Subject } from './protocol-parts.ts';
import type { Opened } from './session.ts';
import { type PlacedPart, subjectDrawing } from './subject-drawing.ts';
import { toRange } from './to-protocol.ts';

/** The drawing of one pickup or instrument of a document or of its parts; where there is nothing to draw, an invitation. */
export function drawing(
  params: DrawingParams,
  { document, analysis }: Opened,
  t: Language,
): Omit<DrawingResult, 'protocol'> {
  const own = ownSubjects(analysis);
  const parts = ownParts(analysis);
  const chosen = chosenSubject({ own, parts }, params, { document, analysis });
  const result = {
    uri: params.uri,
    version: document.version,
    subjects: [
      ...own.map(({ kind, name, title, isRecord, span }) => ({
        kind,
        name,
        title: isRecord ? t('{0} (record)', title) : title,
        ranges: [toRange(document, span)],
      })),
      ...(parts.length === 0 ? [] : [{ ...PARTS, title: t('Parts'), ranges: rangesOf(parts, { document, analysis }) }]),
    ],
  };
  const found = (marked: readonly PlacedPart[] = []) => {
    const { findings, cautions } = findingsOf({ document, analysis, t }, chosen, marked);
    return { findings, cautions: cautions.map((each) => t(each)) };
  };
  const broken = brokenAt(analysis, document, chosen);
  const stale = broken ? { broken } : {};
  if (chosen === undefined) {
    const invitation = broken === undefined ? { invitation: invitationTo(analysis, t) } : {};
    return { ...result, ...found(), ...stale, ...invitation, parts: [], positions: [] };
  }
  const subject: Subject = { kind: chosen.kind, name: chosen.name };
  const heard = heardAt(analysis, { subject, ...given({ position: params.position }) });
  const former = formerLabel(pickupsIn(analysis, subject))?.(t);
  const drawn = subjectDrawing(analysis, subject, {
    t,
    width: params.width,
    played: potsFrom(params.pots),
    ...given({ live: heard?.position.key.value }),
  });
  return {
    ...result,
    ...found(drawn?.parts),
    ...stale,
    subject,
    title: chosen.title,
    ...given({ former, svg: drawn?.svg, table: drawn?.table }),
    positions: positionsOf(analysis, subject).map((each) => toHeardAt(each, t)),
    ...given({ position: heard?.id }),
    parts: (drawn?.parts ?? []).flatMap(({ id, label, at }) =>
      at.uri === analysis.uri ? [{ id, label, range: toRange(document, at) }] : [],
    ),
  };
}

interface Choices {
  readonly own: readonly OwnSubject[];
  readonly parts: readonly OwnPart[];
}

/** All parts of a file are one subject. */
const PARTS = { kind: 'parts', name: 'parts' } as const;

type Chosen = OwnSubject | (typeof PARTS & { readonly title: string });

function chosenSubject(
  { own, parts }: Choices,
  { subject, cursor }: DrawingParams,
  { document, analysis }: Opened,
): Chosen | undefined {
  const shelf = parts.length === 0 ? undefined : { ...PARTS, title: fileName(document.uri) };
  const offset = cursor && offsetFrom(document, cursor);
  const isIn = ({ start, end }: Span): boolean => offset !== undefined && start <= offset && offset < end;
  const around = own.find((each) => isIn(each.around)) ?? (partAround(parts, analysis, isIn) ? shelf : undefined);
  const named = subject?.kind === 'parts' ? shelf : own.find((each) => isOf(each, subject));
  if (around ?? named) return around ?? named;
  // Where the one that was shown no longer reads, another one is no answer.
  const isGone = subject !== undefined && brokenAt(analysis, document, undefined) !== undefined;
  return isGone ? undefined : (own.find(({ isRecord }) => !isRecord) ?? own[0] ?? shelf);
}

const isOf = ({ kind, name }: OwnSubject, subject: Subject | undefined): boolean =>
  kind === subject?.kind && name === subject.name;

const partAround = (parts: readonly OwnPart[], { tree }: Analysis, isIn: (span: Span) => boolean): boolean =>
  tree.chunks.some(
    ({ chunk, offset }) =>
      isIn({ start: offset, end: offset + chunk.text.length }) && parts.some(({ place }) => place.chunk === chunk),
  );

const rangesOf = (parts: readonly OwnPart[], { document, analysis }: Opened) =>
  analysis.tree.chunks.flatMap(({ chunk, offset }) => {
    const { content } = chunk;
    if (content === undefined || !parts.some(({ place }) => place.chunk === chunk)) return [];
    return [toRange(document, { start: offset + content.span.start, end: offset + content.span.end })];
  });

function toHeardAt({ id, instrument, position }: HeardPosition, t: Language): HeardAt {
  const title = position.title === undefined ? '' : ` ${position.title}`;
  return {
    id,
    label: `${position.key.value}${title}`,
    knobs: knobsOf(instrument.instrument, t),
  };
}

/**
 * Findings about the subject drawn, and those of its block that are about nothing in particular; where nothing is drawn, all of the
 * file. Those that the drawing tells in words have its number. Cautions for the work they ask for.
 */
function findingsOf(
  { document, analysis, t }: Opened & { readonly t: Language },
  drawn: Chosen | undefined,
  parts: readonly PlacedPart[],
) {
  const marks = new Map(
    parts.flatMap(({ id, label, at }) => {
      const mark = FINDING_PART.exec(id)?.[1];
      return mark === undefined ? [] : [[`${label} ${at.start}`, Number(mark)] as const];
    }),
  );
  const isOwn = (finding: Finding): boolean =>
    drawn === undefined || isAbout(finding, drawn) || finding.place.chunk === chunkOf(drawn);
  const own = analysis.findings.filter(isOwn);
  const findings = diagnostics({ ...analysis, findings: own }, t).map(({ code, severity, message, foreign, span }) => ({
    code,
    severity,
    message,
    ...given({ foreign }),
    range: toRange(document, span),
    ...given({ mark: marks.get(`${code} ${span.start}`) }),
  }));
  return { findings, cautions: cautionsFor(own) };
}

/** How the drawing calls a finding that it tells, with its number. */
const FINDING_PART = /^finding:(\d+)$/;

const chunkOf = (drawn: Chosen | undefined) => (drawn?.kind === 'parts' ? undefined : drawn?.chunk);

/** The first line of the subject's text that does not read. Broken text elsewhere does not make this drawing older. */
function brokenAt(analysis: Analysis, document: TextDocument, drawn: Chosen | undefined) {
  const own = chunkOf(drawn);
  const found = analysis.findings.find(
    ({ code, severity, place }) =>
      severity === 'error' && code.startsWith('syntax/') && (own === undefined || place.chunk === own),
  );
  const at = found && analysis.locate(found.place);
  return found && at?.uri === analysis.uri ? { line: document.positionAt(at.start).line } : undefined;
}
