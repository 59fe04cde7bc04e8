import assert from 'node:assert/strict';
import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { contextOf, LESSON_STEPS } from '../../client/src/features/lesson/lesson-steps.ts';
import { createAnalyser } from '../../server/src/analysis/analysis.ts';
import { check } from '../../server/src/cli/check.ts';
import { Shell } from '../cli/shell.ts';
import { bundles } from '../scripts/build.ts';

const root = path.resolve(import.meta.dirname, '..', '..');

describe('manifest', () => {
  const text = read('package.json');
  const manifest = asRecord(JSON.parse(text));
  const strings = asRecord(JSON.parse(read('package.nls.json')));
  const contributes = asRecord(manifest.contributes);
  const commands = asRecords(contributes.commands);
  const commandIds = commands.map((command) => String(command.command));

  it('takes every text for people from package.nls.json, and that file holds no text that nobody uses', () => {
    const used = [...text.matchAll(/%([\w.]+)%/g)].map((match) => match[1] ?? '');
    assert.deepEqual([...new Set(used)].sort(), Object.keys(strings).sort());
    for (const [key, value] of Object.entries(strings)) assert.notEqual(String(value).trim(), '', key);
  });

  it('says everything in German, too, with the same commands and words of the language in it', () => {
    const german = asRecord(JSON.parse(read('package.nls.de.json')));
    assert.deepEqual(Object.keys(german).sort(), Object.keys(strings).sort());
    const fixed = (value: unknown): readonly string[] =>
      (String(value).match(/\(command:[^)]+\)|`[^`]+`|\d+\.\d+ kohm/g) ?? []).toSorted();
    for (const [key, value] of Object.entries(strings)) {
      assert.deepEqual(fixed(german[key]), fixed(value), key);
      if (key !== 'displayName') assert.notEqual(german[key], value, key);
    }
    const bundle = path.join(root, String(manifest.l10n), 'bundle.l10n.de.json');
    assert.ok(existsSync(bundle), bundle);
  });

  it('names only files that exist or that the build makes', () => {
    const built = bundles.map((bundle) => `./${bundle.output}`);
    const programs = Object.values(asRecord(manifest.bin)).map(String);
    for (const file of [manifest.main, manifest.browser, ...programs].map(String)) {
      assert.ok(built.includes(file), `${file} is not an output of the build`);
    }
    const executable = bundles.filter((bundle) => bundle.executable === true).map((bundle) => `./${bundle.output}`);
    assert.deepEqual(programs.toSorted(), executable.toSorted());
    const language = asRecord(asRecords(contributes.languages)[0]);
    const icon = asRecord(language.icon);
    const steps = asRecords(asRecord(asRecords(contributes.walkthroughs)[0]).steps);
    const grammars = asRecords(contributes.grammars);
    for (const file of [
      manifest.icon,
      language.configuration,
      icon.light,
      icon.dark,
      ...grammars.map((grammar) => grammar.path),
      ...steps.flatMap((step) => Object.values(asRecord(asRecord(step.media).image))),
    ].map(String)) {
      assert.ok(existsSync(path.join(root, file)), `${file} does not exist`);
    }
  });

  it('gives every command a title, a category and a name of our own, once', () => {
    for (const command of commands) {
      assert.match(String(command.command), /^pickup\.[a-z][A-Za-z]+$/);
      assert.match(String(command.title), /^%command\.\w+%$/);
      assert.equal(command.category, '%category%');
    }
    assert.equal(new Set(commandIds).size, commandIds.length);
  });

  it('offers in menus, keys and the walkthrough only commands that it has', () => {
    const entries = Object.values(asRecord(contributes.menus)).flatMap(asRecords);
    const named = [
      ...entries.flatMap((entry) => [entry.command, entry.alt]),
      ...asRecords(contributes.keybindings).map((binding) => binding.command),
      ...[...JSON.stringify(strings).matchAll(/\(command:(pickup\.[\w.]+)\)/g)].map((match) => match[1]),
      ...[...text.matchAll(/onCommand:(pickup\.[\w.]+)/g)].map((match) => match[1]),
    ].filter((command) => command !== undefined);
    assert.ok(named.length > 0);
    for (const command of named) assert.ok(commandIds.includes(String(command)), `${String(command)} is no command`);
  });

  it('says for every menu and key when it applies', () => {
    const menus = Object.entries(asRecord(contributes.menus));
    // A file may be begun at any time.
    const entries = menus.filter(([menu]) => menu !== 'file/newFile').flatMap(([, each]) => asRecords(each));
    for (const entry of [...entries, ...asRecords(contributes.keybindings)]) {
      // The source control view sets no key of the file: there the command itself looks at it.
      assert.match(String(entry.when), /pickup|workspaceFolderCount|^scmProvider == git$/, String(entry.command));
    }
  });

  it('describes every setting, with its scope and its default, in a group with a title', () => {
    const groups = asRecords(contributes.configuration);
    const settings = groups.flatMap((group) => Object.entries(asRecord(group.properties)));
    for (const group of groups) assert.match(String(group.title), /^%configuration\.\w+%$/);
    for (const [name, value] of settings) {
      const setting = asRecord(value);
      assert.match(name, /^pickup\./);
      assert.match(String(setting.markdownDescription), /^%setting\.[\w.]+%$/, name);
      // What goes beyond the own machine no workspace may switch on.
      const scopes = name.includes('languageModel') ? ['application'] : ['resource', 'window'];
      assert.ok(scopes.includes(String(setting.scope)), `${name} has no scope, or too wide a one`);
      assert.notEqual(setting.default, undefined, `${name} has no default`);
    }
  });

  it('gives every step of the walkthrough words for its picture and the event that completes it', () => {
    for (const walkthrough of asRecords(contributes.walkthroughs)) {
      for (const step of asRecords(walkthrough.steps)) {
        assert.match(String(asRecord(step.media).altText), /^%walkthrough\.\w+\.alt%$/);
      }
    }
    const [lesson] = asRecords(contributes.walkthroughs);
    assert.deepEqual(
      asRecords(lesson?.steps).map(({ id, completionEvents }) => [id, completionEvents]),
      LESSON_STEPS.map((step) => [step, [`onContext:${contextOf(step)}`]]),
    );
  });

  it('wakes up for its own language, its own pages and a folder that holds specs only, and works without trust and without a disk', () => {
    assert.deepEqual(manifest.activationEvents, [
      'onWebviewPanel:pickup.benchView',
      'onWebviewPanel:pickup.explanation',
      'workspaceContains:**/*.pickup',
    ]);
    const capabilities = asRecord(manifest.capabilities);
    assert.equal(asRecord(capabilities.untrustedWorkspaces).supported, true);
    assert.equal(capabilities.virtualWorkspaces, true);
  });

  it('finds place, severity, code and message in what the command line prints', async () => {
    const shell = new Shell([check], createAnalyser());
    shell.write('wires/thin.pickup', 'wire thin {\n  gauge 43\n}\n');
    const { stdout } = await shell.run(['check']);
    shell.remove();
    const [first = {}, second = {}] = asRecords(asRecord(asRecords(contributes.problemMatchers)[0]).pattern);
    const lines = stdout.split('\n');
    const at = lines.findIndex((line) => new RegExp(String(first.regexp)).test(line));
    const found = new RegExp(String(first.regexp)).exec(lines[at] ?? '');
    assert.deepEqual(
      ['file', 'line', 'column', 'severity', 'code'].map((part) => found?.[Number(first[part])]),
      ['wires/thin.pickup', '2', '9', 'error', 'unit/missing'],
    );
    const message = new RegExp(String(second.regexp)).exec(lines[at + 1] ?? '')?.[Number(second.message)];
    assert.match(String(message), /^A wire size needs its unit|^\S.*43/);
  });

  it('carries an icon of at least 128 pixels each way', () => {
    const png = readFileSync(path.join(root, String(manifest.icon)));
    // Width and height are the first two words of the first chunk (PNG specification, IHDR).
    assert.equal(png.toString('latin1', 12, 16), 'IHDR');
    assert.ok(png.readUInt32BE(16) >= 128 && png.readUInt32BE(20) >= 128);
  });
});

describe('language configuration', () => {
  const configuration = asRecord(JSON.parse(read('client/language-configuration.json')));

  it('takes a name as one word, whatever the alphabet, and a number with its separators', () => {
    const { pattern, flags } = asRecord(configuration.wordPattern);
    const words = 'coil Brückenspule-2 { turns 5_000 # 7.8'.match(new RegExp(String(pattern), `g${String(flags)}`));
    assert.deepEqual(words, ['coil', 'Brückenspule-2', 'turns', '5_000', '7.8']);
  });

  const increase = new RegExp(String(asRecord(configuration.indentationRules).increaseIndentPattern));
  for (const [line, indents] of [
    ['coil slug {', true],
    ['pickup heron "Heron, bridge" {   # rebuilt', true],
    ['  note "an open { in a text"', false],
    ['# coil slug {', false],
    ['  like short { turns 5_000 }', false],
  ] as const) {
    it(`${indents ? 'indents' : 'does not indent'} after: ${line}`, () => assert.equal(increase.test(line), indents));
  }
});

function read(file: string): string {
  return readFileSync(path.join(root, file), 'utf8');
}

function asRecord(value: unknown): Record<string, unknown> {
  assert.ok(typeof value === 'object' && value !== null, `not an object: ${JSON.stringify(value)}`);
  return value as Record<string, unknown>;
}

function asRecords(value: unknown): Record<string, unknown>[] {
  assert.ok(Array.isArray(value), `not a list: ${JSON.stringify(value)}`);
  return value.map(asRecord);
}
