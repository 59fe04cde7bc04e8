/** What is packaged, as .vscodeignore says it: everything out, then what its lines with `!` bring in. */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';

/** From the repository on, sorted; what the build makes is among it once it is made. */
export function packagedFiles(root: string): readonly string[] {
  const lines = readFileSync(path.join(root, '.vscodeignore'), 'utf8').split('\n');
  const wanted = lines.flatMap((line) => (line.startsWith('!') ? [line.slice(1).trim()] : []));
  const files = wanted.flatMap((pattern) => {
    const folder = path.posix.dirname(pattern);
    const pieces = path.posix.basename(pattern).split('*');
    const name = new RegExp(`^${pieces.map((piece) => piece.replaceAll('.', '\\.')).join('[^/]*')}$`);
    return namesIn(path.join(root, folder))
      .filter((each) => name.test(each))
      .map((each) => path.posix.join(folder, each));
  });
  return [...new Set(files)].sort();
}

function namesIn(folder: string): readonly string[] {
  try {
    return readdirSync(folder);
  } catch {
    return [];
  }
}
