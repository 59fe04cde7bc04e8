import {
  type CancellationToken,
  Disposable,
  LanguageModelTextPart,
  type LanguageModelTool,
  LanguageModelToolResult,
  lm,
  Uri,
  workspace,
} from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  EXPLAIN_REQUEST,
  type ExplainResult,
  FILE_ENDING,
  FIND_REQUEST,
  type FindResult,
  PROTOCOL_VERSION,
} from '../../../../server/src/lsp/protocol.ts';
import type { PickupSpecApi } from '../../api.ts';
import { specFiles } from '../files/spec-files.ts';
import { checkText, explanationText, listText, reportText } from './tool-texts.ts';

const SETTING = 'pickup.languageModelTools.enabled';

/**
 * Tools that a language model in the editor may use once somebody has allowed it: they read specs of the open folders and say what the
 * extension says. Each use is asked for first; nothing is written, nothing is run, nothing is fetched.
 */
export function activateLanguageModelTools(client: BaseLanguageClient, api: PickupSpecApi): Disposable {
  // Not every editor has language models.
  if (typeof lm?.registerTool !== 'function') return new Disposable(() => undefined);
  let offered: Disposable | undefined;
  const follow = (): void => {
    const isAllowed = workspace.getConfiguration().get(SETTING, false);
    if (isAllowed) offered ??= Disposable.from(...offer(client, api));
    else {
      offered?.dispose();
      offered = undefined;
    }
  };
  follow();
  const listening = workspace.onDidChangeConfiguration((event) => {
    if (event.affectsConfiguration(SETTING)) follow();
  });
  return new Disposable(() => {
    listening.dispose();
    offered?.dispose();
  });
}

function offer(client: BaseLanguageClient, { check, report }: PickupSpecApi): readonly Disposable[] {
  const ask = <R>(request: string, params: object, token: CancellationToken): Promise<R> =>
    client.sendRequest<R>(request, { protocol: PROTOCOL_VERSION, ...params }, token);
  return [
    lm.registerTool('pickup_check', {
      ...asking<{ readonly file?: unknown }>(({ file }) => [
        'Check a spec',
        `Reads ${String(file)} and tells its findings.`,
      ]),
      invoke: ({ input: { file } }) => ofSpec(file, async (uri) => checkText(String(file), await check(uri))),
    }),
    lm.registerTool('pickup_report', {
      ...asking<{ readonly file?: unknown }>(({ file }) => [
        'Report a spec',
        `Reads ${String(file)} and tells what is computed of its pickups and instruments.`,
      ]),
      invoke: ({ input: { file } }) => ofSpec(file, async (uri) => reportText(String(file), await report(uri))),
    }),
    lm.registerTool('pickup_explain', {
      ...asking<{ readonly code?: unknown }>(({ code }) => [
        'Explain a finding',
        `Tells what ${String(code)} means. No file is read.`,
      ]),
      invoke: async ({ input: { code } }, token) => {
        const { page } = await ask<ExplainResult>(EXPLAIN_REQUEST, { code: String(code) }, token);
        return said(explanationText(String(code), page));
      },
    }),
    lm.registerTool('pickup_list', {
      ...asking<{ readonly where?: unknown }>(({ where }) => [
        'List pickups',
        `Reads the specs of the open folders and lists the pickups on record${typeof where === 'string' && where !== '' ? ` that fit ${where}` : ''}.`,
      ]),
      invoke: async ({ input: { where } }, token) => {
        const typed = typeof where === 'string' ? where : '';
        const result = await ask<FindResult>(FIND_REQUEST, { uris: await specFiles(), typed }, token);
        return said(listText(result, (uri) => workspace.asRelativePath(Uri.parse(uri, true))));
      },
    }),
  ];
}

const asking = <T>(
  words: (input: T) => readonly [title: string, message: string],
): Required<Pick<LanguageModelTool<T>, 'prepareInvocation'>> => ({
  prepareInvocation: ({ input }) => {
    const [title, message] = words(input);
    return { invocationMessage: message, confirmationMessages: { title: `Pickup Spec: ${title}`, message } };
  },
});

const said = (text: string): LanguageModelToolResult => new LanguageModelToolResult([new LanguageModelTextPart(text)]);

/** A spec of the open folders, named from one of them on; whatever else is named is not read. */
async function ofSpec(file: unknown, tell: (uri: Uri) => Promise<string>): Promise<LanguageModelToolResult> {
  const uri = typeof file === 'string' && file.endsWith(FILE_ENDING) ? await specNamed(file) : undefined;
  if (uri === undefined) return said(`There is no spec ${String(file)} in the open folders.`);
  return said(await tell(uri));
}

async function specNamed(file: string): Promise<Uri | undefined> {
  const specs = new Set(await specFiles());
  const named = (workspace.workspaceFolders ?? []).flatMap(({ uri, name }) => [
    Uri.joinPath(uri, file),
    // Of several folders the name stands before the path.
    ...(file.startsWith(`${name}/`) ? [Uri.joinPath(uri, file.slice(name.length + 1))] : []),
  ]);
  return named.find((uri) => specs.has(uri.toString()));
}
