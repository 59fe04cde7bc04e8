import assert from 'node:assert/strict';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { bundles, NOTICES, type Written, writeBundles } from '../scripts/build.ts';
import { bundledPackages, noticesText } from '../scripts/notices.ts';
import { packagedFiles } from '../scripts/packaged-files.ts';

const ROOT = path.resolve(import.meta.dirname, '..', '..');

describe('the package', () => {
  let folder = '';
  let written: ReadonlyMap<string, Written>;
  const built = async (name: string) => {
    const list = bundles.map((bundle) => ({
      ...bundle,
      output: path.relative(ROOT, path.join(folder, name, bundle.output)),
    }));
    return writeBundles(list, ROOT);
  };
  before(async () => {
    folder = mkdtempSync(path.join(tmpdir(), 'package-'));
    written = await built('one');
  });
  after(() => rmSync(folder, { recursive: true, force: true }));

  const inThemes = (step: string) =>
    ['dark', 'hc', 'hcLight', 'light'].map((theme) => `client/walkthrough/${step}-${theme}.svg`);

  it('holds these files and no others', () => {
    const made = [...bundles.map(({ output }) => output), NOTICES];
    const files = packagedFiles(ROOT).filter((file) => !file.startsWith('dist/'));
    assert.deepEqual(files, [
      'CHANGELOG.md',
      'LICENSE',
      'README.md',
      'client/icon-bench-dark.svg',
      'client/icon-bench-light.svg',
      'client/icon-dark.svg',
      'client/icon-finding-dark.svg',
      'client/icon-finding-light.svg',
      'client/icon-light.svg',
      'client/icon.png',
      'client/l10n/bundle.l10n.de.json',
      'client/language-configuration.json',
      'client/pictures/bench-view.png',
      'client/pictures/finding.png',
      'client/pictures/instrument.png',
      'client/syntaxes/pickup-in-markdown.tmLanguage.json',
      'client/syntaxes/pickup.tmLanguage.json',
      ...['compare', 'keep'].flatMap(inThemes),
      'client/walkthrough/lesson.pickup',
      ...['look', 'mend', 'open', 'read', 'why'].flatMap(inThemes),
      'package.json',
      'package.nls.de.json',
      'package.nls.json',
    ]);
    const lines = readFileSync(path.join(ROOT, '.vscodeignore'), 'utf8').split('\n');
    const brought = lines.filter((line) => line.startsWith('!dist/')).map((line) => line.slice(1));
    const takes = (pattern: string, file: string): boolean =>
      path.posix.dirname(pattern) === path.posix.dirname(file) &&
      (pattern === file || pattern.endsWith(`*${path.posix.extname(file)}`));
    for (const file of made)
      assert.ok(
        brought.some((pattern) => takes(pattern, file)),
        `${file} is left out`,
      );
    for (const pattern of brought)
      assert.ok(
        made.some((file) => takes(pattern, file)),
        `${pattern} brings nothing`,
      );
  });

  it('tells the licence of everything that is bundled, in its own words', () => {
    const packages = bundledPackages([...written.values()], ROOT);
    const names = packages.map(({ name }) => name);
    const { dependencies } = JSON.parse(readFileSync(path.join(ROOT, 'package.json'), 'utf8')) as {
      readonly dependencies: Readonly<Record<string, string>>;
    };
    for (const name of Object.keys(dependencies)) assert.ok(names.includes(name), name);
    const text = noticesText(packages);
    for (const { name, version, licence, text: own } of packages) {
      assert.ok(text.includes(`${name} ${version}, ${licence}\n`), name);
      assert.match(own, /copyright|Apache License|Blue Oak/i, name);
      assert.ok(own.length > 500, `${name}: the terms themselves, not only their name`);
    }
  });

  it('refuses a package that brings no words of its licence', () => {
    const inputs = { 'test/client/node_modules/none/index.js': { bytes: 1, imports: [] } };
    assert.throws(() => bundledPackages([{ metafile: { inputs, outputs: {} } }], ROOT), /none/);
  });

  it('has the same bytes from two builds', async () => {
    await built('two');
    for (const { output } of bundles) {
      const [one, two] = ['one', 'two'].map((name) => readFileSync(path.join(folder, name, output)));
      assert.ok(one && two && one.equals(two), output);
    }
    const names = readdirSync(path.join(folder, 'one', 'dist'), { recursive: true });
    assert.deepEqual(readdirSync(path.join(folder, 'two', 'dist'), { recursive: true }), names);
  });

  it('names no folder of the machine that built it', () => {
    for (const { output } of bundles) {
      const text = readFileSync(path.join(folder, 'one', output), 'utf8');
      assert.ok(!text.includes(ROOT) && !text.includes(folder), output);
    }
  });
});
