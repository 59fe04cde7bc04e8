/** Other programs, found before they are run: what lies in the current folder came with somebody's specs. */
import { accessSync, constants, statSync } from 'node:fs';
import path from 'node:path';

export type Environment = Readonly<Record<string, string | undefined>>;

/** The absolute path of an installed program, or undefined. Entries of PATH that mean the current folder do not count. */
export function findProgram(name: string, environment: Environment, cwd: string): string | undefined {
  const windows = process.platform === 'win32';
  const folders = (environment.PATH ?? environment.Path ?? '').split(path.delimiter);
  return folders
    .filter((folder) => path.isAbsolute(folder) && path.relative(folder, cwd) !== '')
    .map((folder) => path.join(folder, windows ? `${name}.exe` : name))
    .find(isProgram);
}

export function isProgram(file: string): boolean {
  try {
    accessSync(file, constants.X_OK);
    return statSync(file).isFile();
  } catch {
    return false;
  }
}
