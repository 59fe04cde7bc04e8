/**
 * Finds what the tests need beside npm's packages, and installs it where that is possible: a browser, its face and ngspice
 * from Debian's packages when run as root there, VS Code from the npm registry into a cache. Run it with tsx, or call `setUp`.
 */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { findBrowser } from '../host/browser.ts';
import { findEditorParts, installEditorParts } from '../host/editor-parts.ts';

export interface Wanted {
  /** Circuit simulator that tests compare with. */
  readonly ngspice?: boolean;
  /** Converter that the command line makes a PNG with. */
  readonly pictures?: boolean;
  /** Revisions to compare with. */
  readonly git?: boolean;
  /** Chromium or Chrome, in which tests look at pages and at the editor. */
  readonly browser?: boolean;
  /** VS Code from the npm registry. */
  readonly editor?: boolean;
}

/** Returns what is still missing, one line each with what to install; empty when all is there. */
export function setUp(wanted: Wanted, log: (line: string) => void = console.error): readonly string[] {
  const tools: readonly Tool[] = [
    {
      debianPackages: ['ngspice'],
      wanted: wanted.ngspice === true,
      isThere: () => isOnPath('ngspice'),
      advice: 'ngspice',
    },
    {
      debianPackages: ['librsvg2-bin'],
      wanted: wanted.pictures === true,
      isThere: () => isOnPath('rsvg-convert'),
      advice: 'rsvg-convert (drawings as PNG)',
    },
    {
      debianPackages: ['git'],
      wanted: wanted.git === true,
      isThere: () => isOnPath('git'),
      advice: 'git',
    },
    {
      debianPackages: ['chromium'],
      wanted: wanted.browser === true,
      isThere: () => findBrowser() !== undefined,
      advice: 'Chromium or Chrome (or set CHROMIUM to its path)',
    },
    {
      // Tests measure drawings in the face that their width table was made from; other systems bring one of its metric.
      debianPackages: ['fonts-liberation'],
      wanted: wanted.browser === true && existsSync('/etc/debian_version'),
      isThere: () => LIBERATION.some((folder) => existsSync(folder)),
      advice: 'fonts-liberation',
    },
    {
      debianPackages: ['g++', 'make', 'python3'],
      wanted: wanted.editor === true && findEditorParts() === undefined,
      isThere: () => ['c++', 'make', 'python3'].every(isOnPath),
      advice: 'a C++ compiler, make and python3 (two modules of the editor are built)',
    },
  ];
  const absent = tools.filter((tool) => tool.wanted && !tool.isThere());
  if (absent.length > 0 && existsSync('/etc/debian_version') && process.getuid?.() === 0) {
    installDebianPackages(
      absent.flatMap((tool) => tool.debianPackages),
      log,
    );
  }
  const missing = absent.filter((tool) => !tool.isThere()).map((tool) => `install ${tool.advice}, then run this again`);
  if (missing.length === 0 && wanted.editor === true && findEditorParts() === undefined) installEditorParts(log);
  return missing;
}

/** Where Debian has put the face, newer releases first. */
const LIBERATION = ['/usr/share/fonts/truetype/liberation', '/usr/share/fonts/truetype/liberation2'];

interface Tool {
  readonly debianPackages: readonly string[];
  readonly wanted: boolean;
  readonly advice: string;
  isThere(): boolean;
}

function isOnPath(program: string): boolean {
  const folders = (process.env.PATH ?? '').split(path.delimiter);
  return folders.some(
    (folder) => existsSync(path.join(folder, program)) || existsSync(path.join(folder, `${program}.exe`)),
  );
}

function installDebianPackages(names: readonly string[], log: (line: string) => void): void {
  log(`installing Debian packages: ${names.join(', ')}`);
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  for (const args of [
    ['update', '-qq'],
    ['install', '-y', '-qq', '--no-install-recommends', ...names],
  ]) {
    const done = spawnSync('apt-get', args, { env, encoding: 'utf8' });
    if (done.status !== 0) log(`apt-get ${args.join(' ')}: ${(done.stderr || done.error?.message || '').trim()}`);
  }
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const missing = setUp({ ngspice: true, pictures: true, git: true, browser: true, editor: true });
  for (const line of missing) console.error(line);
  process.exitCode = missing.length === 0 ? 0 : 1;
}
