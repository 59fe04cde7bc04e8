import { readdirSync } from 'node:fs';
import path from 'node:path';
import { build, type Plugin } from 'esbuild';

export type Flavour = 'desktop' | 'web';

/** The suite for one flavour: where its module is, and which test files had to stay outside. */
export interface BundledSuite {
  readonly module: string;
  readonly tests: readonly string[];
  readonly leftOut: readonly string[];
}

/**
 * Bundles every test of `folder` into one module for VS Code. A test that needs Node is called `*.node.test.ts`; it is
 * part of the desktop flavour only, and `*.web.test.ts` of the other. `named`: only files with that in their name.
 */
export async function bundleSuite(
  flavour: Flavour,
  folder: string,
  outputFolder: string,
  named = '',
): Promise<BundledSuite> {
  const all = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.test.ts') && file.includes(named))
    .sort();
  const other = flavour === 'desktop' ? '.web.test.ts' : '.node.test.ts';
  const tests = all.filter((file) => !file.endsWith(other));
  const module = path.join(outputFolder, flavour === 'desktop' ? 'index.cjs' : 'index-web.cjs');
  await build({
    entryPoints: [path.join(import.meta.dirname, flavour === 'desktop' ? 'index.ts' : 'index-web.ts')],
    outfile: module,
    bundle: true,
    sourcemap: 'inline',
    logLevel: 'warning',
    plugins: [editorTests(folder, tests)],
    ...(flavour === 'desktop'
      ? {
          platform: 'node',
          format: 'cjs',
          target: 'node22',
          external: ['vscode', 'mocha', 'playwright-core', 'axe-core'],
        }
      : {
          platform: 'browser',
          // Mocha's browser build takes module.exports for itself; the last line takes it back.
          format: 'iife',
          globalName: 'suite',
          footer: { js: 'module.exports = suite;' },
          target: 'es2022',
          external: ['vscode'],
          alias: { 'node:assert/strict': path.join(import.meta.dirname, 'assert-web.ts') },
        }),
  });
  return { module, tests, leftOut: all.filter((file) => !tests.includes(file)) };
}

function editorTests(folder: string, tests: readonly string[]): Plugin {
  const lines = tests.map((file) => `require(${JSON.stringify(`./${file}`)});`);
  return {
    name: 'editor-tests',
    setup(builder) {
      builder.onResolve({ filter: /^editor-tests$/ }, (args) => ({ path: args.path, namespace: 'editor-tests' }));
      // Required inside a function: the tests call describe(), which exists only once mocha is set up.
      builder.onLoad({ filter: /.*/, namespace: 'editor-tests' }, () => ({
        contents: `export function loadTests() { ${lines.join('\n')} }`,
        resolveDir: folder,
        loader: 'js',
      }));
    },
  };
}
