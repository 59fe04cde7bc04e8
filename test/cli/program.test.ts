import assert from 'node:assert/strict';
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  realpathSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { findChromium } from '../../server/src/cli/chromium.ts';
import { commands } from '../../server/src/cli/commands.ts';
import { findProgram } from '../../server/src/cli/program.ts';
import { Shell } from './shell.ts';

describe('another program', () => {
  let folder = '';
  const at = (file: string): string => path.join(folder, file);
  const program = (file: string, text = '#!/bin/sh\ntouch ran\n'): string => {
    mkdirSync(path.dirname(at(file)), { recursive: true });
    writeFileSync(at(file), text);
    chmodSync(at(file), 0o755);
    return at(file);
  };
  beforeEach(() => {
    folder = realpathSync(mkdtempSync(path.join(tmpdir(), 'pickup-program-')));
  });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  it('is the first of its name in PATH that can be run', () => {
    writeFileSync(at('tool'), 'no program');
    mkdirSync(at('a/tool'), { recursive: true });
    const found = program('b/tool');
    program('c/tool');
    const PATH = [folder, at('a'), at('b'), at('c')].join(path.delimiter);
    assert.equal(findProgram('tool', { PATH }, '/'), found);
    assert.equal(findProgram('other', { PATH }, '/'), undefined);
    assert.equal(findProgram('tool', {}, '/'), undefined);
  });

  it('is never one of the current folder, however PATH may name that', () => {
    program('specs/tool');
    const cwd = at('specs');
    for (const PATH of ['', '.', './', ':', `${cwd}`, `${cwd}/`, `${cwd}/../specs`, 'sub']) {
      assert.equal(findProgram('tool', { PATH }, cwd), undefined, PATH);
    }
  });

  it('is never run out of the folder of the specs: git, the maker of PNG files, the browser', async () => {
    const shell = new Shell(commands);
    try {
      shell.write('a.pickup', 'wire a {\n  gauge 42 AWG\n}\n');
      const names = ['git', 'rsvg-convert', 'chromium', 'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe'];
      for (const name of names) {
        shell.write(name, `#!/bin/sh\ntouch ${shell.path('ran')}\n`);
        chmodSync(shell.path(name), 0o755);
      }
      const environment = { PATH: `.:${shell.folder}`, CHROMIUM: 'chromium' };
      const said = [
        await shell.run(['compare', 'HEAD:a.pickup', 'a.pickup'], { environment }),
        await shell.run(['cards', 'a.pickup', '-o', 'cards', '--pdf'], { environment }),
      ];
      assert.deepEqual(
        said.map(({ code }) => code),
        [2, 2],
      );
      assert.match(said[0]?.stderr ?? '', /git is needed for this and was not found/);
      assert.match(said[1]?.stderr ?? '', /--pdf needs Chromium/);
      assert.equal(existsSync(shell.path('ran')), false);
    } finally {
      shell.remove();
    }
  });

  it('that is the browser may be named by its path, from the current folder on, too', () => {
    const browser = program('bin/browser');
    symlinkSync(browser, at('link'));
    assert.equal(findChromium({ CHROMIUM: browser }, '/'), browser);
    assert.equal(findChromium({ CHROMIUM: 'bin/browser' }, folder), browser);
    assert.equal(findChromium({ CHROMIUM: 'browser', PATH: at('bin') }, folder), browser);
    assert.equal(findChromium({ CHROMIUM: 'link', PATH: '.' }, folder), undefined);
  });
});
