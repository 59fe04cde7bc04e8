import { readFileSync } from 'node:fs';
import path from 'node:path';

/** Title in the command palette, `Category: Title`, of each command of the extension in `folder`, by the command's id. */
export function commandTitles(folder: string, language = 'en'): ReadonlyMap<string, string> {
  const file = language === 'en' ? 'package.nls.json' : `package.nls.${language}.json`;
  const strings = asRecord(readJson(path.join(folder, file)));
  const localized = (value: unknown): string => {
    const key = /^%(.+)%$/.exec(String(value))?.[1];
    return key === undefined ? String(value) : String(strings[key] ?? value);
  };
  const commands = asRecord(asRecord(readJson(path.join(folder, 'package.json'))).contributes).commands;
  const list: readonly unknown[] = Array.isArray(commands) ? commands : [];
  return new Map(
    list.map(asRecord).map(({ command, category, title }) => {
      const prefix = category === undefined ? '' : `${localized(category)}: `;
      return [String(command), prefix + localized(title)];
    }),
  );
}

function readJson(file: string): unknown {
  try {
    return JSON.parse(readFileSync(file, 'utf8'));
  } catch {
    // An extension without texts of its own has no such file.
    return {};
  }
}

function asRecord(value: unknown): Record<string, unknown> {
  return typeof value === 'object' && value !== null ? Object.fromEntries(Object.entries(value)) : {};
}
