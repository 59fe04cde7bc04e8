import type { ExtensionContext } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { PickupSpecApi } from './api.ts';
import { listenToAnalyses } from './features/analysed.ts';
import { createApi } from './features/api/api.ts';
import { activateBenchView } from './features/bench-view/bench-view.ts';
import type { BenchViewInterface } from './features/bench-view/bench-view-control.ts';
import { activateCards } from './features/cards/cards.ts';
import { activateCompare } from './features/compare/compare.ts';
import { activateContextKeys } from './features/context-keys.ts';
import { activateExplanations, type ExplanationControl } from './features/explanation/explanation.ts';
import { activateFileReading } from './features/files/file-reading.ts';
import { activateFilesInSight } from './features/files/files-in-sight.ts';
import { activateFind } from './features/find/find.ts';
import { activateLanguageModelTools } from './features/language-model/tools.ts';
import { activateLesson, type LessonControl } from './features/lesson/lesson.ts';
import { activateMarkdownPreview, type MarkdownPreview } from './features/markdown/markdown-preview.ts';
import { activateNew } from './features/new/new.ts';
import { activatePlans } from './features/plans/plans.ts';
import { activateServerCommands } from './features/status/server-commands.ts';
import { activateStatusItem } from './features/status/status-item.ts';
import { activateSweeps } from './features/sweep/sweep.ts';
import { activateTasks } from './features/tasks/tasks.ts';
import { SpecTests, type SpecTestsControl } from './features/testing/spec-tests.ts';

/** What the extension shows to other extensions, and beside that to the editor's preview and to tests. */
export interface ExtensionInterface extends PickupSpecApi {
  readonly benchView: BenchViewInterface;
  readonly explanation: ExplanationControl;
  readonly lesson: LessonControl;
  readonly specTests: SpecTestsControl;
  /** For the editor's preview of Markdown. */
  readonly extendMarkdownIt: MarkdownPreview['extendMarkdownIt'];
}

let running: BaseLanguageClient | undefined;

/** Everything that the extension brings, each in its own place. */
export function activateExtension(context: ExtensionContext, client: BaseLanguageClient): ExtensionInterface {
  running = client;
  const analyses = listenToAnalyses(client);
  const benchView = activateBenchView(context, client, analyses.onDidAnalyse);
  const explanation = activateExplanations(context, client);
  const cards = activateCards(client);
  const lesson = activateLesson(context, { benchView, explanation, cards });
  const specTests = new SpecTests(client);
  const markdownPreview = activateMarkdownPreview(client);
  const api = createApi(client);
  context.subscriptions.push(
    analyses,
    api,
    lesson,
    specTests,
    markdownPreview,
    activateCompare(benchView),
    activateFind(client),
    activateSweeps(client),
    cards,
    activateNew(client),
    activatePlans(client),
    activateFileReading(client),
    activateFilesInSight(client),
    activateContextKeys(analyses.onDidAnalyse),
    activateStatusItem(client),
    activateServerCommands(client),
    activateTasks(client),
    activateLanguageModelTools(client, api),
  );
  // A server that does not start is told by the status item; the commands stay, restarting among them. Nobody waits for it here: a
  // preview of Markdown wants only the engine extended, and each request waits by itself.
  client.start().catch((error: unknown) => client.error('The server did not start.', error));
  const { apiVersion, check, report, onDidChangeFindings } = api;
  const { extendMarkdownIt } = markdownPreview;
  const ours = { benchView, explanation, lesson, specTests, extendMarkdownIt };
  return { apiVersion, check, report, onDidChangeFindings, ...ours };
}

export async function deactivateExtension(): Promise<void> {
  const client = running;
  running = undefined;
  await client?.dispose();
}
