/** Results that are kept as files, so that a change of any word of them is seen in a review. `UPDATE_BASELINES=1` writes them anew. */
import assert from 'node:assert/strict';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';

export const isUpdate = (process.env.UPDATE_BASELINES ?? '') !== '';

export function assertStored(file: string, actual: string): void {
  if (isUpdate) {
    mkdirSync(path.dirname(file), { recursive: true });
    writeFileSync(file, actual);
  }
  assert.ok(existsSync(file), `${file} is missing: UPDATE_BASELINES=1 writes it`);
  const expected = readFileSync(file, 'utf8');
  if (expected === actual) return;
  // The first lines that differ say more than two files beside each other.
  const [before, after] = [expected.split('\n'), actual.split('\n')];
  const at = before.findIndex((line, index) => line !== after[index]);
  assert.deepEqual(after.slice(at, at + 5), before.slice(at, at + 5), `${file}, line ${at + 1}`);
  assert.fail(`${file} has ${after.length - before.length} lines more`);
}
