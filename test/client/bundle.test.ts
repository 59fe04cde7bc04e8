import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { type Bundle, writeBundles } from '../scripts/build.ts';

describe('bundles', () => {
  let root = '';
  beforeEach(() => {
    root = mkdtempSync(path.join(tmpdir(), 'bundle-'));
  });
  afterEach(() => rmSync(root, { recursive: true, force: true }));

  const write = (file: string, text: string): void => {
    mkdirSync(path.dirname(path.join(root, file)), { recursive: true });
    writeFileSync(path.join(root, file), text);
  };

  it('a command starts from a shell, brings its pages along as text and has a source map', async () => {
    write('page.md', '# Hum adds');
    write('main.ts', "import page from './page.md';\nconst title: string = page;\nconsole.log(title);");
    const command: Bundle = { entry: 'main.ts', output: 'out/tool.cjs', runsIn: 'node', executable: true };
    const written = await writeBundles([command], root);

    const output = readFileSync(path.join(root, command.output), 'utf8');
    assert.match(output, /^#!\/usr\/bin\/env node\n/);
    assert.match(output, /\/\/# sourceMappingURL=tool\.cjs\.map\s*$/);
    assert.equal(written.get(command.output)?.bytes, Buffer.byteLength(output));
    assert.equal(spawnSync(path.join(root, command.output), { encoding: 'utf8' }).stdout, '# Hum adds\n');
  });

  it('code for the editor asks the editor for its interface; code for the browser asks for nothing', async () => {
    write('extension.ts', "import * as vscode from 'vscode';\nexport const version = vscode.version;");
    write('view.ts', "document.title = 'Bench';");
    await writeBundles(
      [
        { entry: 'extension.ts', output: 'extension.cjs', runsIn: 'extension host' },
        { entry: 'extension.ts', output: 'extension-web.cjs', runsIn: 'web extension host' },
        { entry: 'view.ts', output: 'view.js', runsIn: 'browser' },
      ],
      root,
    );
    assert.match(readFileSync(path.join(root, 'extension.cjs'), 'utf8'), /require\("vscode"\)/);
    assert.match(readFileSync(path.join(root, 'extension-web.cjs'), 'utf8'), /require\("vscode"\)/);
    assert.doesNotMatch(readFileSync(path.join(root, 'view.js'), 'utf8'), /require/);
  });

  it('a missing entry fails and is named', async () => {
    const missing: Bundle = { entry: 'nowhere.ts', output: 'nowhere.cjs', runsIn: 'node' };
    await assert.rejects(writeBundles([missing], root), /nowhere\.ts/);
  });

  it('a module of Node in code for the browser fails', async () => {
    write('view.ts', "import { readFileSync } from 'node:fs';\nconsole.log(readFileSync('a'));");
    await assert.rejects(writeBundles([{ entry: 'view.ts', output: 'view.js', runsIn: 'browser' }], root), /node:fs/);
  });
});
