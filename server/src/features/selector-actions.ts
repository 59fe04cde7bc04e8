/** "What does it do?": the positions of the selector written from what is soldered, each solved again before it is offered. */
import type { Span } from '../../../grammar/src/span.ts';
import type { Analysis, InstrumentAnalysis } from '../analysis/analysis-types.ts';
import { insertLineAfter } from '../checks/edits.ts';
import type { Edit } from '../checks/finding.ts';
import { type WiredState, type WiredStates, wiredStates } from '../estimates/switch-states.ts';
import type { Instrument } from '../model/instrument.ts';
import { detentsAt, selectionText } from '../words/switch-words.ts';
import { inFile, isOnHead } from './syntax-at.ts';
import { locateEdits, type Refactoring } from './text-edits.ts';

export function selectorActions(analysis: Analysis, span: Span): readonly Refactoring[] {
  return analysis.tree.chunks.flatMap((placed): readonly Refactoring[] => {
    const block = placed.chunk.content;
    const instrument = analysis.instruments.find(({ written }) => written.place.chunk === placed.chunk);
    if (block?.kind !== 'block' || !instrument) return [];
    const inner = block.body.find(
      (each) =>
        each.kind === 'block' && ['selector', 'wiring'].includes(each.keyword.text) && isOnHead(placed, each, span),
    );
    const states = wiredStates(instrument.written);
    if (!states) return [];
    const offers = [
      ...(inner ? [leftOut(states, instrument.written)] : []),
      ...states.positions.map(({ position, verdict, sounds }): Offer | undefined => {
        const at = inFile(placed, position.place.span);
        const isAsked = at.start <= span.start && span.end <= at.end;
        if (!isAsked || verdict !== 'differs' || !sounds || !position.selection) return undefined;
        const text = selectionText(sounds);
        return {
          title: `Say in position ${position.key.value} what is wired: \`${text}\``,
          edit: { place: position.selection.place, newText: text },
          right: [position.key.value],
        };
      }),
    ];
    return offers.flatMap((offer) => {
      const edits = offer && holds(offer, analysis, instrument) ? locateEdits(analysis, [offer.edit]) : undefined;
      return offer && edits ? [{ title: offer.title, edits }] : [];
    });
  });
}

interface Offer {
  readonly title: string;
  readonly edit: Edit;
  /** Keys of the positions that do what they say once it is made. */
  readonly right: readonly string[];
}

/** Written into the text and solved again, each of these positions does what it says. */
function holds({ edit, right }: Offer, analysis: Analysis, { written }: InstrumentAnalysis): boolean {
  const after = analysis.edited([edit])?.instruments.find((each) => each.written.name === written.name);
  const positions = (after && wiredStates(after.written)?.positions) ?? [];
  return right.every((key) =>
    positions.some(({ position, verdict }) => position.key.value === key && verdict === 'as asked'),
  );
}

/** Every state that sounds, that the selector has words for, and that no position names. */
function leftOut({ states }: WiredStates, written: Instrument): Offer | undefined {
  const missing = states.filter(({ positions, sounds }) => positions.length === 0 && sounds);
  // What cannot be read may be what is missing.
  if (written.positionsUnread || missing.length === 0 || missing.length > MOST_WRITTEN) return undefined;
  const lines = numbered(missing, written);
  const right = lines.map(({ key }) => key);
  const text = lines.map((line) => line.text);
  const last = written.positions.at(-1);
  if (last) {
    const what = text.length === 1 ? 'position' : 'positions';
    const title = `Add what the selector leaves out of the wiring: ${what} ${right.join(', ')}`;
    return { title, edit: insertLineAfter(last.place, text.join('\n    ')), right };
  }
  const { chunk } = written.place;
  const block = chunk.content?.kind === 'block' ? chunk.content : undefined;
  const inner = (keyword: string) => block?.body.find((each) => each.kind === 'block' && each.keyword.text === keyword);
  const selector = ['selector {', ...text.map((line) => `    ${line}`), '  }'].join('\n');
  const title = `Write the selector from the wiring: ${text.length} ${text.length === 1 ? 'position' : 'positions'}`;
  const empty = inner('selector');
  if (empty) return { title, edit: { place: { chunk, span: empty.span }, newText: selector }, right };
  const end = inner('wiring')?.span.end;
  return end === undefined
    ? undefined
    : { title, edit: { place: { chunk, span: { start: end, end } }, newText: `\n\n  ${selector}` }, right };
}

/** More than any selector has: a table of them is what the command line prints. */
const MOST_WRITTEN = 24;

/** With one switch a position has the number of its detent, as far as that is free; else where the switches stand is said. */
function numbered(states: readonly WiredState[], written: Instrument): readonly { key: string; text: string }[] {
  const taken = new Set(written.positions.map(({ key }) => Number(key.value)));
  let last = Math.max(0, ...taken);
  const isByDetent =
    written.switches.length === 1 &&
    states.every(({ state }) => !taken.has((state[0] ?? 0) + 1)) &&
    noGap(states, taken);
  return states.flatMap((each) => {
    if (!each.sounds) return [];
    last += 1;
    const key = isByDetent ? (each.state[0] ?? 0) + 1 : last;
    const at = detentsAt(written, each.state)
      .filter((_, index) => written.switches.length === 1 || (each.state[index] ?? 0) > 0)
      .map((both) => both.join(' '));
    const where = isByDetent || at.length === 0 ? '' : `, at ${at.join(' ')}`;
    return [{ key: String(key), text: `${key} ${selectionText(each.sounds)}${where}` }];
  });
}

/** Numbers run from 1 without a gap. */
function noGap(states: readonly WiredState[], taken: ReadonlySet<number>): boolean {
  const all = new Set([...taken, ...states.map(({ state }) => (state[0] ?? 0) + 1)]);
  return Math.max(...all) === all.size;
}
