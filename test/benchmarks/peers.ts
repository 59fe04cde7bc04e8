/**
 * Public language servers that the folder named by LSP_PEERS has installed, to be measured beside ours: without them a number says
 * nothing of another computer. Their texts hold blocks of seven lines and one mistake.
 */
import { existsSync } from 'node:fs';
import path from 'node:path';
import type { Measurable } from './measured-server.ts';

const BIN = path.join(process.env.LSP_PEERS ?? '', 'node_modules', 'vscode-langservers-extracted', 'bin');

export const peers = (): readonly Measurable[] =>
  process.env.LSP_PEERS === undefined ? [] : [JSON_PEER, CSS_PEER].filter(({ program }) => existsSync(program));

function repeated(lines: number, block: (index: number) => string, digit: string, word: string) {
  const count = Math.max(2, Math.round(lines / 7));
  const blocks = Array.from({ length: count }, (_, index) => block(index));
  const text = blocks.join('');
  const middle = text.indexOf(block(count >> 1));
  return { text, digit: text.indexOf(digit, middle) + digit.length, word: text.indexOf(word, middle) + 2 };
}

const JSON_PEER: Measurable = {
  name: 'JSON',
  program: path.join(BIN, 'vscode-json-language-server'),
  languageId: 'json',
  ending: '.json',
  text: (lines) => {
    const block = (index: number) =>
      `  {\n    "id": "part${index}",\n    "kind": "coil",\n    "turns": 5${index},\n    "wire": { "gauge": 42 },\n    "up": ${index === 1 ? "'north'" : '"north"'}\n  },\n`;
    const { text, digit, word } = repeated(lines, block, '"turns": 5', '"turns"');
    const head = '{ "parts": [\n';
    return { text: `${head}${text}  {}\n]}\n`, digit: head.length + digit, word: head.length + word };
  },
};

const CSS_PEER: Measurable = {
  name: 'CSS',
  program: path.join(BIN, 'vscode-css-language-server'),
  languageId: 'css',
  ending: '.css',
  settings: { validate: true, lint: {}, hover: {} },
  text: (lines) =>
    repeated(
      lines,
      (index) =>
        `.part${index} > a:hover {\n  color: #ff0000;\n  ${index === 1 ? 'colr' : 'margin'}: 5${index}px 0;\n  border: 1px solid red;\n  width: calc(100% - 2px);\n  transition: all .3s;\n}\n`,
      'margin: 5',
      'color',
    ),
};
