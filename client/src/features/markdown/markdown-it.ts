import type { Uri } from 'vscode';

/** Of the editor's Markdown engine only what is used here. */
export interface MarkdownIt {
  readonly renderer: { readonly rules: { fence?: RenderRule } };
}

export type RenderRule = (
  tokens: readonly Token[],
  index: number,
  options: unknown,
  env: Environment | undefined,
  renderer: Renderer,
) => string;

export interface Token {
  /** What stands behind the three marks. */
  readonly info: string;
  readonly content: string;
  readonly attrs: readonly (readonly [name: string, value: string])[] | null;
}

export interface Renderer {
  renderToken(tokens: readonly Token[], index: number, options: unknown): string;
  /** Escaped, each with a space before it. */
  renderAttrs(token: Pick<Token, 'attrs'>): string;
}

/** What the editor says of the document that is rendered. */
export interface Environment {
  readonly currentDocument?: Uri;
}
