import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { closeAll, codeOf, eventually } from './in-editor.ts';

describe('tasks in the editor', () => {
  afterEach(closeAll);

  it('checks the specs of the folder, ends as the command line does, and what is found stands among the problems', async () => {
    const offered = await vscode.tasks.fetchTasks({ type: 'pickup' });
    assert.deepEqual(offered.map(({ name }) => name).sort(), ['check', 'check the open file']);
    const task = offered.find(({ name }) => name === 'check');
    assert.ok(task);
    const ended = new Promise<number | undefined>((resolve) => {
      const listening = vscode.tasks.onDidEndTaskProcess(({ exitCode }) => {
        listening.dispose();
        resolve(exitCode);
      });
    });
    await vscode.tasks.executeTask(task);
    assert.equal(await ended, 1);
    const [folder] = vscode.workspace.workspaceFolders ?? [];
    assert.ok(folder);
    // Nobody has opened it: what is told of it comes by the task.
    const uri = vscode.Uri.joinPath(folder.uri, 'mistakes/unit-wrong.pickup');
    const found = await eventually(() => {
      const all = vscode.languages.getDiagnostics(uri);
      return all.length > 0 ? all : undefined;
    });
    assert.deepEqual(found.map(codeOf), ['unit/wrong']);
  });
});
