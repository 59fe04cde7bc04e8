import { workspace } from 'vscode';

const MOST_FILES = 5000;

/** The specs of the workspace. */
export async function specFiles(): Promise<readonly string[]> {
  const files = await workspace.findFiles('**/*.pickup', '**/node_modules/**', MOST_FILES);
  return files.map((uri) => uri.toString());
}
