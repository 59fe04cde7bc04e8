import { TextDocument } from 'vscode-languageserver-textdocument';
import { given } from '../../../grammar/values/present.ts';
import { createAnalyser } from '../analysis/analysis.ts';
import type { Analysis, Host } from '../analysis/analysis-types.ts';
import { ownParts } from '../analysis/own-parts.ts';
import { fenceFigure } from '../documents/fence-figure.ts';
import { diagnostics } from '../features/diagnostics.ts';
import { ownSubjects } from '../features/own-subjects.ts';
import type { Language } from '../words/languages/language.ts';
import { whenRead } from './compared-states.ts';
import { fileKey } from './file-key.ts';
import type { AnswerOwn } from './guard.ts';
import { inSlices } from './in-slices.ts';
import { FENCE_REQUEST, type FenceParams, type FenceResult, FILE_ENDING, LANGUAGE_ID } from './protocol.ts';
import type { Subject } from './protocol-parts.ts';
import type { Session } from './session.ts';
import { subjectDrawing } from './subject-drawing.ts';
import { MOST_BYTES } from './text-limits.ts';

/** Specs that stand in other documents, as fences of Markdown do: they lie in the folder of their document, and are no files. */
export function serveFences(own: AnswerOwn, { files }: Session, t: Language): void {
  // Of its own: these texts come and go, and must not take the place of files in the memory of another.
  const analyser = createAnalyser();
  own<FenceParams, FenceResult>(FENCE_REQUEST, 'fence', { uris: [] }, async ({ uri, text, place }, token) => {
    if (typeof text !== 'string' || text.length > MOST_BYTES) return { uris: [] };
    const fence = `${uri}${FILE_ENDING}`;
    const host: Host = {
      ...given({ levels: files.levels }),
      content: (each) => (fileKey(each) === fileKey(fence) ? { kind: 'text', text } : files.content(each)),
      isInside: (each) => files.isInside(each),
      photo: (each) => files.photo?.(each),
    };
    const analysis = await whenRead(() => {
      files.newRound();
      // A piece or a pickup a step.
      return inSlices(analyser.analysing(fence, host), token);
    });
    if (analysis === undefined) return { uris: [] };
    return {
      html: figureHtml(analysis, text, `fence-${place}-`, t),
      uris: analysis.uris.filter((each) => each !== fence),
    };
  });
}

/** A fence is an example; who writes more into one has a file. */
const MOST_DRAWN = 6;
/** The narrow sheets: text of a document runs in a column. */
const WIDTH = 488;

function figureHtml(analysis: Analysis, text: string, within: string, t: Language): string {
  const own: readonly Subject[] = ownSubjects(analysis);
  const subjects = own.length > 0 || ownParts(analysis).length === 0 ? own : [{ kind: 'parts', name: '' } as const];
  const document = TextDocument.create(analysis.uri, LANGUAGE_ID, 0, text);
  const left = subjects.length - MOST_DRAWN;
  return fenceFigure({
    t,
    drawings: subjects
      .slice(0, MOST_DRAWN)
      .flatMap(
        (subject, index) => subjectDrawing(analysis, subject, { t, width: WIDTH, within: `${within}${index}-` }) ?? [],
      ),
    findings: diagnostics({ ...analysis, findings: analysis.allFindings() }, t).map(
      ({ code, severity, message, span }) => ({
        code,
        severity,
        message,
        line: document.positionAt(span.start).line + 1,
      }),
    ),
    ...given({ leftOut: left > 0 ? t('{0} more are not drawn here.', String(left)) : undefined }),
  });
}
