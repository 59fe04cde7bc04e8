import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { inflateRawSync } from 'node:zlib';

/**
 * Unpacks a zip archive (a .vsix is one) and returns the names in it. Reads what packaging tools write: stored or
 * deflated entries, no encryption, no archives beyond 4 GB. Layout: PKWARE APPNOTE.TXT, sections 4.3.7, 4.3.12, 4.3.16.
 */
export function unzip(archive: string, folder: string): readonly string[] {
  const bytes = readFileSync(archive);
  const end = bytes.lastIndexOf('PK\x05\x06', undefined, 'latin1');
  if (end < 0) throw new Error(`${archive} is not a zip archive`);
  const names: string[] = [];
  let at = bytes.readUInt32LE(end + 16);
  for (let left = bytes.readUInt16LE(end + 10); left > 0; left -= 1) {
    const method = bytes.readUInt16LE(at + 10);
    const size = bytes.readUInt32LE(at + 20);
    const nameLength = bytes.readUInt16LE(at + 28);
    const name = bytes.toString('utf8', at + 46, at + 46 + nameLength);
    const local = bytes.readUInt32LE(at + 42);
    const start = local + 30 + bytes.readUInt16LE(local + 26) + bytes.readUInt16LE(local + 28);
    const content = bytes.subarray(start, start + size);
    if (!name.endsWith('/')) write(folder, name, method === 0 ? content : inflateRawSync(content));
    names.push(name);
    at += 46 + nameLength + bytes.readUInt16LE(at + 30) + bytes.readUInt16LE(at + 32);
  }
  return names;
}

function write(folder: string, name: string, content: Buffer): void {
  const file = path.resolve(folder, name);
  if (path.relative(folder, file).startsWith('..')) throw new Error(`the archive wants to write outside: ${name}`);
  mkdirSync(path.dirname(file), { recursive: true });
  writeFileSync(file, content);
}
