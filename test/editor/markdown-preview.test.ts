import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { closeAll, eventually, extensionInterface, inWords, openSample, openText } from './in-editor.ts';

/** The preview's own engine runs where the editor's Markdown extension runs: here a fence is rendered as that engine would. */
describe('specs in the preview of Markdown', () => {
  afterEach(closeAll);

  const uriOf = (path: string): vscode.Uri => {
    const [folder] = vscode.workspace.workspaceFolders ?? [];
    assert.ok(folder, 'no workspace');
    return vscode.Uri.joinPath(folder.uri, path);
  };
  /** A fence of a document, again until it is as wanted. */
  const rendered = async (path: string, text: string, wanted: (html: string) => boolean): Promise<string> => {
    const { extendMarkdownIt } = await extensionInterface();
    const { rules } = extendMarkdownIt({ renderer: { rules: { fence: () => '<pre></pre>' } } }).renderer;
    const token = { info: 'pickup', content: text, attrs: null };
    const renderer = { renderToken: () => '', renderAttrs: () => '' };
    return eventually(() => {
      const html = rules.fence?.([token], 0, {}, { currentDocument: uriOf(path) }, renderer) ?? '';
      return wanted(html) ? html : undefined;
    });
  };
  const drawn = (html: string): boolean => html.includes('pickup-current');

  it('a fence is drawn with the shop’s parts, its findings are told in words, its text folded in below', async () => {
    const { document } = await openSample('mistakes/phase-coils-cancel.pickup');
    const html = await rendered('mistakes/notes.md', document.getText(), drawn);
    assert.match(html, /<svg [^>]*class="pk"/);
    assert.match(html, /phase\/coils-cancel/);
    assert.doesNotMatch(html, /name\/unknown|use\/missing/);
    assert.match(html, /<details><summary>Spec<\/summary><pre>/);
  });

  it('a part that changes is drawn anew', async () => {
    const { document } = await openText('parts/note-wire.pickup', 'wire mine {\n  gauge 43 AWG\n}\n');
    const text = 'use "note-wire.pickup"\n\nspool RYD-N1 {\n  wire mine\n}\n';
    assert.match(await rendered('parts/note.md', text, drawn), inWords({ en: /No findings\./, de: /Keine Befunde\./ }));
    const edit = new vscode.WorkspaceEdit();
    edit.insert(document.uri, new vscode.Position(0, 'wire '.length), 'not-');
    assert.ok(await vscode.workspace.applyEdit(edit));
    await rendered('parts/note.md', text, (html) => drawn(html) && html.includes('name/unknown'));
  });

  it('by a setting they stay text', async () => {
    const text = 'wire mine {\n  gauge 43 AWG\n}\n';
    const settings = vscode.workspace.getConfiguration('pickup');
    await settings.update('markdownPreview.drawings', false, vscode.ConfigurationTarget.Global);
    try {
      assert.equal(await rendered('parts/plain.md', text, (html) => !html.includes('pickup-figure')), '<pre></pre>');
    } finally {
      await settings.update('markdownPreview.drawings', undefined, vscode.ConfigurationTarget.Global);
    }
    await rendered('parts/plain.md', text, drawn);
  });
});
