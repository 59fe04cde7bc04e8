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
  for (let index = 0; index < files; index += 1) {
    const year = FIRST_YEAR + Math.floor((index * YEARS) / files);
    write(`${year}/p${index}.pickup`, `use "../parts/stock.pickup"\n${pickup.replaceAll('{{i}}', String(index))}`);
  }
}
