import { chmod, readFile, stat, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { type BuildOptions, build, type Metafile, type Plugin } from 'esbuild';
import { compileServer } from './compile-server.ts';
import { bundledPackages, noticesText } from './notices.ts';

/** One file that is shipped: where it starts, where it goes, and where it runs. */
export interface Bundle {
  readonly entry: string;
  readonly output: string;
  readonly runsIn: 'node' | 'browser' | 'extension host' | 'web extension host';
  /** Started by name from a shell. */
  readonly executable?: boolean;
}

const SERVER_OUTPUT = 'dist/server/server-node.cjs';

/**
 * Everything that the extension and the command line consist of, relative to the repository. What the
 * editor itself loads ends in .cjs: in a package of type module, its web worker takes nothing else.
 */
export const bundles: readonly Bundle[] = [
  { entry: 'client/src/extension.ts', output: 'dist/client/extension.cjs', runsIn: 'extension host' },
  { entry: 'client/src/extension-web.ts', output: 'dist/client/extension-web.cjs', runsIn: 'web extension host' },
  { entry: 'client/webview/main.ts', output: 'dist/client/webview.js', runsIn: 'browser' },
  { entry: 'client/webview/explanation/main.ts', output: 'dist/client/explanation.js', runsIn: 'browser' },
  { entry: 'client/webview/bench-view.css', output: 'dist/client/webview.css', runsIn: 'browser' },
  { entry: 'client/markdown/markdown-preview.css', output: 'dist/client/markdown-preview.css', runsIn: 'browser' },
  { entry: 'server/src/lsp/main-node.ts', output: 'dist/server/main-node.cjs', runsIn: 'node', executable: true },
  { entry: 'server/src/lsp/server-node.ts', output: SERVER_OUTPUT, runsIn: 'node' },
  { entry: 'server/src/lsp/main-browser.ts', output: 'dist/server/main-browser.js', runsIn: 'browser' },
  { entry: 'server/src/cli/main.ts', output: 'dist/cli/pickup-spec.cjs', runsIn: 'node', executable: true },
];

/** Bundles each entry into one minified file with its source map; returns what was written by output. Rejects if an entry is missing. */
export async function writeBundles(list: readonly Bundle[], root: string): Promise<ReadonlyMap<string, Written>> {
  const written = await Promise.all(
    list.map(async (bundle) => {
      const { metafile } = await build({ ...optionsFor(bundle, root), metafile: true });
      const file = path.join(root, bundle.output);
      if (bundle.executable === true) await chmod(file, 0o755);
      return [bundle.output, { bytes: (await stat(file)).size, metafile }] as const;
    }),
  );
  return new Map(written);
}

export interface Written {
  readonly bytes: number;
  /** What it was made of. */
  readonly metafile: Metafile;
}

/** The licences of all that is in them, relative to the repository. */
export const NOTICES = 'dist/THIRD-PARTY-NOTICES.txt';

function optionsFor(bundle: Bundle, root: string): BuildOptions {
  return {
    absWorkingDir: root,
    entryPoints: [bundle.entry],
    outfile: bundle.output,
    bundle: true,
    minify: true,
    sourcemap: true,
    sourcesContent: false,
    legalComments: 'none',
    loader: { '.md': 'text' },
    plugins: bundle.runsIn === 'node' ? [escapedSigns, seldomUsed] : [escapedSigns],
    logLevel: 'silent',
    ...(bundle.executable === true ? { banner: { js: '#!/usr/bin/env node' } } : {}),
    ...placeOptions[bundle.runsIn],
  };
}

/**
 * Signs like Ω are escaped where the bundler leaves them (in expressions and in templates with a tag): one of them, and the engine keeps
 * the text of the whole program in twice the memory.
 */
const escapedSigns: Plugin = {
  name: 'escaped signs',
  setup: ({ onLoad }) => {
    onLoad({ filter: /\.ts$/ }, async ({ path: file }) => {
      const text = await readFile(file, 'utf8');
      const contents = text.replace(/[^\0-\x7f]/g, (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`);
      return { contents, loader: 'ts' };
    });
  },
};

/** Parts of Node that the protocol's library needs for pipes and processes only: over standard input and output they are never loaded. */
const seldomUsed: Plugin = {
  name: 'seldom used',
  setup: ({ onResolve, onLoad }) => {
    onResolve({ filter: /^(?:child_process|crypto)$/ }, ({ path: name }) => ({ path: name, namespace: 'seldom-used' }));
    onLoad({ filter: /./, namespace: 'seldom-used' }, ({ path: name }) => ({
      contents: `module.exports = new Proxy({}, { get: (_, key) => require('node:${name}')[key] });`,
    }));
  },
};

const placeOptions: Readonly<Record<Bundle['runsIn'], BuildOptions>> = {
  // The command line and the stand-alone server also run on Node 20; the oldest supported editor brings Node 22.
  node: { platform: 'node', format: 'cjs', target: 'node20' },
  'extension host': { platform: 'node', format: 'cjs', target: 'node22', external: ['vscode'] },
  browser: { platform: 'browser', format: 'iife', target: 'es2022' },
  'web extension host': { platform: 'browser', format: 'cjs', target: 'es2022', external: ['vscode'] },
};

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  try {
    const root = path.resolve(import.meta.dirname, '..', '..');
    const written = await writeBundles(bundles, root);
    for (const [output, { bytes }] of written) {
      console.log(`${String(Math.round(bytes / 1024)).padStart(6)} KB  ${output}`);
    }
    const packages = bundledPackages([...written.values()], root);
    await writeFile(path.join(root, NOTICES), noticesText(packages));
    console.log(`${String(packages.length).padStart(6)} packages in ${NOTICES}`);
    await compileServer(path.join(root, SERVER_OUTPUT), root, writeBundles);
  } catch (error) {
    console.error(error instanceof Error ? error.message : String(error));
    process.exitCode = 1;
  }
}
