/** A shop of any size for measuring: a parts file, and a pickup with readings and its instrument a file, in a folder a year. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';

const TEMPLATE = readFileSync(path.join(import.meta.dirname, 'realistic.tpl'), 'utf8');
const FIRST_YEAR = 2016;
const YEARS = 10;

export function writeShop(folder: string, files: number): void {
  const [parts = '', pickup = ''] = TEMPLATE.split('%%\n');
  const write = (file: string, text: string): void => {
    mkdirSync(path.dirname(path.join(folder, file)), { recursive: true });
    writeFileSync(path.join(folder, file), text);
  };
  write('parts/stock.pickup', parts);
  for (const [index, file] of shopFiles(files).entries())
    write(file, `use "../parts/stock.pickup"\n${pickup.replaceAll('{{i}}', String(index))}`);
}

/** Its files but for the parts, in order. */
export const shopFiles = (files: number): readonly string[] =>
  Array.from({ length: files }, (_, index) => `${FIRST_YEAR + Math.floor((index * YEARS) / files)}/p${index}.pickup`);
