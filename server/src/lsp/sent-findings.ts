import type { Diagnostic } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Chunk } from '../../../grammar/src/syntax-tree.ts';
import { type Attached, attached } from '../../../grammar/values/attached.ts';
import type { EarlyFindings, Home } from '../analysis/analysis-types.ts';
import type { Finding } from '../checks/finding.ts';
import { shownOf, toDiagnostic as toShown } from '../features/diagnostics.ts';
import { ENGLISH, type Language } from '../words/languages/language.ts';
import { type PlainDiagnostic, type ShowsFindings, type TextOf, toDiagnostic } from './to-protocol.ts';

type Options = ShowsFindings & { readonly textOf: TextOf; readonly t?: Language };

export type SentFindings = (document: TextDocument, analysis: EarlyFindings) => Diagnostic[];

/**
 * Findings as one client is sent them. Those whose pieces begin at the line where they began are the same objects as before, which in a
 * long file nearly all are at each keystroke.
 */
export function sentFindings({ t = ENGLISH, ...options }: Options): SentFindings {
  const sent = attached<Finding, Sent>();
  const stood = attached<Chunk, Standing>();
  return (document, analysis) => {
    const standing = standings(document, analysis, { textOf: options.textOf, stood });
    return shownOf(
      analysis.findings,
      (finding) => {
        const before = sent.get(finding);
        if (before && standsThere(before, finding, standing)) return before.diagnostic;
        const shown = toShown(analysis, finding, t);
        const diagnostic = shown && toDiagnostic(document, shown, options);
        sent.set(finding, { diagnostic, own: standing(finding.place.chunk), related: relatedTo(finding, standing) });
        return diagnostic;
      },
      t,
    );
  };
}

interface Sent {
  /** `undefined` where it has no place in the document. */
  readonly diagnostic: PlainDiagnostic | undefined;
  /** Where the pieces stood that it tells of. */
  readonly own: Standing | undefined;
  readonly related: readonly (Standing | undefined)[];
}

/** Where a piece begins as an editor counts: the lines and characters of all places in it follow from this. */
interface Standing extends Pick<Home, 'uri' | 'chunk'> {
  readonly line: number;
  readonly character: number;
}

type StandingOf = (chunk: Chunk) => Standing | undefined;

interface StandingsOptions {
  readonly textOf: TextOf;
  /** Where pieces stood that were asked for before. */
  readonly stood: Attached<Chunk, Standing>;
}

/**
 * Of pieces as they stand now: the same object of one that has not moved. Asked for with every finding at each keystroke, it leaves little
 * behind.
 */
function standings(
  document: TextDocument,
  { uri, homeOf }: EarlyFindings,
  { textOf, stood }: StandingsOptions,
): StandingOf {
  let last: Chunk | undefined;
  let itsStanding: Standing | undefined;
  const standingOf: StandingOf = (piece) => {
    const home = homeOf(piece);
    const text = home?.uri === uri ? document : home && textOf(home.uri);
    if (!home || !text) return undefined;
    const { line, character } = text.positionAt(home.offset);
    const now = { uri: home.uri, chunk: home.chunk, line, character };
    const before = stood.get(piece);
    if (before && isSame(before, now)) return before;
    stood.set(piece, now);
    return now;
  };
  return (piece) => {
    // Findings come in the order of their places.
    if (piece !== last) itsStanding = standingOf(piece);
    last = piece;
    return itsStanding;
  };
}

const relatedTo = ({ related }: Finding, standing: StandingOf) => related.map(({ place }) => standing(place.chunk));

/** Asked for of every finding at each keystroke: it leaves nothing behind. */
function standsThere({ own, related }: Sent, finding: Finding, standing: StandingOf): boolean {
  if (!isSame(own, standing(finding.place.chunk))) return false;
  for (let index = 0; index < related.length; index += 1) {
    const place = finding.related[index]?.place;
    if (!place || !isSame(related[index], standing(place.chunk))) return false;
  }
  return true;
}

const isSame = (one: Standing | undefined, other: Standing | undefined): boolean =>
  one === other ||
  (one?.chunk === other?.chunk &&
    one?.line === other?.line &&
    one?.character === other?.character &&
    one?.uri === other?.uri);
