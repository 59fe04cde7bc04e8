/** Which parts of a pickup's drawing the changed facts write, by the names that the drawing gives its parts. */
import { canonicalLeadName } from '../../../grammar/values/lead-name.ts';
import type { FactChange } from './compare-facts.ts';

/** `coil:screw`, `coil:screw.start`, `lead:grey`, `magnet`, `part:cover`; on one side of the comparison. */
export function changedParts(
  changes: readonly FactChange[],
  pickup: string,
  side: 'before' | 'after',
): ReadonlySet<string> {
  const parts = changes
    .filter(({ path }) => path[0] === pickup)
    .flatMap((change) => {
      const coil = change.path.find((label) => label.startsWith('coil '))?.slice('coil '.length);
      const texts = textsOf(change, side);
      if (coil !== undefined) return texts.map((text) => coilPart(coil, text));
      return texts.flatMap((text) => partsOfLine(text, otherText(change, side)));
    });
  return new Set(parts);
}

function textsOf(change: FactChange, side: 'before' | 'after'): readonly string[] {
  switch (change.kind) {
    case 'fact changed':
      return [change[side].text];
    case 'fact added':
      return side === 'after' ? [change.after.text] : [];
    case 'fact removed':
      return side === 'before' ? [change.before.text] : [];
    case 'block added':
      return side === 'after' ? change.facts.map(({ text }) => text) : [];
    case 'block removed':
      return side === 'before' ? change.facts.map(({ text }) => text) : [];
    case 'renamed':
      return [];
  }
}

const otherText = (change: FactChange, side: 'before' | 'after'): string =>
  change.kind === 'fact changed' ? change[side === 'before' ? 'after' : 'before'].text : '';

/** A coil's end has a lead of its own in the drawing; what else changed is the coil's. */
function coilPart(coil: string, text: string): string {
  const end = /^(start|finish)\b/.exec(text)?.[1];
  return end === undefined ? `coil:${coil}` : `coil:${coil}.${end}`;
}

/** Of a line that joins leads, those that the other state does not join there. */
function partsOfLine(text: string, other: string): readonly string[] {
  const [word = '', ...rest] = text.split(/[\s,]+/);
  if (word === 'magnet') return ['magnet'];
  if (word === 'baseplate' || word === 'cover') return [`part:${word}`];
  if (!JOINING.has(word)) return [];
  const there = new Set(
    other
      .split(/[\s,]+/)
      .slice(1)
      .map(canonicalLeadName),
  );
  return rest
    .map(canonicalLeadName)
    .filter((name) => !there.has(name))
    .map((name) => (name.includes('.') ? `coil:${name}` : `lead:${name}`));
}

const JOINING: ReadonlySet<string> = new Set(['hot', 'link', 'ground', 'shield', 'free', 'conductors']);
