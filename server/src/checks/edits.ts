/** Changes of the text that remedies are made of. */
import { present } from '../../../grammar/values/present.ts';
import type { CoilSigns } from '../estimates/signs.ts';
import { type Coil, opposite, oppositeSign, type PoleUp, poleOf, type Rotation } from '../model/coil.ts';
import type { LeadPath } from '../model/lead.ts';
import { looseNetlist, type PickupNetlist } from '../model/netlist.ts';
import type { Joint, Pickup } from '../model/pickup.ts';
import { type Place, type Stated, samePlace } from '../model/place.ts';
import type { Edit } from './finding.ts';

export const replaceAt = (place: Place, newText: string): Edit => ({ place, newText });

/** Replaces one word of a line. `undefined` where the line does not hold it. */
export function replaceWord(line: Place, word: string, by: string): Edit | undefined {
  const text = line.chunk.text.slice(line.span.start, line.span.end);
  const at = new RegExp(`(?<![\\p{L}\\p{N}_-])${escaped(word)}(?![\\p{L}\\p{N}_-])`, 'u').exec(text);
  if (!at) return undefined;
  const start = line.span.start + at.index;
  return { place: { chunk: line.chunk, span: { start, end: start + word.length } }, newText: by };
}

/** Replaces the first number of a line, its digit groups included. `undefined` where the line holds none. */
export function replaceNumber(line: Place, by: string): Edit | undefined {
  const text = line.chunk.text.slice(line.span.start, line.span.end);
  const at = /\d[\d_.]*/.exec(text);
  if (!at) return undefined;
  const start = line.span.start + at.index;
  return { place: { chunk: line.chunk, span: { start, end: start + at[0].length } }, newText: by };
}

const escaped = (text: string) => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

/** A new line below `line`, indented as it is. */
export function insertLineAfter(line: Place, text: string): Edit {
  const end = lineEnd(line.chunk.text, line.span.end);
  return { place: { chunk: line.chunk, span: { start: end, end } }, newText: `\n${indentation(line)}${text}` };
}

/** A new first line inside the block whose first line is `head`; a first fact where the block stands on one line. */
export const insertFirstLine = (head: Place, text: string): Edit => insertFirstLines(head, [text]);

/** The same for several lines, in their order. */
export function insertFirstLines(head: Place, lines: readonly string[]): Edit {
  const { chunk, span } = head;
  const end = lineEnd(chunk.text, span.start);
  const braces = bracesOf(chunk.text.slice(span.start, end));
  if (braces.close >= 0) {
    const at = span.start + braces.open + 1;
    return { place: { chunk, span: { start: at, end: at } }, newText: lines.map((line) => ` ${line};`).join('') };
  }
  return {
    place: { chunk, span: { start: end, end } },
    newText: lines.map((line) => `\n${indentation(head)}  ${line}`).join(''),
  };
}

/** Lines before the end of a top-level block; `undefined` where it stands on one line. */
export function insertLastLines({ chunk, span }: Place, lines: readonly string[]): Edit | undefined {
  const close = chunk.text.lastIndexOf('\n}');
  if (close < span.start) return undefined;
  const at = { start: close, end: close };
  return { place: { chunk, span: at }, newText: lines.map((line) => `\n  ${line}`).join('') };
}

/** The first `{` of a line and the first `}` behind it, neither in a text nor in a comment; -1 where there is none. */
function bracesOf(line: string): { readonly open: number; readonly close: number } {
  const bare = line.replace(/"(?:[^"\\]|\\.)*"|#.*/g, (hidden) => ' '.repeat(hidden.length));
  const open = bare.indexOf('{');
  return { open, close: open < 0 ? -1 : bare.indexOf('}', open) };
}

/** Takes a whole line away, its end included. */
export function removeLine(line: Place): Edit {
  const { text } = line.chunk;
  const start = text.lastIndexOf('\n', Math.max(0, line.span.start - 1)) + 1;
  const end = lineEnd(text, line.span.end);
  return { place: { chunk: line.chunk, span: { start, end: Math.min(end + 1, text.length) } }, newText: '' };
}

function lineEnd(text: string, from: number): number {
  const at = text.indexOf('\n', from);
  const end = at < 0 ? text.length : at;
  return text[end - 1] === '\r' ? end - 1 : end;
}

function indentation({ chunk, span }: Place): string {
  const start = chunk.text.lastIndexOf('\n', Math.max(0, span.start - 1)) + 1;
  return /^[ \t]*/.exec(chunk.text.slice(start))?.[0] ?? '';
}

/** The line of a joint with other leads. */
export function rewriteJoint(joint: Joint, leads: readonly string[]): Edit {
  const first = joint.leads[0];
  const last = joint.leads.at(-1);
  if (!first || !last) return replaceAt(joint.place, `${joint.kind} ${leads.join(' ')}`);
  return replaceAt(
    { chunk: joint.place.chunk, span: { start: first.place.span.start, end: last.place.span.end } },
    leads.join(' '),
  );
}

