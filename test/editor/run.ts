/**
 * Runs test/editor/*.test.ts inside a real VS Code: desktop VS Code where VSCODE_EXECUTABLE names one, otherwise the one
 * from the npm registry in a browser. EDITOR_FLAVOUR=web runs the extension in the browser's worker, of an
 * editor that says it is in German,
 * EXTENSION_FOLDER names another unpacked extension than this repository, VERBOSE=1 shows the editor's own output too,
 * INSTALLED_PACKAGE names a package that is installed first and tested as it then is (in the npm registry's editor, on Node),
 * EDITOR_VERSION=oldest takes the oldest supported editor (VS Code 1.103),
 * EDITOR_TESTS=markdown runs only the files with that in their name.
 */
import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { Writable } from 'node:stream';
import { StringDecoder } from 'node:string_decoder';
import { runTests } from '@vscode/test-electron';
import { findEditorParts } from '../host/editor-parts.ts';
import { freePort } from '../host/vscode-server.ts';
import { setUp } from '../scripts/set-up.ts';
import { bundleSuite, type Flavour } from './bundle.ts';
import { mark } from './run-suite.ts';

const root = path.resolve(import.meta.dirname, '..', '..');

async function runEditorTests(): Promise<number> {
  const flavour: Flavour = process.env.EDITOR_FLAVOUR === 'web' ? 'web' : 'desktop';
  const host = findHost();
  if (host === undefined) return 1;
  const extension = process.env.EXTENSION_FOLDER ?? root;
  // The editor runs tests where the extension runs that contains them; on Node they also need this folder's packages.
  const suiteFolder = path.join(flavour === 'web' ? extension : root, 'dist', 'test', 'editor');
  const suite = await bundleSuite(flavour, import.meta.dirname, suiteFolder, process.env.EDITOR_TESTS);
  const installs = process.env.INSTALLED_PACKAGE === undefined ? '' : ', the package installed';
  console.log(`in-editor tests: ${host.name}${installs}${flavour === 'web' ? ', extension in a web worker' : ''}`);
  for (const file of suite.leftOut) console.log(`  not part of this flavour: ${file}`);

  const scratch = mkdtempSync(path.join(tmpdir(), 'pickup-spec-'));
  const output = new LineFilter();
  try {
    const workspace = copiedSamples(scratch);
    const installed = process.env.INSTALLED_PACKAGE;
    const port = await freePort();
    await runTests({
      vscodeExecutablePath: host.executable,
      extensionDevelopmentPath: installed === undefined ? extension : emptyExtension(scratch),
      extensionTestsPath: suite.module,
      extensionTestsEnv: { PICKUP_SPEC_WINDOW_PORT: String(port), PICKUP_SPEC_PACKAGE: installed ?? '', ...committer },
      launchArgs: [
        workspace,
        ...(flavour === 'web' ? ['--extensionDevelopmentKind=web', '--locale=de'] : []),
        `--remote-debugging-port=${port}`,
        `--user-data-dir=${path.join(scratch, 'user')}`,
        `--extensions-dir=${path.join(scratch, 'extensions')}`,
        ...(installed === undefined ? ['--disable-extensions'] : [`--installed-package=${path.resolve(installed)}`]),
      ],
      stdout: output,
      stderr: output,
    });
    return 0;
  } catch (error) {
    if (!output.sawTotals) console.error(output.lastLines());
    console.error(error instanceof Error ? error.message : String(error));
    return 1;
  } finally {
    rmSync(scratch, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  }
}

/** Those of the mistakes that a test here opens: what the others show does not depend on an editor, and each run over all specs would check them again. */
const MISTAKES = ['hum-not-cancelled', 'phase-coils-cancel', 'photo-missing', 'unit-missing', 'unit-wrong'];

/** Tests edit and save: they get a copy, and the samples stay as they are. */
function copiedSamples(scratch: string): string {
  const [from, to] = [path.join(root, 'samples'), path.join(scratch, 'samples')];
  const mistakes = path.join(from, 'mistakes');
  cpSync(from, to, {
    recursive: true,
    filter: (file) => path.dirname(file) !== mistakes || MISTAKES.includes(path.basename(file, '.pickup')),
  });
  return to;
}

/** The editor runs tests beside an extension that is being developed only: here one that brings nothing. */
function emptyExtension(scratch: string): string {
  const folder = path.join(scratch, 'no-extension');
  mkdirSync(folder);
  const manifest = { name: 'no-extension', publisher: 'tests', version: '0.0.0', engines: { vscode: '*' } };
  writeFileSync(path.join(folder, 'package.json'), JSON.stringify(manifest));
  return folder;
}

/** Who commits in the tests, whoever the machine belongs to. */
const committer = {
  GIT_AUTHOR_NAME: 'Bench',
  GIT_AUTHOR_EMAIL: 'bench@example.org',
  GIT_COMMITTER_NAME: 'Bench',
  GIT_COMMITTER_EMAIL: 'bench@example.org',
};

interface Host {
  readonly name: string;
  readonly executable: string;
}

function findHost(): Host | undefined {
  const desktop = process.env.VSCODE_EXECUTABLE;
  if (desktop !== undefined && desktop !== '') {
    if (!existsSync(desktop)) {
      console.error(`VSCODE_EXECUTABLE names ${desktop}, which does not exist`);
      return undefined;
    }
    const version =
      spawnSync(desktop, ['--version'], { encoding: 'utf8', timeout: 20_000 }).stdout?.split('\n')[0] ||
      'of unknown version';
    return { name: `desktop VS Code ${version} at ${desktop}`, executable: desktop };
  }
  const missing = setUp({ browser: true, editor: true });
  for (const line of missing) console.error(line);
  const parts = findEditorParts();
  if (missing.length > 0 || parts === undefined) return undefined;
  const executable = path.join(root, 'test', 'host', 'editor-host.ts');
  return { name: `VS Code ${parts.vscodeVersion} from npm, in a browser`, executable };
}

/** Lets the marked lines through and keeps the others for the case that something goes wrong. */
class LineFilter extends Writable {
  sawTotals = false;
  private rest = '';
  private readonly decoder = new StringDecoder('utf8');
  private readonly unmarked: string[] = [];

  override _write(chunk: Buffer, _encoding: string, done: () => void): void {
    const lines = (this.rest + this.decoder.write(chunk)).split('\n');
    this.rest = lines.pop() ?? '';
    for (const line of lines) this.show(line);
    done();
  }

  lastLines(): string {
    // The editor's own stacks say nothing about a suite that did not get to run.
    const telling = this.unmarked.filter((line) => !/^\s+at .*workbench\.js:|^Ignoring fetching/.test(line));
    return [...telling.slice(-40), this.rest].join('\n');
  }

  private show(line: string): void {
    const at = line.indexOf(mark);
    if (at >= 0) {
      const text = line.slice(at + mark.length);
      this.sawTotals ||= /^editor: \d+ passed/.test(text);
      console.log(text);
    } else {
      this.unmarked.push(line);
      if (process.env.VERBOSE === '1') console.log(line);
    }
  }
}

process.exitCode = await runEditorTests();
