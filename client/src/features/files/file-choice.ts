import { Uri, window, workspace } from 'vscode';

/** A folder to write into; `undefined` where nobody chose one. */
export async function askFolder(title: string, openLabel: string, defaultUri?: Uri): Promise<Uri | undefined> {
  const chosen = await window.showOpenDialog({
    title,
    openLabel,
    canSelectFiles: false,
    canSelectFolders: true,
    ...(defaultUri && { defaultUri }),
  });
  return chosen?.[0];
}

export const isThere = (uri: Uri): Thenable<boolean> =>
  workspace.fs.stat(uri).then(
    () => true,
    () => false,
  );

export const writeText = (uri: Uri, text: string): Thenable<void> =>
  workspace.fs.writeFile(uri, new TextEncoder().encode(text));

/** The last piece of its path. */
export const fileName = (uri: Uri | string): string => {
  const { path } = typeof uri === 'string' ? Uri.parse(uri) : uri;
  return path.split('/').at(-1) ?? path;
};
