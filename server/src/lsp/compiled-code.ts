/**
 * Code that was compiled when the program was built. Compiling a megabyte as it is first run takes longer than the findings of a whole
 * file. Every version of the engine has a form of its own for it, so what another one wrote is passed over, and the text is compiled.
 */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { Script } from 'node:vm';

export interface LoadedProgram {
  /** Runs it as `require` would. */
  run(): void;
  /** All that has been compiled so far, for a file beside the program. */
  compiled(): Buffer;
  /** True where the file beside it served: it is of this text and this engine. */
  readonly isCompiled: boolean;
}

export const compiledFile = (program: string): string => `${program}.compiled`;

/** A program of CommonJS. */
export function loadProgram(program: string): LoadedProgram {
  const text = readFileSync(program, 'utf8');
  const cachedData = storedCode(compiledFile(program), text);
  const script = new Script(`(function (exports, require, module, __filename, __dirname) {${text}\n})`, {
    filename: program,
    ...(cachedData ? { cachedData } : {}),
  });
  return {
    run: () => {
      const module = { exports: {} };
      script.runInThisContext()(module.exports, createRequire(program), module, program, path.dirname(program));
    },
    compiled: () => {
      const code = script.createCachedData();
      return Buffer.concat([markOf(text, code), code]);
    },
    isCompiled: cachedData !== undefined && script.cachedDataRejected === false,
  };
}

/** The engine itself only compares lengths of texts, and believes the code. */
const markOf = (text: string, code: Buffer): Buffer =>
  createHash('sha256')
    .update(`${process.version} ${process.arch} ${process.platform}\n`)
    .update(text)
    .update(code)
    .digest();

const MARK_BYTES = 32;

function storedCode(file: string, text: string): Buffer | undefined {
  try {
    const stored = readFileSync(file);
    const code = stored.subarray(MARK_BYTES);
    return stored.subarray(0, MARK_BYTES).equals(markOf(text, code)) ? code : undefined;
  } catch {
    return undefined;
  }
}
