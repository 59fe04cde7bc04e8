import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { closeAll, openSample, openText } from './in-editor.ts';
import { type EditorWindow, openWindow } from './window.ts';

const MARKS = '```';

describe('the editor’s preview of Markdown as one sees it', () => {
  let seen: EditorWindow;
  before(async () => {
    seen = await openWindow();
  });
  after(() => seen.close());
  afterEach(closeAll);

  it('a spec is drawn where it stands, in the colours of the theme, and nothing that was typed is more than text', async () => {
    const mistake = (await openSample('mistakes/phase-coils-cancel.pickup')).document.getText();
    const spec = mistake.replace('Ruddle Yard, on the bench', '<img src=x onerror=alert(1)>');
    await openText('mistakes/notes.md', `# Notes\n\n${MARKS}pickup\n${spec}${MARKS}\n\nThe end of the page.\n`);
    await vscode.commands.executeCommand('markdown.showPreview');
    const frame = await seen.webviewWith('The end of the page.');
    const drawing = frame.locator('.pickup-current svg.pk');
    await drawing.waitFor();
    const [sheet, editor] = await drawing.evaluate((svg) => {
      const probe = document.body.appendChild(document.createElement('p'));
      probe.style.color = 'var(--vscode-editor-background)';
      return [getComputedStyle(svg.querySelector('.sheet') ?? svg).fill, getComputedStyle(probe).color];
    });
    assert.equal(sheet, editor);
    assert.match(
      (await frame.locator('.pickup-findings').textContent()) ?? '',
      /Line 36, error\..*phase\/coils-cancel/s,
    );
    assert.equal(await frame.locator('.pickup-figure img').count(), 0);
    assert.equal(await frame.locator('.pickup-figure details').filter({ hasText: 'Spec' }).locator('pre').count(), 1);
  });

  it('fences of other languages stay as they are', async () => {
    const { document } = await openText('notes.md', `${MARKS}js\nlet a;\n${MARKS}\n`);
    const html = await vscode.commands.executeCommand<string>('markdown.api.render', document);
    assert.match(html, /<pre/);
    assert.doesNotMatch(html, /pickup-/);
  });
});
