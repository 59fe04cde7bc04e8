/** `bridge.slug parallel middle`: reversed and through bind tightest, then series, then parallel; parentheses group. */
import type { WrittenQuantity } from '../values/quantity.ts';
import { type Attempt, fail, isPunctuation, type Match, wordOf } from './match-attempt.ts';
import { matchPath } from './match-path.ts';
import { matchQuantity } from './match-quantity.ts';
import { type At, quantity, type SelectionNode, selection, type WrittenPath } from './schema/shape.ts';
import { joinSpans, type Span } from './span.ts';

/** Deeper than any switch needs; keeps whoever walks the tree from running out of stack. */
const DEEPEST_SELECTION = 32;

const RESISTANCE = quantity('resistance', { min: 0, exclusiveMin: true });

export function matchSelection(attempt: Attempt, index: number): Match | undefined {
  const match = matchJoined(attempt, index, 'parallel', 0);
  return match && { value: { value: match.node, span: match.node.span } satisfies At<SelectionNode>, next: match.next };
}

interface NodeMatch {
  readonly node: SelectionNode;
  readonly next: number;
}

function matchJoined(
  attempt: Attempt,
  index: number,
  kind: 'parallel' | 'series',
  depth: number,
): NodeMatch | undefined {
  const matchTerm = (at: number) =>
    kind === 'parallel' ? matchJoined(attempt, at, 'series', depth) : matchReversed(attempt, at, depth);
  const first = matchTerm(index);
  if (!first) return undefined;
  const of = [first.node];
  let next = first.next;
  while (wordOf(attempt.items[next]) === kind) {
    const term = matchTerm(next + 1);
    if (!term) return undefined;
    of.push(term.node);
    next = term.next;
  }
  fail(attempt, next, { label: `\`${kind}\``, words: [kind], shape: selection });
  const last = of.at(-1);
  if (of.length === 1 || !last) return first;
  return { node: { kind, of, span: joinSpans(first.node.span, last.span) }, next };
}

function matchReversed(attempt: Attempt, index: number, depth: number): NodeMatch | undefined {
  let at = index;
  while (wordOf(attempt.items[at]) === 'reversed') at++;
  if (at - index + depth > DEEPEST_SELECTION) return tooDeep(attempt, index);
  const inner = matchPart(attempt, at, depth + at - index);
  let node = inner?.node;
  for (let word = at - 1; node && word >= index; word--) {
    const span: Span = joinSpans(attempt.items[word]?.span ?? node.span, node.span);
    node = { kind: 'reversed', of: node, span };
  }
  return inner && node && { node, next: inner.next };
}

function matchPart(attempt: Attempt, index: number, depth: number): NodeMatch | undefined {
  const open = attempt.items[index];
  if (open && isPunctuation(open, '(')) {
    const inner = matchJoined(attempt, index + 1, 'parallel', depth + 1);
    if (!inner) return undefined;
    const close = attempt.items[inner.next];
    if (close && isPunctuation(close, ')')) {
      return { node: { ...inner.node, span: joinSpans(open.span, close.span) }, next: inner.next + 1 };
    }
    // At the line's end the missing parenthesis has been told already.
    return close ? fail(attempt, inner.next, { label: '`)`' }) : inner;
  }
  const word = wordOf(open);
  if (word !== undefined && RESERVED.has(word))
    return fail(attempt, index, { label: 'a pickup or one of its coils', shape: selection });
  const path = matchPath(attempt, index, 'a pickup or one of its coils, such as `bridge` or `bridge.slug`', selection);
  if (!path) return undefined;
  const { value, span } = path.value as At<WrittenPath>;
  if (wordOf(attempt.items[path.next]) !== 'through') {
    fail(attempt, path.next, { label: '`through`', words: ['through'], shape: selection });
    return { node: { kind: 'part', path: value, through: undefined, span }, next: path.next };
  }
  const resistor = matchQuantity(attempt, path.next + 1, RESISTANCE);
  if (!resistor) return undefined;
  const through = resistor.value as At<WrittenQuantity>;
  return { node: { kind: 'part', path: value, through, span: joinSpans(span, through.span) }, next: resistor.next };
}

const RESERVED: ReadonlySet<string> = new Set(['series', 'parallel', 'through', 'reversed']);

function tooDeep(attempt: Attempt, index: number): undefined {
  const item = attempt.items[index];
  return fail(attempt, index, {
    label: 'fewer parentheses',
    ...(item
      ? {
          problem: {
            code: 'analysis/incomplete',
            span: item.span,
            message: `Parentheses and \`reversed\` are read ${DEEPEST_SELECTION} deep; this line is not analysed.`,
            action: 'Take out those that change nothing.',
          },
        }
      : {}),
  });
}
