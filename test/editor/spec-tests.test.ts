import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { closeAll, eventually, extensionInterface, openSample, replace } from './in-editor.ts';

type Result = NonNullable<ReturnType<Awaited<ReturnType<typeof extensionInterface>>['specTests']['last']>>;

describe('specs as tests in the editor', () => {
  afterEach(closeAll);

  const uriOf = (path: string): vscode.Uri => {
    const [folder] = vscode.workspace.workspaceFolders ?? [];
    assert.ok(folder, 'no workspace');
    return vscode.Uri.joinPath(folder.uri, path);
  };
  /** Runs the test of a file that is not open by the editor's own commands, which go to it folder by folder; again where that was swallowed. */
  const checked = async (path: string): Promise<Result> => {
    const { specTests } = await extensionInterface();
    const uri = uriOf(path);
    return eventually(async () => {
      // Nobody has looked at the list of tests, so it is not there yet.
      await vscode.commands.executeCommand('testing.refreshTests');
      await vscode.commands.executeCommand('testing.runCurrentFile', [uri]);
      return specTests.last(uri.toString());
    });
  };

  it('of the file in front is found by the editor’s own command, though nobody has looked at the list', async () => {
    const { specTests } = await extensionInterface();
    const { document } = await openSample('mistakes/unit-missing.pickup');
    const { outcome } = await eventually(async () => {
      await vscode.commands.executeCommand('testing.runCurrentFile');
      return specTests.last(document.uri.toString());
    });
    assert.equal(outcome, 'failed');
  });

  it('one with an error fails with its finding, at its place', async () => {
    const { outcome, messages } = await checked('mistakes/unit-missing.pickup');
    assert.equal(outcome, 'failed');
    assert.equal(messages.length, 1);
    const [{ message, location } = {}] = messages;
    assert.match(String(message), /\[unit\/missing\]$/);
    const { document } = await openSample('mistakes/unit-missing.pickup');
    assert.equal(location?.uri.toString(), document.uri.toString());
    assert.equal(document.getText(location?.range), '7.3');
  });

  it('a clean one passes, and rests on the parts that it uses', async () => {
    const { outcome, messages, output, uris } = await checked('cinder-bridge.pickup');
    assert.deepEqual([outcome, messages, output], ['passed', [], []]);
    assert.ok([...uris].some((uri) => uri.endsWith('/shop.pickup')));
  });

  it('a warning does not fail it, and stands in the output', async () => {
    const { outcome, output } = await checked('mistakes/photo-missing.pickup');
    assert.equal(outcome, 'passed');
    assert.match(
      output.map(({ text }) => text).join('\n'),
      /photo-missing\.pickup:\d+:\d+: warning: .* \[photo\/missing\]$/,
    );
  });

  it('in a continuous run a save checks the file again, and those that use it', async () => {
    const { specTests } = await extensionInterface();
    const last = (path: string) => specTests.last(uriOf(path).toString());
    const user = 'mistakes/unit-missing.pickup';
    const before = await checked(user);
    await vscode.commands.executeCommand('testing.startContinuousRun');
    try {
      const first = await eventually(() => (last(user) === before ? undefined : last(user)));
      await eventually(() => last('shop.pickup'));
      const editor = await openSample('shop.pickup');
      const mistake = 'nobody reads this\n';
      assert.ok(await editor.edit((edit) => edit.insert(new vscode.Position(0, 0), mistake)));
      await editor.document.save();
      await eventually(() => last('shop.pickup')?.outcome === 'failed' || undefined);
      await eventually(() => last(user) !== first || undefined);
      await replace(editor, mistake, '');
      await editor.document.save();
      await eventually(() => last('shop.pickup')?.outcome === 'passed' || undefined);
    } finally {
      await vscode.commands.executeCommand('testing.stopContinuousRun');
    }
  });
});
