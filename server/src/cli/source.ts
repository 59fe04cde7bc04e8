/** A spec as a command takes it: a path, or `-` for standard input that stands for a path. */
import path from 'node:path';
import { onceFor } from '../../../grammar/values/remember.ts';
import type { Analysis, Host } from '../analysis/analysis-types.ts';
import { CommandError } from './command.ts';
import type { Context } from './context.ts';
import { diskHost, shownPath, uriOf, workspaceRoot } from './files.ts';
import { decodeText, readTextFile } from './text-file.ts';

/** The options that say where a spec comes from; commands that read specs spread them into their own. */
export const SOURCE_OPTIONS = {
  'stdin-path': { type: 'text', value: 'PATH', meaning: 'the path that standard input (-) stands for' },
  root: {
    type: 'text',
    value: 'FOLDER',
    meaning: 'the workspace, which no `use` may leave; else the nearest folder upward that holds .git',
  },
} as const;

/** Of commands that show what is known of a pickup. */
export const WITHOUT_OPTION = {
  without: { type: 'list', value: 'sweeps', meaning: 'what is computed without the sweeps that were measured' },
} as const;

export interface SourceValues {
  readonly without?: readonly string[];
  readonly 'stdin-path': string | undefined;
  readonly root: string | undefined;
}

export interface Source {
  readonly file: string;
  /** The path as results name it. */
  readonly shown: string;
  readonly uri: string;
  readonly text: string;
  readonly host: Host;
  readonly byteOrderMark: boolean;
}

export type SourceResult =
  | { readonly ok: true; readonly source: Source }
  | { readonly ok: false; readonly problem: string };

/** Reads a file, or standard input for `-`. */
export async function readSource(name: string, values: SourceValues, context: Context): Promise<SourceResult> {
  const result = name === '-' ? await readStandardInput(values, context) : sourceReader(values.root, context.cwd)(name);
  return result.ok ? { ok: true, source: { ...result.source, host: hostAsAsked(result.source.host, values) } } : result;
}

/** The host, or the same without what is to be left out; the same object each time. */
export function hostAsAsked(host: Host, { without = [] }: Pick<SourceValues, 'without'>): Host {
  const wrong = without.find((each) => each !== 'sweeps');
  if (wrong !== undefined) throw new CommandError(`--without ${wrong}: only sweeps can be left out`);
  return without.length > 0 ? withoutSweeps(host) : host;
}

const withoutSweeps = onceFor((host: Host): Host => ({ ...host, withoutSweeps: true }));

/** Reads files; those of one workspace share what they use. */
export function sourceReader(root: string | undefined, cwd: string): (name: string) => SourceResult {
  const hosts = new Map<string, Host>();
  return (name) => {
    const file = path.resolve(cwd, name);
    const content = readTextFile(file);
    const shown = shownPath(file, cwd);
    if (!content.ok) return { ok: false, problem: `${shown}: ${content.problem}` };
    const workspace = workspaceRoot(file, root, cwd);
    const host = hosts.get(workspace) ?? diskHost(workspace);
    hosts.set(workspace, host);
    return { ok: true, source: { ...content, file, shown, uri: uriOf(file), host } };
  };
}

/** The same, for commands of one file: what cannot be read ends the command. */
export async function requireSource(name: string, values: SourceValues, context: Context): Promise<Source> {
  const result = await readSource(name, values, context);
  if (!result.ok) throw new CommandError(result.problem);
  return result.source;
}

/** A file that a command is about, and how results name it. */
export interface Analysed {
  readonly analysis: Analysis;
  readonly shown: string;
}

/** Read and analysed; what cannot be read ends the command. */
export async function analysed(name: string, values: SourceValues, context: Context): Promise<Analysed> {
  const source = await requireSource(name, values, context);
  return { analysis: analyseSource(source, context), shown: source.shown };
}

export function analyseSource(source: Source, context: Context): Analysis {
  context.progress.step(source.shown);
  return context.analyser.analyse(source.uri, source.host);
}

async function readStandardInput(values: SourceValues, context: Context): Promise<SourceResult> {
  const name = values['stdin-path'];
  if (name === undefined) {
    throw new CommandError('- reads standard input: --stdin-path PATH says where it would lie');
  }
  const content = decodeText(await context.readStandardInput());
  const file = path.resolve(context.cwd, name);
  const shown = shownPath(file, context.cwd);
  if (!content.ok) return { ok: false, problem: `${shown} (standard input): ${content.problem}` };
  const uri = uriOf(file);
  const host = diskHost(workspaceRoot(file, values.root, context.cwd), new Map([[uri, content.text]]));
  return { ok: true, source: { ...content, file, shown, uri, host } };
}
