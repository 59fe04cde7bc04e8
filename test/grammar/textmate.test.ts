import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

// Both are bundles whose names an import statement cannot see.
const require = createRequire(import.meta.url);
const oniguruma: typeof import('vscode-oniguruma') = require('vscode-oniguruma');
const textmate: typeof import('vscode-textmate') = require('vscode-textmate');

/** What each piece of text is coloured as; the same table as the eye reads it. */
const TABLE: readonly (readonly [text: string, scope: string])[] = [
  ['use', 'keyword.control.import.pickup'],
  ['"parts/stock.pickup"', 'string.quoted.double.pickup'],
  ['# the shelf', 'comment.line.number-sign.pickup'],
  ['bobbin', 'storage.type.block.pickup'],
  ['low-six', 'entity.name.type.pickup'],
  ['like', 'keyword.other.like.pickup'],
  ['tall-six', 'entity.other.inherited-class.pickup'],
  ['pole', 'support.type.property-name.pickup'],
  ['screw', 'constant.language.pickup'],
  ['3.4', 'constant.numeric.pickup'],
  ['x', 'keyword.operator.size.pickup'],
  ['16', 'constant.numeric.pickup'],
  ['mm', 'keyword.other.unit.pickup'],
  ['tone', 'support.type.property-name.pickup'],
  ['4k7', 'constant.numeric.code.pickup'],
  ['±', 'keyword.operator.uncertainty.pickup'],
  ['%', 'keyword.other.unit.pickup'],
  ['with', 'keyword.other.pickup'],
  ['nF', 'keyword.other.unit.pickup'],
  ['2026-10-02', 'constant.numeric.date.pickup'],
  ['ohm/m', 'keyword.other.unit.pickup'],
  ['potting/too-hot', 'constant.other.finding.pickup'],
  ['bridge.slug', 'variable.other.path.pickup'],
  ['parallel', 'keyword.operator.word.pickup'],
  ['violet', 'variable.other.pickup'],
  ['60,0', 'invalid.illegal.number.pickup'],
];

const SPEC = `use "parts/stock.pickup"
bobbin low-six like tall-six { # the shelf
  pole screw steel 3.4x16 mm
}
  tone 4k7 ± 20 % audio with 22 nF
  made 2026-10-02
  measures 5.52 ohm/m at 20 degC
  accept potting/too-hot
  2 "split" bridge.slug parallel middle
  hot violet
  core 60,0 x 5.8 mm
`;

const GRAMMARS: Readonly<Record<string, string>> = {
  'source.pickup': 'client/syntaxes/pickup.tmLanguage.json',
  'markdown.pickup.codeblock': 'client/syntaxes/pickup-in-markdown.tmLanguage.json',
};
/** Stands for the editor's own grammar of Markdown, into which ours is injected. */
const MARKDOWN = JSON.stringify({
  scopeName: 'text.html.markdown',
  patterns: [{ include: 'markdown.pickup.codeblock' }],
});

interface Token {
  readonly text: string;
  readonly scope: string;
}

describe('the colours of text', () => {
  let tokens: readonly Token[] = [];
  let inMarkdown: readonly Token[] = [];

  before(async () => {
    const wasm = readFileSync(require.resolve('vscode-oniguruma/release/onig.wasm'));
    await oniguruma.loadWASM(wasm);
    const registry = new textmate.Registry({
      onigLib: Promise.resolve({
        createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
        createOnigString: (text) => new oniguruma.OnigString(text),
      }),
      loadGrammar: async (scope) => {
        const path = GRAMMARS[scope];
        return textmate.parseRawGrammar(path === undefined ? MARKDOWN : readFileSync(path, 'utf8'), path ?? 'md.json');
      },
    });
    const tokensOf = async (scopeName: string, text: string): Promise<readonly Token[]> => {
      const grammar = await registry.loadGrammar(scopeName);
      assert.ok(grammar);
      let stack = textmate.INITIAL;
      return text.split('\n').flatMap((line) => {
        const result = grammar.tokenizeLine(line, stack);
        stack = result.ruleStack;
        return result.tokens.map(({ startIndex, endIndex, scopes }) => ({
          text: line.slice(startIndex, endIndex),
          scope: scopes.at(-1) ?? '',
        }));
      });
    };
    tokens = await tokensOf('source.pickup', SPEC);
    inMarkdown = await tokensOf(
      'text.html.markdown',
      'turns 1\n```pickup\ncoil main {\n  turns 5_000\n}\n```\nturns 2\n',
    );
  });

  it('in a fence of Markdown are those of a spec, and end with it', () => {
    const scopesOf = (text: string) =>
      inMarkdown.filter((token) => token.text.trim() === text).map(({ scope }) => scope);
    assert.deepEqual(scopesOf('coil'), ['storage.type.block.pickup']);
    assert.deepEqual(scopesOf('5_000'), ['constant.numeric.pickup']);
    assert.deepEqual(scopesOf('turns'), ['support.type.property-name.pickup']);
    for (const outside of ['turns 1', 'turns 2']) assert.deepEqual(scopesOf(outside), ['text.html.markdown']);
  });

  for (const [text, scope] of TABLE) {
    it(`${text} is ${scope}`, () => {
      const found = tokens.filter((token) => token.text.trim() === text).map((token) => token.scope);
      const asString = text.startsWith('"');
      assert.ok(
        asString ? tokens.some((token) => token.scope === scope && text.includes(token.text)) : found.includes(scope),
        `found ${found}`,
      );
    });
  }

  it('colours a number and its unit apart in every unit that the language has', () => {
    const grammar = readFileSync('client/syntaxes/pickup.tmLanguage.json', 'utf8');
    for (const unit of ['kohm', 'kΩ', '°C', 'µF', 'AWG', 'kA\\\\/m']) assert.ok(grammar.includes(unit), unit);
  });
});
