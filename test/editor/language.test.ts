import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { behind, closeAll, eventually, extensionInterface, findings, openSample, openText } from './in-editor.ts';

const run = <T>(command: string, ...rest: unknown[]): Thenable<T> =>
  vscode.commands.executeCommand<T>(command, ...rest);

describe('a spec in the editor', () => {
  afterEach(closeAll);

  it('a mistake shows with its code and its place; the fix takes it away', async () => {
    const { document } = await openSample('mistakes/unit-missing.pickup');
    const [found] = await findings(document, (codes) => codes.includes('unit/missing'));
    assert.ok(found);
    assert.equal(document.lineAt(found.range.start.line).text.trim(), 'resistance 7.3');
    const actions = await run<vscode.CodeAction[]>('vscode.executeCodeActionProvider', document.uri, found.range);
    const fix = actions.find(({ kind }) => kind?.value === vscode.CodeActionKind.QuickFix.value);
    assert.ok(fix?.edit, 'no fix is offered');
    assert.ok(await vscode.workspace.applyEdit(fix.edit));
    await findings(document, (codes) => !codes.includes('unit/missing'));
    assert.match(document.getText(), /resistance 7\.3 kohm/);
  });

  it('two coils that oppose each other are told in trade words, with the lines that cause it', async () => {
    const { document } = await openSample('mistakes/phase-coils-cancel.pickup');
    const [found] = await findings(document, (codes) => codes.includes('phase/coils-cancel'));
    assert.ok(found);
    assert.equal(found.source, 'pickup');
    assert.notEqual(found.relatedInformation?.length ?? 0, 0);
    assert.equal(found.severity, vscode.DiagnosticSeverity.Error);
  });

  it('swapping start and finish of one coil raises a finding, swapping them back takes it away', async () => {
    const editor = await openSample('cinder-bridge.pickup');
    const { document } = editor;
    await findings(document, (codes) => codes.length === 0);
    const before = document.getText();
    // The ends of the upper coil: each takes the lead of the other.
    const swapped = before
      .replace('\n    start grey', '\n    start violet')
      .replace('\n    finish violet', '\n    finish grey');
    assert.notEqual(swapped, before);
    const whole = () => new vscode.Range(0, 0, document.lineCount, 0);
    await editor.edit((edit) => edit.replace(whole(), swapped));
    await findings(document, (codes) => codes.some((code) => /^(phase|hum|reading)\//.test(code)));
    await editor.edit((edit) => edit.replace(whole(), before));
    await findings(document, (codes) => codes.length === 0);
  });

  it('hover tells what is computed and what it rests on', async () => {
    const { document } = await openSample('fennel-bridge.pickup');
    const at = behind(document, 'coil ma');
    const text = await eventually(async () => {
      const hovers = await run<vscode.Hover[]>('vscode.executeHoverProvider', document.uri, at);
      const shown = hovers.flatMap(({ contents }) =>
        contents.map((each) => (typeof each === 'string' ? each : each.value)),
      );
      return shown.length > 0 ? shown.join('\n') : undefined;
    });
    assert.match(text, /resistance at 20\s°C/);
    assert.match(text, /±/);
  });

  it('hints stand behind the first lines of coil and pickup', async () => {
    const { document } = await openSample('fennel-bridge.pickup');
    const whole = new vscode.Range(0, 0, document.lineCount, 0);
    const hints = await eventually(async () => {
      const found = await run<vscode.InlayHint[]>('vscode.executeInlayHintProvider', document.uri, whole);
      return found.length > 0 ? found : undefined;
    });
    const lines = hints.map(({ position }) => document.lineAt(position.line).text.trim());
    assert.deepEqual(lines, ['pickup fennel-bridge "Fennel, bridge, tapped" {', 'coil main {']);
    for (const { label } of hints)
      assert.match(typeof label === 'string' ? label : label.map(({ value }) => value).join(''), /kΩ, measured$/);
  });

  it('above a pickup stands what opens it, how it sounds and who names it; leads have their colours', async () => {
    const { document } = await openSample('hesk-neck.pickup');
    const titles = await eventually(async () => {
      const lenses = await run<vscode.CodeLens[]>('vscode.executeCodeLensProvider', document.uri, 10);
      const all = lenses.map(({ command }) => command?.title ?? '');
      return all.length > 0 && all.every((title) => title !== '') ? all : undefined;
    });
    assert.deepEqual(titles.slice(0, 2), ['bench view', 'cards']);
    assert.match(titles[2] ?? '', /^in phase · hum .+ · 8\.\d+ ± 0\.\d+\skΩ, measured · resonance /);
    assert.match(titles[3] ?? '', /^named in .*teasel\.pickup/);
    const colours = await run<vscode.ColorInformation[]>('vscode.executeDocumentColorProvider', document.uri);
    assert.deepEqual(
      colours.slice(0, 4).map(({ range }) => document.getText(range)),
      ['turquoise', 'orange', 'grey', 'pink'],
    );
  });

  it('completion offers names of the shop and words of the fact', async () => {
    const { document } = await openSample('fennel-bridge.pickup');
    const labels = async (piece: string): Promise<readonly string[]> => {
      const { items } = await run<vscode.CompletionList>(
        'vscode.executeCompletionItemProvider',
        document.uri,
        behind(document, piece),
      );
      return items.map(({ label }) => (typeof label === 'string' ? label : label.label));
    };
    assert.ok((await labels('bobbin ')).includes('rod-six'));
    assert.ok((await labels('wound ')).includes('clockwise'));
  });

  it('definition leads into the parts file, symbols are the outline', async () => {
    const { document } = await openSample('fennel-bridge.pickup');
    const at = behind(document, 'bobbin rod');
    const targets = await run<(vscode.Location | vscode.LocationLink)[]>(
      'vscode.executeDefinitionProvider',
      document.uri,
      at,
    );
    const [target] = targets;
    assert.ok(target);
    assert.match(('uri' in target ? target.uri : target.targetUri).path, /\/parts\/stock\.pickup$/);
    const symbols = await run<vscode.DocumentSymbol[]>('vscode.executeDocumentSymbolProvider', document.uri);
    assert.deepEqual(
      symbols.map(({ name }) => name),
      ['fennel-bridge', 'fennel'],
    );
  });

  it('a rename reaches the specs that are not open', async () => {
    const { document } = await openSample('fennel-bridge.pickup');
    await findings(document, (codes) => codes.length === 0);
    const edit = await run<vscode.WorkspaceEdit>(
      'vscode.executeDocumentRenameProvider',
      document.uri,
      behind(document, 'bobbin rod'),
      'rod-renamed',
    );
    const open = new Set(vscode.workspace.textDocuments.map(({ uri }) => uri.toString()));
    const closed = edit.entries().filter(([uri]) => !open.has(uri.toString()));
    assert.ok(closed.length >= 2, `${closed.length} files that are not open`);
    const specs = await vscode.workspace.findFiles('**/*.pickup');
    const naming = await Promise.all(
      specs.map(async (uri) => new TextDecoder().decode(await vscode.workspace.fs.readFile(uri))),
    );
    const expected = naming.filter((text) => /^\s*bobbin rod-six\b/m.test(text)).length;
    assert.equal(edit.entries().length, expected);
  });

  it('formatting puts a line in order and keeps its comment', async () => {
    const { document } = await openText('untidy.pickup', 'wire   w {\n     gauge 42   AWG   # from the reel\n}\n');
    const edits = await run<vscode.TextEdit[]>('vscode.executeFormatDocumentProvider', document.uri, {
      tabSize: 2,
      insertSpaces: true,
    });
    const edit = new vscode.WorkspaceEdit();
    edit.set(document.uri, edits);
    assert.ok(await vscode.workspace.applyEdit(edit));
    assert.match(document.getText(), /^wire w \{\n {2}gauge 42 AWG +# from the reel\n\}\n$/);
  });

  it('the corrections that are plainly right can be made at once, as on save', async () => {
    const { document } = await openSample('mistakes/unit-missing.pickup');
    await findings(document, (codes) => codes.includes('unit/missing'));
    const whole = new vscode.Range(0, 0, document.lineCount, 0);
    const actions = await run<vscode.CodeAction[]>(
      'vscode.executeCodeActionProvider',
      document.uri,
      whole,
      vscode.CodeActionKind.SourceFixAll.value,
    );
    assert.equal(actions.length, 1);
  });

  it('a page beside the text explains the finding, without any network, and mends it', async () => {
    const editor = await openSample('mistakes/unit-missing.pickup');
    const [found] = await findings(editor.document, (codes) => codes.includes('unit/missing'));
    assert.ok(found);
    editor.selection = new vscode.Selection(found.range.start, found.range.start);
    await run('pickup.explainFinding');
    const { explanation } = await extensionInterface();
    const { page, here } = await eventually(() => explanation.shown());
    assert.equal(page.code, 'unit/missing');
    assert.ok(page.sections.some(({ blocks }) => blocks.some(({ kind }) => kind === 'example')));
    // The text stays where it was; the page stands beside it.
    assert.ok(vscode.window.visibleTextEditors.some(({ document }) => document === editor.document));
    const title = here?.fixes[0];
    assert.ok(title);
    await explanation.receive({ type: 'fix', title });
    await findings(editor.document, (codes) => !codes.includes('unit/missing'));
    await eventually(() => (explanation.shown()?.here === undefined ? true : undefined));
    await explanation.receive({ type: 'explain', code: page.next });
    await eventually(() => (explanation.shown()?.page.previous === 'unit/missing' ? true : undefined));
  });

  it('a fix with a gap is written from the page with the caret in the gap, and no mark of it', async () => {
    const sample = 'mistakes/hum-not-cancelled.pickup';
    const editor = await openSample(sample);
    const [found] = await findings(editor.document, (codes) => codes.includes('hum/not-cancelled'));
    assert.ok(found);
    editor.selection = new vscode.Selection(found.range.start, found.range.start);
    await run('pickup.explainFinding');
    const { explanation } = await extensionInterface();
    const title = await eventually(() => {
      const shown = explanation.shown();
      return shown?.page.code === 'hum/not-cancelled'
        ? shown.here?.fixes.find((each) => each.startsWith('Accept this finding'))
        : undefined;
    });
    await explanation.receive({ type: 'fix', title });
    const line = await eventually(() => /^ *accept hum\/not-cancelled.*$/m.exec(editor.document.getText())?.[0]);
    assert.doesNotMatch(line, /\$/);
    const at = vscode.window.activeTextEditor?.selection;
    assert.ok(at && !at.isEmpty, 'the gap is chosen, to be typed over');
    assert.match(editor.document.lineAt(at.active.line).text, /accept hum/);
  });
});
