/** What the compiler cannot see of the list of checks: that every file is in it, and that the late ones come last. */
import assert from 'node:assert/strict';
import { readdirSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Check } from '../../server/src/checks/check.ts';
import { instrumentChecks, pickupChecks } from '../../server/src/checks/index.ts';
import { codes } from '../../server/src/checks/pages.ts';

const FOLDER = path.resolve('server/src/checks');

const isCheck = (value: unknown): value is Check<never> =>
  typeof value === 'object' && value !== null && 'code' in value && 'yieldsTo' in value && 'run' in value;

describe('the list of checks', () => {
  const lists: readonly (readonly Check<never>[])[] = [pickupChecks, instrumentChecks];

  it('holds every check once, each in a file named after its code', async () => {
    const names = readdirSync(FOLDER).filter((name) => name.endsWith('.ts'));
    const inFiles = await Promise.all(
      names.map(async (name) => {
        const exported = Object.values(await import(pathToFileURL(path.join(FOLDER, name)).href)).filter(isCheck);
        const fileOf = ({ code }: Check<never>) => code.replace('/', '-');
        assert.deepEqual(
          exported.filter((check) => !name.startsWith(fileOf(check))).map(({ code }) => code),
          [],
          name,
        );
        return exported;
      }),
    );
    const found = inFiles.flat();
    const listed = lists.flat();
    assert.deepEqual(
      found.filter((check) => !listed.includes(check)).map(({ code }) => code),
      [],
    );
    assert.equal(new Set(listed).size, listed.length);
    assert.equal(found.length, listed.length);
  });

  it('lets no check that is ready at once yield to what follows only later', () => {
    for (const list of lists)
      for (const { code, late, yieldsTo } of list)
        for (const cause of yieldsTo) {
          const raising = list.filter((check) => check.code === cause);
          assert.ok(late || raising.some((check) => !check.late), `${code} yields to ${cause}`);
        }
  });

  it('has a page for every code, named after it', () => {
    const pages = readdirSync(FOLDER).filter((name) => name.endsWith('.md'));
    assert.deepEqual(
      pages,
      codes.map((code) => `${code.replace('/', '-')}.md`),
    );
  });
});
