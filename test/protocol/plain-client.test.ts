/** The server as any editor starts it, by its name alone, and a client that can do little: it knows nothing that only our client has. */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import type {
  CodeAction,
  CodeLens,
  CompletionList,
  Diagnostic,
  Hover,
  InitializeResult,
  TextEdit,
  WorkspaceEdit,
} from 'vscode-languageserver/node';
import { InsertTextFormat } from 'vscode-languageserver/node';
import { TextDocument } from 'vscode-languageserver-textdocument';
import manifest from '../../package.json' with { type: 'json' };
import { bundles, writeBundles } from '../scripts/build.ts';
import { ROOT } from '../support/bundled.ts';
import { SAMPLES, sampleFiles, sampleText } from '../support/sample-files.ts';
import { type ServerProcess, startServer } from './server-process.ts';

const NAME = 'pickup-spec-language-server';

/** What every editor can do, and no more. */
const CAPABILITIES = {
  textDocument: {
    synchronization: {},
    publishDiagnostics: {},
    hover: { contentFormat: ['plaintext'] },
    completion: { completionItem: { snippetSupport: false } },
    codeAction: { codeActionLiteralSupport: { codeActionKind: { valueSet: ['quickfix', 'refactor', 'source'] } } },
    formatting: {},
    rename: {},
  },
};

