import assert from 'node:assert/strict';
import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';

const root = path.resolve(import.meta.dirname, '..', '..');

describe('the table of features', () => {
  const table = readFileSync(path.join(root, 'test/editor/features.md'), 'utf8');
  const rows = [...table.matchAll(/^\| ([^|]+?) +\| ([^|]+?) +\| ([^|]+?) +\|$/gm)]
    .map(([, feature = '', here = '', shown = '']) => ({ feature, here, shown }))
    .filter(({ feature }) => feature !== 'feature' && !feature.startsWith('---'));

  it('has at least 55 rows, each once, and says of each yes, partly or no, and why not', () => {
    assert.ok(rows.length >= 55, String(rows.length));
    assert.equal(new Set(rows.map(({ feature }) => feature)).size, rows.length);
    for (const { feature, here } of rows) assert.match(here, /^(yes|(partly|no): \S.+)$/, feature);
  });

  it('names for each that is here a test that there is, by its title where it is one of many', () => {
    for (const { feature, here, shown } of rows) {
      if (here.startsWith('no')) {
        assert.equal(shown, '–', feature);
        continue;
      }
      const [, file = '', title] = /^`([^`]+)`(?:: (.+))?$/.exec(shown) ?? [];
      assert.ok(existsSync(path.join(root, file)), `${feature}: ${file}`);
      if (!file.endsWith('.test.ts')) continue;
      assert.ok(title !== undefined, `${feature}: which test of ${file}?`);
      assert.ok(readFileSync(path.join(root, file), 'utf8').includes(title), `${feature}: ${title}`);
    }
  });
});
