import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { againUntil, eventually, extensionInterface } from './in-editor.ts';
import { type EditorWindow, openWindow } from './window.ts';

describe('tools for language models in the editor', () => {
  let seen: EditorWindow;
  before(async () => {
    seen = await openWindow();
    await extensionInterface();
  });
  after(() => seen.close());

  const settings = () => vscode.workspace.getConfiguration('pickup');
  const allow = (isAllowed: boolean | undefined) =>
    settings().update('languageModelTools.enabled', isAllowed, vscode.ConfigurationTarget.Global);
  /** True where the editor knows nobody who does it. */
  const isRefused = (name: string): Promise<boolean> =>
    Promise.resolve(
      vscode.lm.invokeTool(name, { input: { code: 'unit/missing' }, toolInvocationToken: undefined }),
    ).then(
      () => false,
      () => true,
    );
  /** Somebody looks at what is asked, where it is asked, and lets it. */
  const asked = async (name: string, input: object): Promise<string> => {
    let isDone = false;
    const result = vscode.lm.invokeTool(name, { input, toolInvocationToken: undefined }).then((each) => {
      isDone = true;
      return each;
    });
    const dialog = seen.page.locator('.monaco-dialog-box');
    await againUntil(
      (patience) => Promise.race([dialog.locator('.monaco-button').first().click(patience), result]),
      () => isDone,
    );
    const parts = (await result).content;
    return parts.map((part) => (part instanceof vscode.LanguageModelTextPart ? part.value : '')).join('');
  };

  it('are off until they are allowed; then they read, each use asked for first', async () => {
    assert.equal(await isRefused('pickup_explain'), true);
    await allow(true);
    try {
      assert.match(
        await asked('pickup_check', { file: 'mistakes/unit-missing.pickup' }),
        /^mistakes\/unit-missing\.pickup: 1 finding\.\nline 22: error unit\/missing: /,
      );
      assert.match(await asked('pickup_check', { file: '../../etc/passwd' }), /^There is no spec /);
      assert.match(await asked('pickup_report', { file: 'cinder-bridge.pickup' }), /± is one standard deviation/);
      assert.match(await asked('pickup_explain', { code: 'unit/missing' }), /^unit\/missing/);
      assert.match(await asked('pickup_list', { where: 'serial RYD-014' }), /^hesk-neck, Hesk, neck \(/);
    } finally {
      await allow(undefined);
    }
    await eventually(async () => ((await isRefused('pickup_explain')) ? true : undefined));
  });
});
