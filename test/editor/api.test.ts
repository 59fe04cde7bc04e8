import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import type { PickupSpecApi } from '../../client/src/api.ts';
import { closeAll, openText, replace } from './in-editor.ts';

describe('what the extension offers to others', () => {
  afterEach(closeAll);

  const api = async (): Promise<PickupSpecApi> => {
    const extension = vscode.extensions.getExtension<PickupSpecApi>('pickup-spec.pickup-spec');
    assert.ok(extension, 'the editor does not know the extension');
    return extension.activate();
  };
  const uriOf = (path: string): vscode.Uri => {
    const [folder] = vscode.workspace.workspaceFolders ?? [];
    assert.ok(folder, 'no workspace');
    return vscode.Uri.joinPath(folder.uri, path);
  };

  it('a check and a report of a spec that nobody has opened', async () => {
    const { apiVersion, check, report } = await api();
    assert.equal(apiVersion, 1);
    const { findings } = await check(uriOf('mistakes/unit-missing.pickup'));
    assert.deepEqual(
      findings.map(({ code, severity, range }) => [code, severity, range.start.line]),
      [['unit/missing', 'error', 21]],
    );
    const { subjects } = await report(uriOf('cinder-bridge.pickup'));
    assert.deepEqual(
      subjects.map(({ kind, name }) => [kind, name]),
      [['pickup', 'cinder-bridge']],
    );
    assert.ok(subjects[0]?.tables[0]?.rows.some(({ value }) => value.includes('±')));
  });

  it('what lies outside of the open folders is not read, and it says so', async () => {
    const { check, report } = await api();
    const outside = uriOf('../outside.pickup');
    assert.match((await check(outside)).problem ?? '', /outside/);
    assert.match((await report(outside)).problem ?? '', /outside/);
  });

  it('tells when the findings of a spec have changed', async () => {
    const { onDidChangeFindings } = await api();
    const editor = await openText('told.pickup', 'wire thin {\n  gauge 43 AWG\n}\n');
    const told = new Promise<void>((resolve) => {
      const listening = onDidChangeFindings((uris) => {
        if (!uris.some((uri) => uri.toString() === editor.document.uri.toString())) return;
        listening.dispose();
        resolve();
      });
    });
    await replace(editor, '43 AWG', '43');
    await told;
  });
});
