import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import * as vscode from 'vscode';
import type { BenchViewInterface } from '../../client/src/features/bench-view/bench-view-control.ts';
import {
  againUntil,
  behind,
  closeAll,
  eventually,
  extensionInterface,
  openSample,
  openText,
  replace,
} from './in-editor.ts';
import { type EditorWindow, openWindow } from './window.ts';

describe('the bench view in the editor', () => {
  let benchView: BenchViewInterface;
  let seen: EditorWindow;
  let scratch = '';
  before(async () => {
    await openSample('cinder-bridge.pickup');
    ({ benchView } = await extensionInterface());
    seen = await openWindow();
    scratch = mkdtempSync(path.join(tmpdir(), 'bench-view-'));
  });
  after(async () => {
    rmSync(scratch, { recursive: true, force: true });
    await seen.close();
  });
  afterEach(closeAll);

  const openBenchView = async (sample: string): Promise<vscode.TextEditor> => {
    const editor = await openSample(sample);
    await vscode.commands.executeCommand('pickup.openBenchViewToSide');
    return editor;
  };
  const run = (command: string, ...rest: unknown[]) => vscode.commands.executeCommand(command, ...rest);
  // By its own box: a key pressed on the page goes wherever the focus is in that moment.
  const quickInput = () => seen.page.locator('.quick-input-box input').first();
  const rows = () => seen.page.locator('.quick-input-list .monaco-list-row');
  /** Gives a command until the window tells a line: a notification goes by itself after a while. */
  const tells = (command: string, line: string) => {
    const told = seen.page.getByText(line).first();
    return againUntil(
      async (patience) => {
        await run(command);
        await told.waitFor(patience);
      },
      () => told.isVisible(),
    );
  };
  const drawn = (file: string) =>
    eventually(() => {
      const drawing = benchView.shown()?.drawing;
      return drawing?.file === file && drawing.svg !== undefined ? drawing : undefined;
    });

  it('numbers, response and readings follow the drawing', async () => {
    await openBenchView('cinder-bridge.pickup');
    await drawn('cinder-bridge.pickup');
    const numbers = await eventually(() => benchView.section('numbers'));
    assert.ok(numbers.rows.some(({ name, now }) => /kΩ$/.test(name) && / ± /.test(now)));
    assert.match((await eventually(() => benchView.section('response'))).svg ?? '', /^<svg /);
    assert.ok(await eventually(() => benchView.section('missing')));
  });

  it('an instrument is heard in any position, with its pots anywhere', async () => {
    const editor = await openBenchView('quorl.pickup');
    const at = behind(editor.document, 'instrument quorl');
    editor.selection = new vscode.Selection(at, at);
    const first = await eventually(() => {
      const drawing = benchView.shown()?.drawing;
      return drawing?.subject?.kind === 'instrument' ? drawing : undefined;
    });
    assert.equal(first.position, 'quorl/1');
    const full = await eventually(() => benchView.section('response')?.svg);
    await benchView.receive({ type: 'pots', pots: { volume: 10, tone: 2 } });
    const dull = await eventually(() => {
      const { svg } = benchView.section('response') ?? {};
      return svg !== undefined && /volume 10, tone 2\./.test(svg) ? svg : undefined;
    });
    assert.notEqual(dull, full);
    await benchView.receive({ type: 'position', position: 'quorl/5' });
    await eventually(() => (benchView.section('numbers')?.caption === 'Numbers, position 5' ? true : undefined));
    assert.match((await eventually(() => benchView.section('positions')?.svg)) ?? '', /data-part="position:5"/);
    // The caret on the line of a position shows it, and so does a click on it in the drawing.
    const line = editor.document.positionAt(editor.document.getText().search(/^ {4}3 "/m)).line;
    editor.selection = new vscode.Selection(line, 0, line, 0);
    await eventually(() => (benchView.shown()?.drawing.position === 'quorl/3' ? true : undefined));
    await benchView.receive({ type: 'reveal', part: 'position:1' });
    await eventually(() => (benchView.shown()?.drawing.position === 'quorl/1' ? true : undefined));
  });

  it('a drawing is saved as SVG, the view as a page that runs nothing', async () => {
    await openBenchView('cinder-bridge.pickup');
    const { svg } = await drawn('cinder-bridge.pickup');
    const [picture, page] = ['drawing.svg', 'view.html'].map((name) => path.join(scratch, name));
    assert.ok(picture && page);
    await run('pickup.exportSvg', vscode.Uri.file(picture));
    assert.equal(readFileSync(picture, 'utf8'), svg);
    await run('pickup.exportHtml', vscode.Uri.file(page));
    const html = readFileSync(page, 'utf8');
    assert.match(html, /default-src 'none'/);
    assert.match(html, /hot to ground/);
    assert.doesNotMatch(html, /<script|<link|src=/);
  });

  it('cards are written as pages', async () => {
    await openSample('cinder-bridge.pickup');
    const folder = vscode.Uri.file(scratch);
    const written = await run('pickup.printCards', { kinds: ['bench', 'wiring'], folder });
    assert.ok(Array.isArray(written));
    assert.equal(written.length, 2);
    for (const card of written) assert.ok(existsSync(card.fsPath), card.fsPath);
  });

  it('cards have a folder of their own beside the spec, where none is asked for', async () => {
    const { document } = await openSample('cinder-bridge.pickup');
    const written = await run('pickup.printCards', { kinds: ['wiring'] });
    assert.ok(Array.isArray(written));
    assert.equal(written.length, 1);
    const beside = vscode.Uri.joinPath(document.uri, '..', 'cards');
    for (const card of written) assert.equal(path.dirname(card.fsPath), beside.fsPath);
    rmSync(beside.fsPath, { recursive: true });
  });

  it('the palette offers what has something to do: cards of a pickup, none of a file of parts', async () => {
    const printing = rows().filter({ hasText: 'Print Cards' });
    const opening = rows().filter({ hasText: 'Open Bench View' });
    const search = async (patience: { readonly timeout: number }): Promise<void> => {
      await run('workbench.action.closeQuickOpen');
      void run('workbench.action.quickOpen', '>Pickup: ');
      await opening.first().waitFor(patience);
    };
    await openSample('cinder-bridge.pickup');
    await againUntil(search, async () => (await printing.count()) > 0);
    await openSample('parts/stock.pickup');
    await againUntil(search, async () => (await opening.count()) > 0 && (await printing.count()) === 0);
    await run('workbench.action.closeQuickOpen');
  });

  it('a plan is looked at beside the spec before it is written', async () => {
    const { document } = await openSample('mistakes/phase-coils-cancel.pickup');
    const editor = vscode.window.activeTextEditor;
    assert.ok(editor);
    const at = behind(document, 'hookup');
    editor.selection = new vscode.Selection(at, at);
    const before = document.getText();
    const written = rows().filter({ hasText: 'Write into the spec' });
    await againUntil(
      async (patience) => {
        void run('pickup.planRepair');
        await rows()
          .filter({ hasText: /about \d+ min/ })
          .first()
          .waitFor(patience);
        await quickInput().press('Enter', patience);
        await written.waitFor(patience);
      },
      () => written.isVisible(),
    );
    assert.match((await written.textContent()) ?? '', /in phase/);
    const { input } = vscode.window.tabGroups.activeTabGroup.activeTab ?? {};
    assert.ok(input instanceof vscode.TabInputTextDiff);
    assert.equal(input.original.toString(), document.uri.toString());
    // Nothing is written by looking, and nothing is found in what is only looked at.
    assert.equal(document.getText(), before);
    assert.deepEqual(vscode.languages.getDiagnostics(input.modified), []);
    await againUntil(
      (patience) => quickInput().press('Enter', patience),
      () => document.getText() !== before,
    );
    await eventually(() => (vscode.window.activeTextEditor?.document === document ? true : undefined));
  });

  it('finds the pickup that a filter describes, and goes to it', async () => {
    await openSample('cinder-bridge.pickup');
    await againUntil(
      async (patience) => {
        await run('pickup.findPickup');
        await rows().filter({ hasText: 'RYD-' }).first().waitFor(patience);
        await quickInput().fill('serial RYD-021', patience);
        const others = rows().filter({ hasNotText: 'RYD-021' }).first();
        await others.waitFor({ state: 'detached', ...patience });
        await rows().filter({ hasText: 'RYD-021' }).first().waitFor(patience);
        await quickInput().press('Enter', patience);
      },
      () => vscode.window.activeTextEditor?.document.fileName.endsWith('ottlewick-neck.pickup') === true,
    );
  });

  describe('compared with git', () => {
    const git = (...rest: string[]): string => {
      const [folder] = vscode.workspace.workspaceFolders ?? [];
      assert.ok(folder);
      return execFileSync('git', ['-c', 'user.name=Bench', '-c', 'user.email=bench@example.org', ...rest], {
        cwd: folder.uri.fsPath,
        encoding: 'utf8',
        stdio: ['ignore', 'pipe', 'ignore'],
      });
    };

    it('a file that is in no repository: one clear line, and the view stays', async () => {
      await openBenchView('fennel-bridge.pickup');
      await drawn('fennel-bridge.pickup');
      await tells(
        'pickup.compareWithLastCommit',
        'fennel-bridge.pickup is not in a git repository that the editor has open.',
      );
      assert.equal(benchView.shown()?.drawing.comparedWith, undefined);
      await run('notifications.clearAll');
    });

    it('facts and numbers before and now, settled findings; ended, it is over', async () => {
      git('init', '-q');
      git('add', '.');
      git('commit', '-q', '-m', 'as it was');
      const editor = await openBenchView('ottlewick-neck.pickup');
      await drawn('ottlewick-neck.pickup');
      await replace(editor, 'turns 8_200 ± 20', 'turns 5_000 ± 20');
      const facts = () => benchView.section('comparison')?.facts ?? [];
      await againUntil(
        async () => run('pickup.compareWithLastCommit'),
        () => facts().length > 0,
      );
      assert.deepEqual(
        facts().map(({ was, is }) => [was, is]),
        [['turns 8_200 ± 20', 'turns 5_000 ± 20']],
      );
      assert.equal(benchView.shown()?.drawing.comparedWith, 'the last commit');
      const turns = await eventually(() =>
        benchView
          .section('numbers')
          ?.rows.find(({ name, before }) => name === 'screw coil, turns' && before !== undefined),
      );
      assert.deepEqual([turns.before, turns.now], ['8\u202F200 ± 20', '5\u202F000 ± 20']);
      // Saved and committed, nothing differs from the last commit any more.
      await editor.document.save();
      git('commit', '-q', '-a', '-m', 'as it is');
      await run('git.refresh');
      await eventually(() => (benchView.section('comparison')?.facts.length === 0 ? true : undefined));
      await run('pickup.endComparison');
      await eventually(() => (benchView.shown()?.drawing.comparedWith === undefined ? true : undefined));
    });

    it('from the source control view: the entry is in the menu of a changed spec', async () => {
      git('init', '-q');
      git('add', '.');
      git('commit', '-q', '--allow-empty', '-m', 'as it was');
      const editor = await openSample('ottlewick-neck.pickup');
      await replace(editor, 'turns', 'turns ');
      await editor.document.save();
      await run('git.refresh');
      await run('workbench.view.scm');
      const row = seen.page.locator('.scm-view .monaco-list-row').filter({ hasText: 'ottlewick-neck.pickup' }).first();
      const entry = seen.page.getByRole('menuitem', { name: /Compare with Last Commit/i });
      // A menu takes no click in its first moments, and closes where the list behind it is drawn anew.
      await againUntil(
        async (patience) => {
          await seen.page.keyboard.press('Escape');
          await row.click({ button: 'right', ...patience });
          await entry.hover(patience);
          await entry.click(patience);
        },
        () => benchView.shown()?.drawing.comparedWith === 'the last commit',
      );
      await run('pickup.endComparison');
      git('checkout', '-q', '.');
      await run('workbench.view.explorer');
    });

    it('with a commit of the file, from the list of them with their dates', async () => {
      git('init', '-q');
      git('commit', '-q', '--allow-empty', '-m', 'nothing of it');
      const editor = await openBenchView('tansy-bridge.pickup');
      await drawn('tansy-bridge.pickup');
      git('add', 'tansy-bridge.pickup');
      git('commit', '-q', '--allow-empty', '-m', 'tansy came in', '--', 'tansy-bridge.pickup');
      await replace(editor, 'pickup ', 'pickup  ');
      await editor.document.save();
      git('commit', '-q', '-m', 'a space more', '--', 'tansy-bridge.pickup');
      await run('git.refresh');
      const told: string[] = [];
      await againUntil(
        async (patience) => {
          void run('pickup.compareWithRevision');
          const newest = rows().filter({ hasText: 'a space more' }).first();
          await newest.waitFor(patience);
          told.push(...(await rows().allTextContents()));
          await quickInput().press('Enter', patience);
        },
        () => /^[0-9a-f]{7}$/.test(benchView.shown()?.drawing.comparedWith ?? ''),
      );
      const newest = told.find((row) => row.includes('a space more')) ?? '';
      assert.match(newest, /\b20\d\d · [0-9a-f]{7}/);
      assert.ok(!told.some((row) => row.includes('nothing of it')), told.join('\n'));
      await run('pickup.endComparison');
    });

    it('with the revision that the timeline has opened', async () => {
      git('init', '-q');
      git('add', '.');
      git('commit', '-q', '--allow-empty', '-m', 'as it was');
      const hash = git('rev-parse', 'HEAD').trim();
      const { document } = await openSample('tansy-bridge.pickup');
      // As the editor's git opens an entry of the timeline: a commit beside the one before it.
      const textOf = (ref: string): vscode.Uri =>
        vscode.Uri.from({
          scheme: 'git',
          path: document.uri.path,
          query: JSON.stringify({ path: document.uri.fsPath, ref }),
        });
      await run('git.refresh');
      await againUntil(
        async () => {
          await vscode.commands.executeCommand('vscode.diff', textOf(`${hash}^`), textOf(hash));
          await run('pickup.compareWithShownRevision');
        },
        () => benchView.shown()?.drawing.comparedWith === hash.slice(0, 7),
      );
      assert.equal(benchView.shown()?.drawing.uri, document.uri.toString());
      await run('pickup.endComparison');
    });

    it('a file that the last commit does not hold: one clear line', async () => {
      await openText('new-here.pickup', 'pickup wren {\n}\n');
      await run('pickup.openBenchViewToSide');
      await tells('pickup.compareWithLastCommit', 'new-here.pickup is not in the last commit.');
      await run('notifications.clearAll');
    });
  });
});
