import { beginsComment, beginsText, isLineBreak, lineEnd, stringEnd } from './characters.ts';

/**
 * Whether the line whose first word stands at `offset` lacks its `{`: it has no brace, and the next line with content is
 * indented deeper than it. The caller knows that the word begins a block here.
 */
export function lacksBrace(text: string, offset: number): boolean {
  for (let at = offset; at < text.length; ) {
    const character = text[at] ?? '';
    if (isLineBreak(text.charCodeAt(at)) || beginsComment(text, at)) break;
    if ('{};'.includes(character)) return false;
    at = beginsText(text, at) ? stringEnd(text, at) : at + 1;
  }
  let begin = lineEnd(text, offset);
  while (begin < text.length) {
    let at = begin;
    while (at < text.length && isLineBreak(text.charCodeAt(at))) at++;
    const lineBegin = at;
    while (text[at] === ' ' || text[at] === '\t') at++;
    if (at < text.length && !isLineBreak(text.charCodeAt(at)) && !beginsComment(text, at)) {
      return text[at] !== '{' && at - lineBegin > indentationOf(text, offset);
    }
    begin = lineEnd(text, at);
  }
  return false;
}

function indentationOf(text: string, offset: number): number {
  let start = offset;
  while (text[start - 1] === ' ' || text[start - 1] === '\t') start--;
  return offset - start;
}

export const lacksBody = (line: string): string =>
  `\`${line}\` stops short: a block's facts go between \`{\` and \`}\`.`;
