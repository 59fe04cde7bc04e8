/**
 * Packages the extension, and runs the in-editor tests on what a person would install: installed into the editor, on Node; and unpacked,
 * in a web worker, where the editor at hand takes no package.
 */
import assert from 'node:assert/strict';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { unzip } from '../host/unzip.ts';
import { packagedFiles } from './packaged-files.ts';
import { root, runStep } from './steps.ts';

process.exitCode = await testPackage();

async function testPackage(): Promise<number> {
  const packaged = await runStep({ name: 'package', script: 'test/scripts/package.ts' });
  if (packaged.exitCode !== 0) return packaged.exitCode;
  const scratch = mkdtempSync(path.join(tmpdir(), 'package-'));
  try {
    const vsix = path.join(root, 'dist', 'pickup-spec.vsix');
    const names = unzip(vsix, scratch);
    const packaged = names.flatMap((name) => (name.startsWith('extension/') ? [name.slice('extension/'.length)] : []));
    console.log(`${packaged.length} files in the package`);
    // The packaging tool writes these three under other names, or letters.
    const plain = (files: readonly string[]) =>
      files.map((file) => file.toLowerCase().replace(/^license\.txt$/, 'license'));
    assert.deepEqual(plain(packaged).sort(), plain(packagedFiles(root)).sort());
    for (const env of [
      { INSTALLED_PACKAGE: vsix, EDITOR_FLAVOUR: 'desktop', VSCODE_EXECUTABLE: '' },
      { EXTENSION_FOLDER: path.join(scratch, 'extension'), EDITOR_FLAVOUR: 'web', VSCODE_EXECUTABLE: '' },
    ]) {
      const tested = await runStep({ name: env.EDITOR_FLAVOUR, script: 'test/editor/run.ts', env });
      if (tested.exitCode !== 0) return tested.exitCode;
    }
    return 0;
  } finally {
    rmSync(scratch, { recursive: true, force: true });
  }
}
