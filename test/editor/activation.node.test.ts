import assert from 'node:assert/strict';
import path from 'node:path';
import * as vscode from 'vscode';

describe('the extension that is tested', () => {
  it('lies among the editor’s own where its package was installed, and nowhere else', () => {
    const extension = vscode.extensions.getExtension('pickup-spec.pickup-spec');
    assert.ok(extension, 'the editor does not know the extension');
    const isInstalled = path.basename(extension.extensionPath) === `${extension.id}-${extension.packageJSON.version}`;
    assert.equal(isInstalled, process.env.PICKUP_SPEC_PACKAGE !== '', extension.extensionPath);
  });
});
