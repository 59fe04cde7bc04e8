import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import path from 'node:path';
import * as vscode from 'vscode';
import { closeAll, eventually, extensionInterface } from './in-editor.ts';

describe('the lesson in the editor, kept in git', () => {
  after(closeAll);

  it('begins a repository of its own, and the step is done', async () => {
    const { lesson } = await extensionInterface();
    await vscode.commands.executeCommand('pickup.openLesson');
    const file = vscode.window.activeTextEditor?.document.uri.fsPath ?? '';
    const why = await vscode.commands.executeCommand<string | undefined>('pickup.keepLesson');
    if (why !== undefined) {
      // Older editors open nothing outside of the workspace before a person allows it: they are told how.
      assert.match(why, /git\.openRepositoryInParentFolders/);
      await vscode.workspace
        .getConfiguration('git')
        .update('openRepositoryInParentFolders', 'always', vscode.ConfigurationTarget.Global);
      assert.equal(await vscode.commands.executeCommand('pickup.keepLesson'), undefined);
    }
    await eventually(() => lesson.done().includes('keep') || undefined);
    const log = execFileSync('git', ['log', '--format=%s', '--', 'lesson.pickup'], {
      cwd: path.dirname(file),
      encoding: 'utf8',
    });
    assert.equal(log, 'The pickup of the lesson, mended\n');
  });
});
