/** What `typescript.mjs` hooks into Node's loader. Plain JavaScript, because nothing reads TypeScript before it. */
import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { transform, version } from 'esbuild';

const KEPT = path.resolve(import.meta.dirname, '../../node_modules/.cache/typescript');
mkdirSync(KEPT, { recursive: true });

/** @type {import('node:module').LoadHook} */
export async function load(url, context, nextLoad) {
  if (!url.startsWith('file:') || !url.endsWith('.ts')) return await nextLoad(url, context);
  const file = fileURLToPath(url);
  return { format: 'module', shortCircuit: true, source: await asJavaScript(file, readFileSync(file, 'utf8')) };
}

/**
 * @param {string} file
 * @param {string} text
 */
async function asJavaScript(file, text) {
  const kept = path.join(KEPT, createHash('sha256').update(`${version} node20.11\n${file}\n${text}`).digest('hex'));
  try {
    return readFileSync(kept, 'utf8');
  } catch {
    const { code } = await transform(text, {
      loader: 'ts',
      format: 'esm',
      target: 'node20.11',
      sourcefile: file,
      sourcemap: 'inline',
      sourcesContent: false,
    });
    // Other processes write the same file: whole, or not at all.
    const whole = `${kept}.${process.pid}`;
    writeFileSync(whole, code);
    renameSync(whole, kept);
    return code;
  }
}
