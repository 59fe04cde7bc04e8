import { LANGUAGE_ID } from '../../../../server/src/lsp/protocol.ts';

/** The specs in a text of Markdown, in order, so that they are drawn before a page asks; one that is cut otherwise there is drawn then. */
export const fencesIn = (markdown: string): readonly string[] =>
  [...markdown.replaceAll('\r\n', '\n').matchAll(FENCES)].map(([, , text = '']) => text);

const FENCES = new RegExp(`^(\`{3,}|~{3,}) *${LANGUAGE_ID}(?= |$).*\\n([\\s\\S]*?)^\\1 *$`, 'gm');
