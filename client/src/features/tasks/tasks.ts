import {
  CancellationTokenSource,
  CustomExecution,
  type Disposable,
  EventEmitter,
  Task,
  type TaskDefinition,
  TaskGroup,
  tasks,
  type WorkspaceFolder,
  workspace,
} from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { type CheckTask, runCheck } from './check-task.ts';

const TYPE = 'pickup';
const SOURCE = 'pickup';
const MATCHER = '$pickup-spec';
/** The editor puts the file in front in its place. */
// biome-ignore lint/suspicious/noTemplateCurlyInString: the editor's own notation
const OPEN_FILE = '${file}';

interface PickupTask extends TaskDefinition {
  readonly path?: string;
}

/**
 * `pickup: check` among the tasks of the editor. Our own server checks, and writes into the task's terminal what the command line would:
 * no program is started, so that it also runs in a browser, and nothing of the workspace is executed.
 */
export function activateTasks(client: BaseLanguageClient): Disposable {
  const checking = (definition: PickupTask, scope: WorkspaceFolder, name: string): Task => {
    const task = new Task(definition, scope, name, SOURCE, execution(client, scope), [MATCHER]);
    task.group = TaskGroup.Test;
    task.presentationOptions = { clear: true };
    return task;
  };
  return tasks.registerTaskProvider(TYPE, {
    provideTasks: () =>
      (workspace.workspaceFolders ?? []).flatMap((folder) => [
        checking({ type: TYPE, task: 'check' }, folder, 'check'),
        checking({ type: TYPE, task: 'check', path: OPEN_FILE }, folder, 'check the open file'),
      ]),
    resolveTask: ({ definition, scope, name }) => {
      const folder = folderOf(scope);
      return folder && definition.task === 'check' ? checking(definition, folder, name) : undefined;
    },
  });
}

const folderOf = (scope: Task['scope']): WorkspaceFolder | undefined =>
  typeof scope === 'object' ? scope : workspace.workspaceFolders?.[0];

const execution = (client: BaseLanguageClient, folder: WorkspaceFolder): CustomExecution =>
  new CustomExecution(async ({ path }) => {
    const written = new EventEmitter<string>();
    const closed = new EventEmitter<number>();
    const stopping = new CancellationTokenSource();
    const task: CheckTask = { folder, path: typeof path === 'string' ? path : undefined };
    const write = (line: string): void => written.fire(`${line}\r\n`);
    return {
      onDidWrite: written.event,
      onDidClose: closed.event,
      open: async () => {
        try {
          closed.fire(await runCheck(client, task, write, stopping.token));
        } catch (error) {
          write(error instanceof Error ? error.message : String(error));
          closed.fire(2);
        }
      },
      close: () => stopping.cancel(),
    };
  });
