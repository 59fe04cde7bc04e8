import assert from 'node:assert/strict';
import type { Frame } from 'playwright-core';
import * as vscode from 'vscode';
import { againUntil, closeAll, openSample, replace } from './in-editor.ts';
import { type EditorWindow, openWindow } from './window.ts';

interface Results {
  readonly violations: readonly { readonly id: string; readonly nodes: readonly { readonly html: string }[] }[];
}

describe('the bench view as one sees it', () => {
  let seen: EditorWindow;
  before(async () => {
    seen = await openWindow();
  });
  after(async () => {
    await closeAll();
    await seen.close();
  });

  const openBenchView = async (sample: string, text: string): Promise<[vscode.TextEditor, Frame]> => {
    const editor = await openSample(sample);
    // The view is opened once for all of them, each of which begins at the top of the text.
    editor.selection = new vscode.Selection(0, 0, 0, 0);
    await vscode.commands.executeCommand('pickup.openBenchViewToSide');
    const frame = await seen.webviewWith(text);
    // Of two states drawn only one may be in sight.
    await frame.locator('svg').filter({ visible: true }).first().waitFor();
    return [editor, frame];
  };

  it('the drawing stands in the page, its parts in one tab stop, the table of joints below', async () => {
    const [, frame] = await openBenchView('cinder-bridge.pickup', 'Joints');
    assert.notEqual(await frame.locator('svg [data-part]').count(), 0);
    assert.equal(await frame.locator('svg [tabindex="0"]').count(), 1);
    assert.notEqual(await frame.locator('table tbody tr').count(), 0);
    assert.equal(await frame.locator('svg style').count(), 0, 'styles are adopted, not inline');
  });

  it('a click on a coil goes to its line in the text', async () => {
    const [editor, frame] = await openBenchView('cinder-bridge.pickup', 'Joints');
    const coil = frame.locator('svg [data-part^="coil:"].line').first();
    await againUntil(
      (patience) => coil.dispatchEvent('click', undefined, patience),
      () => {
        const { line } = vscode.window.activeTextEditor?.selection.active ?? { line: 0 };
        return /^\s*coil /.test(editor.document.lineAt(line).text);
      },
    );
  });

  it('arrow keys go along the path, Enter goes to the text', async () => {
    const [editor, frame] = await openBenchView('cinder-bridge.pickup', 'Joints');
    // A drawing that comes anew begins at its first part again.
    const focused = frame.locator('svg [tabindex="0"]');
    const name = await focused.getAttribute('data-part');
    await againUntil(
      async (patience) => {
        await focused.press('ArrowRight', patience);
        assert.notEqual(await focused.getAttribute('data-part', patience), name);
        await focused.press('Enter', patience);
      },
      () => (vscode.window.activeTextEditor?.selection.active.line ?? 0) > 0,
    );
    assert.equal(vscode.window.activeTextEditor?.document.uri.toString(), editor.document.uri.toString());
  });

  it('the part that the cursor is in is marked', async () => {
    const [editor, frame] = await openBenchView('cinder-bridge.pickup', 'Joints');
    const line = editor.document
      .getText()
      .split('\n')
      .findIndex((each) => /^\s*start /.test(each));
    editor.selection = new vscode.Selection(line, 6, line, 6);
    await frame.locator('svg .frame').first().waitFor({ state: 'attached' });
  });

  it('broken text: the bar names the line, the drawing stays', async () => {
    const [editor, frame] = await openBenchView('fennel-bridge.pickup', 'Fennel, bridge, tapped');
    await replace(editor, 'wound counterclockwise', 'wound counterclockwise (');
    const bar = frame.locator('.stale');
    await bar.waitFor();
    assert.match((await bar.textContent()) ?? '', /^Line\s\d+\sdoes not read yet/);
    assert.notEqual(await frame.locator('svg [data-part]').count(), 0);
    await closeAll();
  });

  it('nothing from anywhere else is let in', async () => {
    const [, frame] = await openBenchView('cinder-bridge.pickup', 'Joints');
    const policy = await frame.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute('content');
    assert.match(policy ?? '', /^default-src 'none'; script-src [^;]+; style-src [^;]+; img-src blob: [^;]+;$/);
    assert.doesNotMatch(policy ?? '', /unsafe/);
  });

  it('has no fault of access that a machine can find', async () => {
    const [, frame] = await openBenchView('cinder-bridge.pickup', 'Joints');
    const { source } = (await import('axe-core')).default;
    // As one text: the page's policy lets no further script file in.
    const results = await frame.evaluate<Results>(
      `(() => { const module = { exports: {} }; ${source}; return module.exports.run(); })()`,
    );
    const faults = results.violations.map(
      ({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 120)).join(' | ')}`,
    );
    assert.deepEqual(faults, []);
  });
});
