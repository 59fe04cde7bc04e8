/** One change of what is soldered, as edits of the wiring's lines. */
import { present } from '../../../grammar/values/present.ts';
import { terminalsOfLine } from '../model/soldered.ts';
import { GROUND_TERMINAL, HOT_TERMINAL, type Wiring, type WiringLine, type WrittenTerminal } from '../model/wiring.ts';
import type { Change } from '../physics/switching/changes.ts';
import { insertLineAfter, removeLine, replaceAt } from './edits.ts';
import type { Edit } from './finding.ts';

/** `undefined` where the lines cannot be changed so one by one. */
export function wiringEdits(wiring: Wiring, change: Change): readonly Edit[] | undefined {
  const edits =
    change.kind === 'swap' ? exchanged(wiring, change.terminals) : moved(wiring, change.terminal, change.to);
  const made = edits && present(edits);
  return made && made.length > 0 && made.length === edits.length ? made : undefined;
}

type Edits = readonly (Edit | undefined)[] | undefined;

const isCommon = (terminal: string): boolean => terminal === HOT_TERMINAL || terminal === GROUND_TERMINAL;

/** Lines that hold a terminal, and where they name it. */
const holding = ({ lines }: Wiring, terminal: string) =>
  lines.flatMap((line) =>
    line.kind === 'free'
      ? []
      : terminalsOfLine(line).includes(terminal)
        ? [{ line, at: line.terminals.find(({ name }) => name === terminal) }]
        : [],
  );

function exchanged(wiring: Wiring, [a, b]: readonly [string, string]): Edits {
  if (isCommon(a) || isCommon(b)) return undefined;
  const rename = (from: string, to: string) =>
    holding(wiring, from).flatMap(({ at }) => (at ? [replaceAt(at.path.place, to)] : []));
  return [...rename(a, b), ...rename(b, a), ...takenFromFree(wiring, a), ...takenFromFree(wiring, b)];
}

function moved(wiring: Wiring, terminal: string, to: readonly string[] | 'nothing'): Edits {
  if (isCommon(terminal)) return undefined;
  const away = holding(wiring, terminal).flatMap(({ line, at }) => (at ? [without(line, at)] : []));
  if (to === 'nothing') return away;
  const target = to.flatMap((each) => holding(wiring, each))[0]?.line;
  return [
    ...away,
    ...takenFromFree(wiring, terminal),
    target ? withAlso(target, terminal) : newLine(wiring, terminal, to),
  ];
}

/** A line of two that loses one joins nothing any more. */
export function without(line: WiringLine, at: WrittenTerminal): Edit {
  const { terminals } = line;
  const least = line.kind === 'link' ? 2 : 1;
  if (terminals.length <= least) return removeLine(line.place);
  const { chunk, span } = at.path.place;
  const before = chunk.text.slice(0, span.start).trimEnd().length;
  const isComma = chunk.text[before - 1] === ',';
  return replaceAt({ chunk, span: { start: isComma ? before - 1 : before, end: span.end } }, '');
}

function withAlso({ terminals, place }: WiringLine, terminal: string): Edit {
  const end = terminals.at(-1)?.path.place.span.end ?? place.span.end;
  return replaceAt({ chunk: place.chunk, span: { start: end, end } }, ` ${terminal}`);
}

function newLine({ lines }: Wiring, terminal: string, to: readonly string[]): Edit | undefined {
  const last = lines.at(-1)?.place;
  const common = to.find(isCommon);
  return (
    last &&
    insertLineAfter(last, common === undefined ? `link ${[...to, terminal].join(' ')}` : `${common} ${terminal}`)
  );
}

/** What is soldered to something is not free any more. */
const takenFromFree = ({ lines }: Wiring, terminal: string): readonly Edit[] =>
  lines.flatMap((line) => {
    const at = line.kind === 'free' ? line.terminals.find(({ name }) => name === terminal) : undefined;
    return at ? [without(line, at)] : [];
  });
