import { codeSpans, unbroken } from '../../server/src/lsp/protocol.ts';
import { element } from './element.ts';

/** A sentence of the server: what it quotes from a spec is set as code, and a number and its unit stay on one line. */
export const sentence = (text: string): readonly (Node | string)[] =>
  codeSpans(unbroken(text)).map((part) => (part.isCode ? element('code', { textContent: part.text }) : part.text));

/** The same of a finding: one that is told in English alone is read out as such in a page of another language. */
export const findingText = (text: string, foreign: 'en' | undefined): HTMLElement =>
  element('span', foreign === undefined ? {} : { lang: foreign }, sentence(text));
