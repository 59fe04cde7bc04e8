/** What the README shows is so: its specs read without a fault, its commands, scripts, pictures and links are there. */
import assert from 'node:assert/strict';
import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import manifest from '../package.json' with { type: 'json' };
import { commands } from '../server/src/cli/commands.ts';
import { readServerOptions } from '../server/src/lsp/server-options.ts';
import { analyse, findingLines } from './support/check-fixture.ts';

const root = path.dirname(path.dirname(fileURLToPath(import.meta.url)));
const readme = readFileSync(path.join(root, 'README.md'), 'utf8');

describe('README', () => {
  const specs = all(/^```pickup\n([\s\S]*?)^```/gm);

  it('begins with the job, then three pictures that are there', () => {
    const pictures = all(/^!\[[^\]]{40,}\]\(([^)]+)\)$/gm);
    assert.equal(pictures.length, 3);
    for (const picture of pictures) {
      const file = readFileSync(path.join(root, picture));
      // PNG specification: the signature's letters, then the size of the picture in the first chunk.
      assert.equal(file.toString('latin1', 1, 4), 'PNG', picture);
      assert.ok(file.readUInt32BE(16) > 1000, `${picture} is too small to read`);
    }
    assert.match(readme, /^# Pickup Spec\n\nA guitar maker and repairer [\s\S]+?\n\n!\[/);
  });

  it('shows a first spec of ten lines, without a finding', () => {
    const [first = ''] = specs;
    assert.equal(first.trimEnd().split('\n').length, 10);
    assert.deepEqual(findingLines(analyse(first)), []);
  });

  it('says truly that grey in the place of violet is underlined', () => {
    const [first = ''] = specs;
    const wrong = first.replace('hot violet', 'hot grey');
    assert.notEqual(wrong, first);
    assert.ok(findingLines(analyse(wrong)).some((line) => line.includes(' error ')));
  });

  it('shows a whole spec without an error or a warning, and the words of what its swapped leads bring', () => {
    const [, whole = ''] = specs;
    const files = { 'parts/stock.pickup': readFileSync(path.join(root, 'samples/parts/stock.pickup'), 'utf8') };
    assert.deepEqual(
      findingLines(analyse(whole, files)).filter((line) => / (error|warning) /.test(line)),
      [],
    );
    const wrong = whole.replace('hot violet', 'hot grey').replace('link grey turquoise', 'link violet turquoise');
    const quoted = /_(The slug coil \([^)]*\) works against[\s\S]+?)_/.exec(readme)?.[1]?.replace(/\s+/g, ' ') ?? '';
    const told = analyse(wrong, files).findings.map(({ message }) => message.replace(/\s+/g, ' '));
    assert.ok(quoted !== '' && told.some((message) => message.includes(quoted)), told.join('\n'));
  });

  it('lists every command of the command line, once', () => {
    const rows = all(/^\| `(\w+)(?: [^`]*)?` +\| /gm);
    assert.deepEqual([...rows].sort(), commands.map(({ name }) => name).sort());
  });

  it('names only scripts of npm that there are', () => {
    const scripts = [...all(/`npm run ([\w:]+)`/g), ...all(/^npm (start|test)\b/gm)];
    assert.ok(scripts.length >= 4);
    for (const script of scripts) assert.ok(Object.hasOwn(manifest.scripts, script), script);
  });

  it('links only to files and chapters that there are', () => {
    const chapters = all(/^#+ (.+)$/gm).map(
      (title) =>
        `#${title
          .toLowerCase()
          .replace(/[^\w -]/g, '')
          .replaceAll(' ', '-')}`,
    );
    for (const link of all(/\]\(([^)]+)\)/g)) {
      const isThere = link.startsWith('#') ? chapters.includes(link) : existsSync(path.join(root, link));
      assert.ok(isThere, link);
    }
  });

  it('explains each word of the trade that its own specs join leads with, and says it once', () => {
    const words = all(/^\| ([a-z][\w, -]*?) +\| /gm).flatMap((cell) => cell.split(', '));
    for (const word of [
      'hot',
      'start',
      'finish',
      'kick',
      'split',
      'tap',
      'pole',
      'north-up',
      'hookup',
      'pot',
      'potting',
    ])
      assert.equal(words.filter((each) => each === word).length, 1, word);
  });

  it('sets up three other editors, each by a program that the package has and options that it takes', () => {
    const [, chapter = ''] = readme.split(/^## In other editors$/m);
    const setUps = [...chapter.matchAll(/^```(lua|elisp|toml)\n([\s\S]*?)^```/gm)];
    assert.deepEqual(
      setUps.map(([, language]) => language),
      ['lua', 'elisp', 'toml'],
    );
    for (const [, language, setUp = ''] of setUps) {
      const [program = '', ...options] = (
        /(["'])(pickup-spec-[\w-]+)\1[^\w]+(?:args[^\w]+)?(--[\w-]+)/.exec(setUp) ?? []
      ).slice(2);
      assert.ok(Object.hasOwn(manifest.bin, program), language);
      assert.deepEqual(readServerOptions(options, '').kind, 'serve', language);
    }
  });

  it('gives the versions that the manifest gives', () => {
    const editor = manifest.engines.vscode.replace(/^\^|\.0$/g, '');
    assert.ok(readme.includes(`VS Code ${editor} or newer`) || readme.includes(`VS Code, ${editor} or newer`), editor);
    assert.ok(readme.includes(`Version ${manifest.version}`));
    assert.ok(readme.includes(`Node ${manifest.engines.node.replace('>=', '')} or`));
  });
});

function all(pattern: RegExp): readonly string[] {
  return [...readme.matchAll(pattern)].flatMap((match) => match[1] ?? []);
}
