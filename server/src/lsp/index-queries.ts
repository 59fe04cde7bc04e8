/** What follows from the names of all files: who uses whom, who mentions a name, which pickups are records. */
import type { Reference } from '../model/model.ts';
import type { IndexedFile, IndexedName } from './workspace-index.ts';

type IndexedFiles = ReadonlyMap<string, IndexedFile>;

/** The keys given and those of all that use them, directly or through others. */
export function usersOf(files: IndexedFiles, keys: Iterable<string>): ReadonlySet<string> {
  const users = new Map<string, string[]>();
  for (const { key, uses } of files.values())
    for (const { target } of uses) {
      const known = users.get(target);
      if (known) known.push(key);
      else users.set(target, [key]);
    }
  return reached(keys, (key) => users.get(key) ?? []);
}

/** The keys given and those of all that they use, directly or through others. */
export const usedBy = (files: IndexedFiles, keys: Iterable<string>): ReadonlySet<string> =>
  reached(keys, (key) => (files.get(key)?.uses ?? []).map(({ target }) => target));

function reached(keys: Iterable<string>, next: (key: string) => readonly string[]): ReadonlySet<string> {
  const found = new Set(keys);
  // A set that grows while it is walked is walked to its end.
  for (const key of found) for (const each of next(key)) found.add(each);
  return found;
}

/** Files in which a name declared in `key` can be meant and stands. */
export function filesMentioning(files: IndexedFiles, key: string, name: string): readonly IndexedFile[] {
  return [...usersOf(files, [key])].flatMap((user) => {
    const file = files.get(user);
    return file && (user === key || file.mentioned.has(name)) ? [file] : [];
  });
}

/** Files whose names meet those of `key` in some file, and which declare this one. */
export function filesDeclaring(
  files: IndexedFiles,
  key: string,
  { kind, name }: { readonly kind: Reference['kind']; readonly name: string },
): readonly IndexedFile[] {
  return [...usedBy(files, usersOf(files, [key]))].flatMap((met) => {
    const file = files.get(met);
    return file?.declared.some((each) => each.kind === kind && each.name === name) ? [file] : [];
  });
}

/** Files that cannot be read, with the reason. */
export const unreadableFiles = (files: IndexedFiles): readonly IndexedFile[] =>
  [...files.values()].filter(({ unreadable }) => unreadable !== undefined);

export interface DeclaredThere extends IndexedName {
  readonly uri: string;
  /** A pickup that another one reworks. */
  readonly isRecord: boolean;
}

export function declaredNames(files: IndexedFiles): readonly DeclaredThere[] {
  const records = new Set([...files.values()].flatMap((file) => reworkedFrom(files, file)));
  return [...files.values()].flatMap(({ uri, declared }) =>
    declared.map((each) => ({ ...each, uri, isRecord: records.has(each) })),
  );
}

/** The pickups of which those of a file are later states. */
function reworkedFrom(files: IndexedFiles, file: IndexedFile): readonly IndexedName[] {
  if (file.reworked.length === 0) return [];
  const near = [...usedBy(files, [file.key])].flatMap((key) => files.get(key)?.declared ?? []);
  return file.reworked.flatMap((name) => near.find((each) => each.kind === 'pickup' && each.name === name) ?? []);
}