describe('the language server by its name', () => {
  let folder = '';
  let program = '';
  let server: ServerProcess;
  let able: InitializeResult['capabilities'];
  const received: Buffer[] = [];
  before(async () => {
    folder = mkdtempSync(path.join(tmpdir(), 'pickup-by-name-'));
    const built = bundles.filter(({ output, runsIn }) => output.startsWith('dist/server/') && runsIn === 'node');
    const inFolder = (file: string): string => path.join(folder, file);
    await writeBundles(
      built.map((bundle) => ({ ...bundle, output: path.relative(ROOT, inFolder(bundle.output)) })),
      ROOT,
    );
    // As npm puts it on the path.
    program = inFolder(NAME);
    symlinkSync(inFolder(manifest.bin[NAME]), program);
    server = await startServer({ program, initialize: false });
    server.child.stdout?.on('data', (data: Buffer) => received.push(data));
    const rootUri = pathToFileURL(SAMPLES).href;
    const params = { processId: process.pid, rootUri, capabilities: CAPABILITIES };
    able = (await server.request<InitializeResult>('initialize', params)).capabilities;
    server.notify('initialized', {});
  });
  after(async () => {
    await server.stop();
    rmSync(folder, { recursive: true, force: true });
  });

  /** What the program tells in a shell, and its code. */
  const told = (...words: readonly string[]) => {
    const { stdout, stderr, status } = spawnSync(program, words, { encoding: 'utf8' });
    return { stdout, stderr, status };
  };

  it('tells its version and its options, and refuses what it does not know in one line', () => {
    assert.deepEqual(told('--version'), { stdout: `${manifest.version}\n`, stderr: '', status: 0 });
    const { stdout, ...rest } = told('--help');
    assert.deepEqual(rest, { stderr: '', status: 0 });
    for (const option of ['--stdio', '--socket', '--pipe', '--version']) assert.ok(stdout.includes(`\n  ${option}`));
    for (const [word, why] of [
      ['--stdoi', `no option "--stdoi": see ${NAME} --help`],
      ['shop\u001b.pickup', `no option "shop\\u001b.pickup": see ${NAME} --help`],
      ['--socket', '--socket needs a value'],
    ] as const)
      assert.deepEqual(told(word), { stdout: '', stderr: `${NAME}: ${why}\n`, status: 2 });
  });

  const opened = (name: string, text: string): TextDocument => {
    const uri = pathToFileURL(path.join(SAMPLES, name)).href;
    server.open(uri, text);
    return TextDocument.create(uri, 'pickup', 1, text);
  };
  /** Edits of a document, as an editor applies them and tells the server of it. */
  const apply = (document: TextDocument, edits: readonly TextEdit[]): TextDocument => {
    const text = TextDocument.applyEdits(document, [...edits]);
    server.change(document.uri, document.version + 1, [{ text }]);
    return TextDocument.create(document.uri, 'pickup', document.version + 1, text);
  };
  const close = ({ uri }: TextDocument): void => server.notify('textDocument/didClose', { textDocument: { uri } });
  /** Where a piece of the text begins. */
  const at = (document: TextDocument, piece: string) => {
    assert.ok(document.getText().includes(piece), piece);
    const position = document.positionAt(document.getText().indexOf(piece));
    return { textDocument: { uri: document.uri }, position };
  };
  const actionsOf = (document: TextDocument, range = whole(document), diagnostics: readonly Diagnostic[] = []) =>
    server.request<CodeAction[]>('textDocument/codeAction', {
      textDocument: { uri: document.uri },
      range,
      context: { diagnostics },
    });
  /** Those of this version once they are as wanted: what stands in the text comes before what the circuit says. */
  const findings = ({ uri, version }: TextDocument, areSo: (found: readonly Diagnostic[]) => boolean) =>
    server.until(() => {
      const last = server.published.findLast((each) => each.uri === uri && each.version === version);
      return last && areSo(last.diagnostics) ? last.diagnostics : undefined;
    });
  const opposed = (found: readonly Diagnostic[]) => found.find(({ code }) => code === 'phase/coils-cancel');

  it('a spec is opened, a finding comes, its fix is a plain change, and then the finding is gone', async () => {
    const name = 'mistakes/phase-coils-cancel.pickup';
    const document = opened(name, sampleText(name));
    const finding = opposed(await findings(document, (found) => opposed(found) !== undefined));
    assert.ok(finding);
    const [fix] = await actionsOf(document, finding.range, [finding]);
    const edits = fix?.edit?.changes?.[document.uri];
    assert.ok(edits, JSON.stringify(fix));
    const mended = apply(document, edits);
    assert.match(mended.getText(), /polarity south-up/);
    await findings(mended, (found) => opposed(found) === undefined);
    close(mended);
    await server.until(() => server.published.at(-1)?.diagnostics.length === 0 || undefined);
  });

  it('hover is plain text, completion plain words, a rename and a layout plain changes', async () => {
    const text = sampleText('hesk-neck.pickup');
    const document = opened('hesk-neck.pickup', text.replace(/^ {2}strings/m, ' strings'));
    const hover = await server.request<Hover>('textDocument/hover', at(document, 'pickup hesk'));
    assert.deepEqual(Object.keys(hover.contents).sort(), ['kind', 'value']);
    assert.match(JSON.stringify(hover.contents), /"kind":"plaintext".*Ω/);

    const behind = at(document, 'hookup');
    const list = await server.request<CompletionList>('textDocument/completion', behind);
    assert.ok(list.items.length > 0);
    for (const { insertTextFormat, documentation } of list.items) {
      assert.equal(insertTextFormat, InsertTextFormat.PlainText);
      assert.ok(documentation === undefined || Object(documentation).kind === 'plaintext');
    }

    const coil = at(document, '\n  coil ');
    coil.position = { line: coil.position.line + 1, character: '  coil '.length };
    const renamed = await server.request<WorkspaceEdit>('textDocument/rename', { ...coil, newName: 'upper' });
    assert.deepEqual(Object.keys(renamed), ['changes']);
    assert.match(TextDocument.applyEdits(document, renamed.changes?.[document.uri] ?? []), /coil upper/);

    const options = { tabSize: 2, insertSpaces: true };
    const [lens] = await server.request<CodeLens[]>('textDocument/codeLens', behind);
    const { command } = await server.request<CodeLens>('codeLens/resolve', lens);
    // A text to be read: pressing it does nothing.
    assert.match(command?.title ?? '', /Ω/);
    assert.equal(command?.command, '');

    const laidOut = await server.request<TextEdit[]>('textDocument/formatting', { ...behind, options });
    assert.equal(apply(document, laidOut).getText(), text);
    close(document);
  });

  it('over all samples, nothing that is sent takes our own client to be there', async () => {
    // A word at its depth says what kind of line it is: the first two of each kind, and, of each mistake, the lines of its findings.
    const kinds = new Map<string, number>();
    const isNew = (kind: string): boolean => {
      const times = kinds.get(kind) ?? 0;
      kinds.set(kind, times + 1);
      return times < 2;
    };
    for (const { path: name, text } of sampleFiles()) {
      const document = opened(name, text);
      const { uri } = document;
      const found = await findings(document, (all) => all.length > 0 || !name.startsWith('mistakes/'));
      const places = [...text.matchAll(/^( *)\b([\w-]+)/gm)].flatMap(({ 0: kind, 1: indent = '', index }) => {
        const position = document.positionAt(index + indent.length);
        const isFound = found.some(({ range }) => range.start.line === position.line);
        return isNew(kind) || isFound ? [{ textDocument: { uri }, position }] : [];
      });
      const [hovers, completions, actions] = await Promise.all([
        Promise.all(places.map((place) => server.request<Hover | null>('textDocument/hover', place))),
        Promise.all(
          places
            .filter((_, index) => index % 4 === 0)
            .map((place) => server.request<CompletionList>('textDocument/completion', place)),
        ),
        actionsOf(document),
      ]);
      for (const hover of hovers) assert.ok(hover === null || Object(hover.contents).kind === 'plaintext', name);
      for (const item of completions.flatMap(({ items }) => items))
        assert.doesNotMatch(item.textEdit?.newText ?? '', /\$\{?\d/, name);
      for (const { title, kind, diagnostics, edit, isPreferred, ...more } of actions) {
        assert.deepEqual(more, {}, title);
        assert.deepEqual(Object.keys(edit ?? {}), ['changes'], title);
        for (const edits of Object.values(edit?.changes ?? {}))
          for (const each of edits) assert.deepEqual(Object.keys(each).sort(), ['newText', 'range'], title);
      }
      const mended = actions.flatMap(({ diagnostics = [] }) => diagnostics.map(({ code }) => code));
      await findings(document, (found) => mended.every((code) => found.some((each) => each.code === code)));
      for (const about of ['codeLens', 'documentColor', 'inlayHint', 'documentLink', 'documentSymbol', 'foldingRange'])
        await server.request(`textDocument/${about}`, { textDocument: { uri }, range: whole(document) });
      close(document);
    }
    const sent = server.published.flatMap(({ diagnostics }) => diagnostics);
    assert.ok(new Set(sent.map(({ code }) => code)).size > 30);
    for (const { range, severity, code, source, message, ...more } of sent) assert.deepEqual(more, {}, String(code));
    assert.equal(able.executeCommandProvider, undefined);

    const everything = Buffer.concat(received).toString();
    // Requests of the server too: it was told of nothing that it could ask for.
    const methods = new Set([...everything.matchAll(/"method":"([^"]+)"/g)].map(([, method]) => method));
    assert.deepEqual(
      [...methods].filter((method) => method !== 'window/logMessage'),
      ['textDocument/publishDiagnostics'],
    );
    assert.deepEqual([...new Set(everything.match(/\b[a-z][a-z0-9+.-]*:\/\//g))], ['file://']);
    const ours = [
      'command:',
      '"command":"',
      'bench view',
      ...manifest.contributes.commands.map(({ command }) => command),
    ];
    const lowerCase = everything.toLowerCase().replaceAll('"command":""', '');
    for (const word of ours) {
      const found = lowerCase.indexOf(word.toLowerCase());
      assert.equal(found, -1, `${word}: ${lowerCase.slice(Math.max(0, found - 200), found + 100)}`);
    }
  });
});

const whole = (document: TextDocument) => ({
  start: document.positionAt(0),
  end: document.positionAt(document.getText().length),
});
