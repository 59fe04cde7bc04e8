/**
 * One spelling for one file. Editors escape more of a URI than a relative path resolved against it would, and write drive
 * letters in either case; a document that is open must be found under both.
 */
export function fileKey(uri: string): string {
  const known = keys.get(uri);
  if (known !== undefined) return known;
  if (keys.size >= MOST_KEYS) keys.clear();
  const key = spelled(uri);
  keys.set(uri, key);
  return key;
}

/** Asked for at every keystroke for every file that is open, and spelling one takes longer than looking it up. */
const keys = new Map<string, string>();
const MOST_KEYS = 20_000;

function spelled(uri: string): string {
  try {
    const url = new URL(uri);
    const path = url.pathname
      .split('/')
      .map((segment) => encodeURIComponent(decodeURIComponent(segment)))
      .join('/')
      .replace(/^\/[A-Z](?=%3A(?:\/|$))/, (drive) => drive.toLowerCase());
    return `${url.protocol}//${url.host}${path}${url.search}`;
  } catch {
    return uri;
  }
}

/** The folder of a file, with its slash. */
export const folderOf = (key: string): string => key.slice(0, key.lastIndexOf('/') + 1);

/** True where the file lies in the folder or below it. */
export const isBelow = (key: string, folder: string): boolean =>
  folder !== '' && key.startsWith(folder.endsWith('/') ? folder : `${folder}/`);

/** What a person calls the file: the end of its address, without escapes. */
export function fileName(uri: string): string {
  const name = uri.split('/').at(-1) ?? '';
  try {
    return decodeURIComponent(name);
  } catch {
    return name;
  }
}
