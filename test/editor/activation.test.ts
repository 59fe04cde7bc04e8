import assert from 'node:assert/strict';
import * as vscode from 'vscode';

describe('the extension in the editor', () => {
  const extension = (): vscode.Extension<unknown> => {
    const found = vscode.extensions.getExtension('pickup-spec.pickup-spec');
    assert.ok(found, 'the editor does not know the extension');
    return found;
  };

  it('wakes up when a spec is opened', async () => {
    const folder = vscode.workspace.workspaceFolders?.[0]?.uri;
    assert.ok(folder, 'no folder is open');
    const names = (await vscode.workspace.fs.readDirectory(folder)).map(([name]) => name);
    const spec = names.find((name) => name.endsWith('.pickup'));
    assert.ok(spec, 'no spec in the folder');
    const document = await vscode.workspace.openTextDocument(vscode.Uri.joinPath(folder, spec));
    await vscode.window.showTextDocument(document);
    assert.equal(document.languageId, 'pickup');
    await extension().activate();
    assert.equal(extension().isActive, true);
  });

  it('has a handler for every command that the manifest offers', async () => {
    await extension().activate();
    const handled = await vscode.commands.getCommands(true);
    const offered: { command: string }[] = extension().packageJSON.contributes.commands;
    assert.ok(offered.length > 0);
    const missing = offered.map(({ command }) => command).filter((command) => !handled.includes(command));
    assert.deepEqual(missing, []);
  });
});
