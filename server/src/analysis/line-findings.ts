/**
 * What can be told of a new text before it is read, where all that changed lies in one fact's line: what stood of the text before, with
 * what is written wrong on that line told anew.
 */
import { rereadLine } from '../../../grammar/src/reread-line.ts';
import { type Span, shiftSpan, touches } from '../../../grammar/src/span.ts';
import type { SyntaxProblem } from '../../../grammar/src/syntax-problem.ts';
import type { Chunk, FileTree, PlacedChunk } from '../../../grammar/src/syntax-tree.ts';
import { changeBetween, movedSpan, type TextChange } from '../../../grammar/src/text-change.ts';
import type { Finding } from '../checks/finding.ts';
import { firstLine } from '../model/from-syntax.ts';
import type { Place } from '../model/place.ts';
import type { Analysis, EarlyFindings, FileSpan, Home, Host } from './analysis-types.ts';
import { isOfCircuit } from './early-findings.ts';
import { levelled } from './levels.ts';
import { problemFinding } from './text-findings.ts';

/** `undefined` where something else may have to be told than that. */
export function lineFindings(before: Analysis, text: string, host: Host): EarlyFindings | undefined {
  const change = changeBetween(before.text, text);
  const placed = pieceAt(before.tree, change);
  if (!placed) return undefined;
  const { chunk, offset } = placed;
  const typed = text.slice(offset, offset + chunk.text.length + change.shift);
  const within = { ...shiftSpan(change, -offset), shift: change.shift };
  const reread = rereadLine(chunk, within, typed);
  if (!reread) return undefined;
  // Its tree is not made yet.
  const piece: Chunk = { text: typed, content: undefined, comments: [], problems: [] };
  const asTold = (problems: readonly SyntaxProblem[], of: Chunk) => toldOf(problems, of, before, host);
  const now = asTold(reread.now, piece);
  const standing = standingBeside(before, { chunk, span: reread.line }, asTold(reread.before, chunk));
  if (!standing || now.some((finding) => mayBeKept(finding, before))) return undefined;
  const places = placesAfter(before, { chunk, offset, change }, piece);
  const startOf = ({ place }: Finding): number => places.locate(place)?.start ?? 0;
  const findings = now.length === 0 ? standing : [...now, ...standing].sort((a, b) => startOf(a) - startOf(b));
  return { uri: before.uri, findings, ...places };
}

/** The piece that holds all that changed. */
function pieceAt({ chunks }: FileTree, { start, end }: Span): PlacedChunk | undefined {
  const placed = chunks.findLast(({ offset }) => offset <= start);
  return placed && end < placed.offset + placed.chunk.text.length ? placed : undefined;
}

const toldOf = (
  problems: readonly SyntaxProblem[],
  chunk: Chunk,
  { bench }: Analysis,
  host: Host,
): readonly Finding[] =>
  levelled(
    problems.map((problem) => problemFinding(problem, ({ span }) => ({ chunk, span }))),
    bench,
    host.levels?.(),
  );

const mayBeKept = ({ code }: Finding, { model: { pickups, instruments } }: Analysis): boolean =>
  [...pickups, ...instruments].some(({ accepted }) => accepted.some((each) => each.code.value === code));

/**
 * All but what was `written` wrong on the line. What points into the line is another object, since it may have moved there; `undefined`
 * where one of them rests on how the line is written and is not told by that alone.
 */
function standingBeside(
  { findings }: Analysis,
  line: Place,
  written: readonly Finding[],
): readonly Finding[] | undefined {
  const isThere = ({ place }: Pick<Finding, 'place'>): boolean => isOn(line, place);
  const there = findings.filter((each) => isThere(each) || each.related.some(isThere));
  const toldAnew = there.filter((each) => written.some((one) => saysTheSame(one, each)));
  const others = there.filter((each) => !toldAnew.includes(each));
  if (toldAnew.length !== written.length || !others.every(isOfCircuit)) return undefined;
  const copies = new Map(others.map((each) => [each, { ...each }]));
  return findings.filter((each) => !toldAnew.includes(each)).map((each) => copies.get(each) ?? each);
}

/** Begins or ends there: what goes on behind it has moved nowhere. */
const isOn = (line: Place, { chunk, span }: Place): boolean =>
  chunk === line.chunk && (touches(line.span, span.start) || touches(line.span, span.end));

const saysTheSame = (one: Finding, other: Finding): boolean =>
  one.place.chunk === other.place.chunk &&
  one.code === other.code &&
  one.message === other.message &&
  one.severity === other.severity &&
  one.place.span.start === other.place.span.start &&
  one.place.span.end === other.place.span.end;

interface Changed extends PlacedChunk {
  readonly change: TextChange;
}

/** Where things stand once a piece has changed; what the change cuts through stands at the piece's first line. `piece`: as it is now. */
function placesAfter(
  { uri, homeOf, locate }: Analysis,
  { chunk, offset, change }: Changed,
  piece: Chunk,
): Pick<EarlyFindings, 'locate' | 'homeOf'> {
  const home: Home = { uri, offset, chunk: piece };
  const shiftOf = (at: number): number => (at > offset ? change.shift : 0);
  const moved = (place: Place): FileSpan | undefined => {
    const at = locate(place);
    if (at?.uri !== uri) return at;
    const span = movedSpan(at, change);
    return span && { uri, ...span };
  };
  return {
    homeOf: (of) => {
      if (of === piece) return home;
      const before = homeOf(of);
      return before?.uri === uri ? { ...before, offset: before.offset + shiftOf(before.offset) } : before;
    },
    locate: (place) =>
      place.chunk === piece ? { uri, ...shiftSpan(place.span, offset) } : (moved(place) ?? moved(firstLine(chunk))),
  };
}
