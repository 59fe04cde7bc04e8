import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { againUntil, closeAll, codeOf, eventually, extensionInterface, findings, inWords } from './in-editor.ts';

const run = <T>(command: string, ...rest: unknown[]): Thenable<T> =>
  vscode.commands.executeCommand<T>(command, ...rest);

describe('the lesson in the editor', () => {
  after(closeAll);

  const untilDone = async (step: string): Promise<void> => {
    const { lesson } = await extensionInterface();
    await eventually(() => (lesson.done().some((each) => each === step) ? true : undefined));
  };
  /** A command that acts on what is in front, given again where a busy window has put something else there. */
  const runUntilDone = async (step: string, command: string, at = new vscode.Position(0, 0)): Promise<void> => {
    const { lesson } = await extensionInterface();
    await againUntil(
      async () => {
        const selection = new vscode.Selection(at, at);
        await vscode.window.showTextDocument(document(), { viewColumn: vscode.ViewColumn.One, selection });
        // It may wait for an answer that nobody gives.
        void run(command).then(undefined, () => undefined);
      },
      () => lesson.done().some((each) => each === step),
    );
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

    await runUntilDone('look', 'pickup.openBenchViewToSide');

    const [mistake] = await findings(document(), (codes) => codes.includes('phase/coils-cancel'));
    assert.ok(mistake);
    const actions = await run<vscode.CodeAction[]>('vscode.executeCodeActionProvider', document().uri, mistake.range);
    const swapped = inWords({ en: /^Swap the leads of the slug coil/, de: /^Die Litzen von .*slug/ });
    const swap = actions.find(({ title }) => swapped.test(title));
    assert.ok(swap?.edit);
    assert.ok(await vscode.workspace.applyEdit(swap.edit));
    await untilDone('mend');

    await run('pickup.readLesson');
    await untilDone('read');
    const found = await findings(document(), (codes) => codes.includes('reading/sum'));
    const sum = found.find((each) => codeOf(each) === 'reading/sum');
    await runUntilDone('why', 'pickup.explainFinding', sum?.range.start);

    await runUntilDone('compare', 'pickup.compareLesson');
    await eventually(() => benchView.shown()?.drawing.comparedWith === 'as-found.pickup' || undefined);

    const folder = vscode.Uri.joinPath(document().uri, '../cards');
    await vscode.window.showTextDocument(document(), vscode.ViewColumn.One);
    await run('pickup.printCards', { kinds: ['wiring'], folder });
    await untilDone('print');
  });
});
