import { type Attempt, fail, type Match, nameOf } from './match-attempt.ts';
import type { At, Shape, WrittenPath } from './schema/shape.ts';
import { problemAt } from './syntax-problem.ts';

/** `violet` or `slug.start`. */
export function matchPath(attempt: Attempt, index: number, label: string, shape: Shape): Match | undefined {
  const item = attempt.items[index];
  if (item?.kind === 'path') {
    if (item.text.endsWith('.')) {
      const message = `\`${item.text}\` stops short: the name behind the point is missing.`;
      const problem = problemAt('syntax/incomplete', item.span, message);
      return fail(attempt, index, { label, problem, shape });
    }
    const parts = item.parts.map((part): At<string> => ({ value: part.text, span: part.span }));
    const value: At<WrittenPath> = { value: { parts, text: item.text }, span: item.span };
    return { value, next: index + 1 };
  }
  const name = nameOf(item);
  if (!item || name === undefined) return fail(attempt, index, { label, shape });
  const value: At<WrittenPath> = { value: { parts: [{ value: name, span: item.span }], text: name }, span: item.span };
  return { value, next: index + 1 };
}
