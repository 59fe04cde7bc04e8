import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { againUntil, closeAll, eventually } from './in-editor.ts';
import { type EditorWindow, openWindow } from './window.ts';

/** In place of an answer: the question before is asked again. */
const BACK = '←';

describe('a new pickup from what is measured now', () => {
  let seen: EditorWindow;
  before(async () => {
    seen = await openWindow();
  });
  after(() => seen.close());
  afterEach(closeAll);

  it('is asked for one thing after the other, with a way back, and with what caliper, micrometer and eye say', async () => {
    const input = () => seen.page.locator('.quick-input-box input').first();
    /** The question whose title holds this is answered; again where the window swallowed it. */
    const answer = (question: string, text: string) => {
      const asked = seen.page.locator('.quick-input-titlebar', { hasText: question });
      let isAnswered = false;
      return againUntil(
        async (patience) => {
          await asked.waitFor(patience);
          if (text === BACK) await seen.page.getByRole('button', { name: 'Back' }).click(patience);
          else {
            await input().fill(text, patience);
            await input().press('Enter', patience);
          }
          isAnswered = true;
        },
        async () => isAnswered && !(await asked.isVisible()),
      );
    };
    void vscode.commands.executeCommand('pickup.newPickup');
    for (const [question, text] of [
      ['New pickup', 'Measured here'],
      ['How many strings?', '7'],
      ['How many coils', BACK],
      ['How many strings?', '6'],
      ['How many coils', '1'],
      ['Where will it sit?', 'neck'],
      ['start (inner end)', 'grey'],
      ['finish (outer end)', 'violet'],
      ['Bobbin, wire and magnet', 'Measured now'],
      ['What are the poles?', 'rod'],
      ['Of what are the rods?', 'alnico-3'],
      ['Wire: its gauge', '0.063 mm'],
      ['Core of the bobbin', '60x5,8'],
      ['Winding window', '11 x 5.2'],
      ['How many poles', '6'],
      ['From the centre', '49.8'],
      ['One pole', '4.75 x 16'],
      ['How many turns', '7700'],
    ] as const)
      await answer(question, text);
    const document = await eventually(() =>
      vscode.workspace.textDocuments.find(({ uri }) => /measured-here(-\d+)?\.pickup$/.test(uri.path)),
    );
    const text = document.getText();
    for (const line of [
      '# As measured on the bench.',
      '  diameter 0.063 mm',
      '  core 60 x 5.8 mm',
      '  poles 6 spread 49.8 mm',
      '  pole rod alnico-3 4.75 x 16 mm',
      '  strings 6',
      '    turns 7700',
    ])
      assert.ok(text.includes(line), `${line}\n${text}`);
    await vscode.workspace.fs.delete(document.uri);
  });
});
