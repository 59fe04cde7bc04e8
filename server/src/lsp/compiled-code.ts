/**
 * Code that was compiled when the program was built. Compiling a megabyte as it is first run takes longer than the findings of a whole
 * file. Every version of the engine has a form of its own for it, so what another one wrote is passed over, and the text is compiled.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { Script } from 'node:vm';
import zlib from 'node:zlib';

export interface LoadedProgram {
  /** Runs it as `require` would. */
  run(): void;
  /** All that has been compiled so far, for a file beside the program. */
  compiled(): Buffer;
  /** True where the file beside it served: it is of this text and this engine. */
  readonly isCompiled: boolean;
}

export const compiledFile = (program: string): string => `${program}.compiled`;

/** A program of CommonJS in ASCII alone, as the bundler leaves it: nothing has to be decoded. */
export function loadProgram(program: string): LoadedProgram {
  const text = readFileSync(program);
  const cachedData = storedCode(compiledFile(program), text);
  const script = new Script(
    `(function (exports, require, module, __filename, __dirname) {${text.toString('latin1')}\n})`,
    { filename: program, ...(cachedData ? { cachedData } : {}) },
  );
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

/**
 * The engine itself only compares lengths of texts, and believes the code. Checksums tell what is damaged, or was built later, as well as
 * digests do, whose library takes two milliseconds to load. The oldest engines have none: theirs never fit, and the text is compiled.
 */
function markOf(text: Buffer, code: Buffer): Buffer {
  const engine = `${process.version} ${process.arch} ${process.platform}`;
  const mark = Buffer.alloc(MARK_BYTES);
  if (zlib.crc32)
    for (const [index, each] of [engine, text, code].entries()) mark.writeUInt32LE(zlib.crc32(each), 4 * index);
  return mark;
}

const MARK_BYTES = 12;

const NO_MARK = Buffer.alloc(MARK_BYTES);

function storedCode(file: string, text: Buffer): Buffer | undefined {
  try {
    const stored = readFileSync(file);
    const [mark, code] = [stored.subarray(0, MARK_BYTES), stored.subarray(MARK_BYTES)];
    return !mark.equals(NO_MARK) && mark.equals(markOf(text, code)) ? code : undefined;
  } catch {
    return undefined;
  }
}