/**
 * Swaps start and finish of one coil: the leads change places in the hookup; where the hookup does not name both ends, the
 * coil's own lines change what they are soldered to. `undefined` where neither is written out.
 */
export function swapCoilLeads(pickup: Pickup, coil: Coil, loose = looseNetlist(pickup)): readonly Edit[] | undefined {
  const winding = loose.windings.find((each) => each.coil === coil);
  if (!winding) return undefined;
  const named = (net: number | undefined) => pathsOfNet(pickup, loose, net);
  const [atStart, atFinish] = [named(winding.start), named(winding.finish)];
  const [start, finish] = [atStart[0], atFinish[0]];
  if (start && finish && atStart.length === 1 && atFinish.length === 1)
    return [replaceAt(start.place, finish.text), replaceAt(finish.place, start.text)];
  const [startTo, finishTo] = [coil.start?.value.to?.value, coil.finish?.value.to?.value];
  if (startTo && finishTo) return [replaceAt(startTo.place, finishTo.text), replaceAt(finishTo.place, startTo.text)];
  return undefined;
}

/** Where the hookup names a net. */
export function pathsOfNet(pickup: Pickup, netlist: PickupNetlist, net: number | undefined): readonly LeadPath[] {
  if (net === undefined) return [];
  return (pickup.hookup?.joints ?? []).flatMap(({ leads }) => leads.filter((path) => netlist.netAt(path) === net));
}

/** Turns the poles of these coils over, where their polarity is stated with each. Other coils keep theirs. */
export function flipPolarity(coils: readonly Coil[], pickup: Pickup): readonly Edit[] | undefined {
  return flipStated<PoleUp>(coils, pickup, 'polarity', ({ polarity }) => polarity);
}

/** Winds these coils the other way. Other coils keep their direction. */
export function flipWinding(coils: readonly Coil[], pickup: Pickup): readonly Edit[] | undefined {
  return flipStated<Rotation>(coils, pickup, 'wound', ({ wound }) => wound);
}

/**
 * Changes a fact of some coils only. A line that `like` brings to several coils serves all of them: it is changed in the coil
 * that states it, and stated anew where a coil is to differ. `undefined` where a coil does not state it.
 */
function flipStated<T extends PoleUp | Rotation>(
  coils: readonly Coil[],
  pickup: Pickup,
  word: string,
  stated: (coil: Coil) => Stated<T> | undefined,
): readonly Edit[] | undefined {
  const lines = coils.map(stated);
  if (coils.length === 0 || lines.some((line) => line === undefined)) return undefined;
  const edits = lines.flatMap((line, index): readonly (Edit | undefined)[] => {
    if (!line || lines.findIndex((each) => each && samePlace(each.place, line.place)) < index) return [];
    const sharing = pickup.coils.filter((coil) => {
      const own = stated(coil);
      return own !== undefined && samePlace(own.place, line.place);
    });
    const states = sharing.find((coil) => isIn(line.place, coil, pickup));
    if (states && coils.includes(states)) {
      const keeping = sharing.filter((coil) => !coils.includes(coil));
      return [
        replaceWord(line.place, line.value, opposite(line.value)),
        ...keeping.map((coil) => insertFirstLine(coil.place, `${word} ${line.value}`)),
      ];
    }
    return sharing
      .filter((coil) => coils.includes(coil))
      .map((coil) => insertFirstLine(coil.place, `${word} ${opposite(line.value)}`));
  });
  return edits.every((edit) => edit !== undefined) ? present(edits) : undefined;
}

/** True where the line stands in this coil's own block: no other coil of the pickup begins between the two. */
export function isIn(line: Place, coil: Coil, pickup: Pickup): boolean {
  if (line.chunk !== coil.place.chunk) return false;
  const heads = pickup.coils.map(({ place }) => place).filter(({ chunk }) => chunk === line.chunk);
  const nearest = Math.max(...heads.map(({ span }) => (span.start <= line.span.start ? span.start : -1)));
  return coil.place.span.start === nearest;
}

/** States the poles of a pickup the other way up, of which only readings tell; `undefined` where they do not tell of all. */
export function flipSeenPoles(signs: readonly CoilSigns[]): readonly Edit[] | undefined {
  const own = signs.filter(({ coil }) => !coil.below);
  const edits = own.flatMap(({ coil, pole }) =>
    pole ? [insertFirstLine(coil.place, `polarity ${poleOf(oppositeSign(pole.sign))}`)] : [],
  );
  return edits.length === own.length ? edits : undefined;
}

/** Turns the bar under the coils over. */
export function flipBar(pickup: Pickup): Edit | undefined {
  const bar = pickup.barMagnet;
  if (!bar) return undefined;
  return replaceWord(bar.place, bar.value.pole, opposite(bar.value.pole));
}
