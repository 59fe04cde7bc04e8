/** Two states of a folder of specs, file by file: two folders, or one folder now and at a revision or day. */
import path from 'node:path';
import { type State, sameMeaning } from '../comparison/comparison.ts';
import { stateOf } from '../comparison/state-of.ts';
import { CommandError } from './command.ts';
import { type Compared, comparedStates } from './compared-states.ts';
import type { Context } from './context.ts';
import { shownPath, specFiles, uriOf } from './files.ts';
import { readFromGit, revisionAt, specsInGit } from './git.ts';
import { analyseSource, hostAsAsked, type SourceValues, sourceReader } from './source.ts';

export interface ComparedFolders {
  /** Of files that both states have, those that differ in meaning. */
  readonly changed: readonly Compared[];
  readonly same: number;
  /** Paths of files that only one of them has. */
  readonly gone: readonly string[];
  readonly come: readonly string[];
}

/** The specs of a state of a folder, by their paths in it. */
interface Folder {
  readonly shown: (file: string) => string;
  readonly files: readonly string[];
  state(file: string): Promise<State>;
}

export async function compareFolders(before: Folder, after: Folder, context: Context): Promise<ComparedFolders> {
  const both = after.files.filter((file) => before.files.includes(file));
  const changed: Compared[] = [];
  for (const file of both) {
    context.progress.step(file);
    const names = { before: before.shown(file), after: after.shown(file) };
    const each = comparedStates(await before.state(file), await after.state(file), names);
    if (!sameMeaning(each.comparison)) changed.push(each);
  }
  return {
    changed,
    same: both.length - changed.length,
    gone: before.files.filter((file) => !after.files.includes(file)).map(before.shown),
    come: after.files.filter((file) => !before.files.includes(file)).map(after.shown),
  };
}

export function onDisk(folder: string, values: SourceValues, context: Context): Folder {
  const top = path.resolve(context.cwd, folder);
  const { files, problems } = specFiles([folder], context.cwd);
  if (problems[0] !== undefined) throw new CommandError(problems[0]);
  const read = sourceReader(values.root, context.cwd);
  return {
    shown: (file) => shownPath(path.join(top, file), context.cwd),
    files: files.map((file) => path.relative(top, file).split(path.sep).join('/')),
    state: async (file) => {
      const result = read(path.join(top, file));
      if (!result.ok) throw new CommandError(result.problem);
      const host = hostAsAsked(result.source.host, values);
      return stateOf(analyseSource({ ...result.source, host }, context));
    },
  };
}

/** `since`: a revision, or a day, month or year; of a day, the newest commit before it. */
export function inGit(
  folder: string,
  since: string,
  values: SourceValues,
  { cwd, environment, analyser }: Context,
): Folder {
  const top = path.resolve(cwd, folder);
  const revision = revisionAt(since, top, environment);
  const short = revision.slice(0, SHORT);
  return {
    shown: (file) => `${short}:${shownPath(path.join(top, file), cwd)}`,
    files: specsInGit(revision, top, environment),
    state: async (file) => {
      const { file: at, host } = readFromGit({ revision, path: `./${file}` }, top, environment);
      return stateOf(analyser.analyse(uriOf(at), hostAsAsked(host, values)));
    },
  };
}

/** Digits of a revision that people read. */
const SHORT = 10;
