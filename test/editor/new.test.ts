import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { closeAll, codeOf, eventually, extensionInterface, findings } from './in-editor.ts';

describe('a new spec in the editor', () => {
  afterEach(closeAll);

  it('is written from the answers, opened beside its drawing, and waits for readings only', async () => {
    const { benchView } = await extensionInterface();
    await vscode.commands.executeCommand('pickup.newPickup', {
      what: 'pickup',
      title: 'Begun here',
      strings: 6,
      coils: 2,
      positions: ['bridge'],
      leads: ['grey', 'violet', 'pink', 'turquoise'],
      parts: { kind: 'described', gauge: 42 },
    });
    const document = await eventually(async () =>
      vscode.workspace.textDocuments.find(({ uri }) => /begun-here(-\d+)?\.pickup$/.test(uri.path)),
    );
    const found = await findings(document, (codes) => codes.length > 0);
    assert.deepEqual([...new Set(found.map(codeOf))], ['winding/turns-unknown']);
    await eventually(() => (benchView.shown()?.drawing.uri === document.uri.toString() ? true : undefined));
    await vscode.workspace.fs.delete(document.uri);
  });
});
