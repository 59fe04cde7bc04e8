import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { closeAll, eventually, extensionInterface, openSample } from './in-editor.ts';

// Runs where the editor says that it is in German, see index-web.ts.
describe('in German', () => {
  after(closeAll);

  it('the words of the client arrive in the web worker, and those of the server in its drawings and readings', async () => {
    assert.equal(vscode.env.language, 'de');
    const { benchView } = await extensionInterface();
    await openSample('foundling.pickup');
    await vscode.commands.executeCommand('pickup.openBenchViewToSide');
    const shown = await eventually(() => benchView.shown());
    assert.match(shown.drawing.svg ?? '', />Saitensignal addiert sich</);
    const { caption } = await eventually(() => benchView.section('numbers'));
    assert.match(caption, /^Werte/);
    const tabs = vscode.window.tabGroups.all.flatMap((group) => group.tabs.map(({ label }) => label));
    assert.ok(tabs.includes('Werkbank: Foundling, without papers'), tabs.join(', '));
  });
});
