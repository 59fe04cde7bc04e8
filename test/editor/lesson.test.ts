import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { closeAll, eventually, extensionInterface, findings } from './in-editor.ts';

const run = <T>(command: string, ...rest: unknown[]): Thenable<T> =>
  vscode.commands.executeCommand<T>(command, ...rest);

describe('the lesson in the editor', () => {
  after(closeAll);

  const untilDone = async (step: string): Promise<void> => {
    const { lesson } = await extensionInterface();
    await eventually(() => (lesson.done().some((each) => each === step) ? true : undefined));
  };
  const document = (): vscode.TextDocument => {
    const open = vscode.workspace.textDocuments.find(({ uri }) => uri.path.endsWith('/lesson/lesson.pickup'));
    assert.ok(open, 'the lesson is not open');
    return open;
  };

  it('goes from the mistake to a card, each step done when it has happened', async () => {
    const { lesson, benchView } = await extensionInterface();
    for (const step of ['look', 'mend', 'read', 'why', 'compare', 'print'] as const)
      assert.ok(!lesson.done().includes(step), step);
    await run('pickup.openLesson');
    await untilDone('open');

    await run('pickup.openBenchViewToSide');
    await untilDone('look');

    const [mistake] = await findings(document(), (codes) => codes.includes('phase/coils-cancel'));
    assert.ok(mistake);
    const actions = await run<vscode.CodeAction[]>('vscode.executeCodeActionProvider', document().uri, mistake.range);
    const swap = actions.find(({ title }) => title.startsWith('Swap the leads of the slug coil'));
    assert.ok(swap?.edit);
    await vscode.workspace.applyEdit(swap.edit);
    await untilDone('mend');

    await run('pickup.readLesson');
    await untilDone('read');
    await findings(document(), (codes) => codes.includes('reading/sum'));
    await run('pickup.explainFinding');
    await untilDone('why');

    await run('pickup.compareLesson');
    await untilDone('compare');
    await eventually(() => benchView.shown()?.drawing.comparedWith === 'as-found.pickup' || undefined);

    const folder = vscode.Uri.joinPath(document().uri, '../cards');
    await vscode.window.showTextDocument(document(), vscode.ViewColumn.One);
    await run('pickup.printCards', { kinds: ['wiring'], folder });
    await untilDone('print');
  });
});
