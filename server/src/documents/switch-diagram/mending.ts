/** What a verified fix of a wiring moves, so that the drawing can lay it out dashed beside what is soldered now. */
import type { Analysis, InstrumentAnalysis } from '../../analysis/analysis-types.ts';
import type { Finding } from '../../checks/finding.ts';
import { wiredRig } from '../../estimates/wired-rig.ts';
import type { Nets } from '../../physics/switching/rig.ts';

export interface Mending {
  readonly finding: Finding;
  /** What the fix is called. */
  readonly title: string;
  readonly moves: readonly Move[];
}

export interface Move {
  readonly terminal: string;
  /** What it lies with afterwards, without others that move; empty: nothing. */
  readonly onto: readonly string[];
}

/** Of the first finding of the switches with a verified fix that moves ends; `undefined` where there is none. */
export function mendingOf(analysis: Analysis, { written, findings }: InstrumentAnalysis): Mending | undefined {
  const before = wiredRig(written)?.links;
  if (!before) return undefined;
  const told = findings.filter(({ code, severity }) => code.startsWith('switch/') && LOUD.has(severity));
  for (const finding of told) {
    const [fix] = analysis.verifiedFixes(finding);
    const after = fix && analysis.edited(fix.edits)?.instruments.find((each) => each.written.name === written.name);
    const links = after && wiredRig(after.written)?.links;
    const moves = links ? movesBetween(before, links, new Set(finding.subject.nodes)) : [];
    if (fix && moves.length > 0) return { finding, title: fix.title, moves };
  }
  return undefined;
}

const LOUD: ReadonlySet<Finding['severity']> = new Set(['error', 'warning']);

/** Each terminal whose net afterwards is not the one that most of it was before; `likely`: those that are said to move. */
export function movesBetween(before: Nets, after: Nets, likely: ReadonlySet<string>): readonly Move[] {
  const netIn = (nets: Nets, terminal: string) => nets.find((net) => net.includes(terminal));
  const weight = (terminal: string) => (likely.has(terminal) ? 0.01 : 1);
  const overlap = (a: readonly string[], b: readonly string[]) =>
    a.reduce((sum, each) => sum + (b.includes(each) ? weight(each) : 0), 0);
  const pairs = before
    .flatMap((was) => after.map((is) => ({ was, is, common: overlap(was, is) })))
    .filter(({ common }) => common > 0)
    .sort((a, b) => b.common - a.common);
  const becomes = new Map<readonly string[], readonly string[]>();
  const taken = new Set<readonly string[]>();
  for (const { was, is } of pairs) {
    if (becomes.has(was) || taken.has(is)) continue;
    becomes.set(was, is);
    taken.add(is);
  }
  const moved = [...new Set([...before, ...after].flat())].filter((terminal) => {
    const [was, is] = [netIn(before, terminal), netIn(after, terminal)];
    return was === undefined || becomes.get(was) !== is;
  });
  // Of what joins for the first time one end moves onto the other.
  const isMoved = (terminal: string) => moved.includes(terminal) && !(likely.size > 0 && isNew(terminal));
  const isNew = (terminal: string) => netIn(before, terminal) === undefined && !likely.has(terminal);
  return moved.filter(isMoved).map((terminal) => ({
    terminal,
    onto: (netIn(after, terminal) ?? []).filter((each) => each !== terminal && !isMoved(each)),
  }));
}
