import type { Uri } from 'vscode';
import { LANGUAGE_ID } from '../../../../server/src/lsp/protocol.ts';
import type { RenderRule, Token } from './markdown-it.ts';

export type Drawn =
  | { readonly state: 'current' | 'former'; readonly html: string }
  /** Nothing of it has been drawn yet, or it could not be. */
  | { readonly state: 'asked' | 'failed' };

/** The drawing of a fence of a document; `undefined` where none is wanted. `place` counts the fences. */
export type DrawnAt = (document: Uri, place: number, text: string) => Drawn | undefined;

/** How the preview renders fences: those of specs as drawings with their text folded in below, all others as before. */
export function fenceRule(
  drawnAt: DrawnAt,
  before: RenderRule | undefined,
  told: (note: FenceNote) => string = (note) => note,
): RenderRule {
  return (tokens, index, options, env, renderer) => {
    const token = tokens[index];
    const plain: RenderRule = before ?? ((...[all, at, as, , own]) => own.renderToken(all, at, as));
    const document = env?.currentDocument;
    const drawn =
      document && token && isSpec(token)
        ? drawnAt(document, tokens.slice(0, index).filter(isSpec).length, token.content)
        : undefined;
    if (token === undefined || drawn === undefined) return plain(tokens, index, options, env, renderer);
    // What the editor finds the line by stands at the whole, and not at the text that is folded in.
    const bare = tokens.with(index, withoutAttributes(token));
    const text = plain(bare, index, options, env, renderer);
    return `<div${renderer.renderAttrs(token)}><figure class="pickup-figure pickup-${drawn.state}">${inside(drawn, text, told)}</figure></div>\n`;
  };
}

function inside(drawn: Drawn, text: string, told: (note: FenceNote) => string): string {
  if (!('html' in drawn)) return `<p class="pickup-note">${told(NOTES[drawn.state])}</p>${text}`;
  const note = drawn.state === 'former' ? `<p class="pickup-note">${told(NOTES.former)}</p>` : '';
  return `${note}${drawn.html}<details><summary>Spec</summary>${text}</details>`;
}

const NOTES = {
  asked: 'This spec is being drawn.',
  former: 'Drawn before the last change.',
  failed: 'This spec was not drawn; the output of Pickup Spec says why.',
} as const;

/** What stands in the place of a drawing, or above one. */
export type FenceNote = (typeof NOTES)[keyof typeof NOTES];

const isSpec = ({ info }: Token): boolean => info.trim().split(/\s/, 1)[0] === LANGUAGE_ID;

/** A token has methods of its class. */
const withoutAttributes = (token: Token): Token =>
  Object.assign(Object.create(Object.getPrototypeOf(token)), token, { attrs: null });
