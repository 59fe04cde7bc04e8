import { existsSync } from 'node:fs';
import path from 'node:path';
import { CommandError, defineCommand } from './command.ts';
import { shownPath } from './files.ts';
import { STARTER_SHOP } from './starter-shop.ts';
import { visible } from './visible.ts';
import { writeFile } from './write-file.ts';

export const newShop = defineCommand({
  name: 'new',
  summary: 'a starter shop: parts, one pickup, one instrument',
  positionals: 'DIR',
  least: 1,
  most: 1,
  options: {},
  notes: ['Writes only files that are not there yet; where one of them is, nothing is written.'],
  example: { line: 'pickup-spec new my-shop && pickup-spec check my-shop', meaning: 'begin, and see that it is clean' },
  async run(_values, [name = ''], context) {
    const folder = path.resolve(context.cwd, name);
    const files = STARTER_SHOP.map(({ path: within, text }) => ({ file: path.join(folder, within), text }));
    const there = files.find(({ file }) => existsSync(file));
    if (there) throw new CommandError(`${shownPath(there.file, context.cwd)}: is already there; nothing was written`);
    for (const { file, text } of files) {
      await writeFile(file, text, { replace: false });
      context.stdout.write(`${visible(shownPath(file, context.cwd))}\n`);
    }
    return 0;
  },
});
