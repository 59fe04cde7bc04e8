import { element } from './element.ts';

/** A sentence in which words of a spec stand in back-quotes, as nodes in which they stand in the face of the editor. */
export const codeSpans = (text: string): readonly (Node | string)[] =>
  text.split(/`([^`]+)`/).map((piece, index) => (index % 2 === 0 ? piece : element('code', { textContent: piece })));
