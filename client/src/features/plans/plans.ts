import { commands, Disposable, window, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  LANGUAGE_ID,
  PLANS_REQUEST,
  type Plan,
  type PlansParams,
  type PlansResult,
  PROTOCOL_VERSION,
} from '../../../../server/src/lsp/protocol.ts';

/** Repairing what is wrong at the cursor, and naming leads by what was read; each plan is chosen, never applied by itself. */
export function activatePlans(client: BaseLanguageClient): Disposable {
  return Disposable.from(
    commands.registerCommand('pickup.planRepair', () =>
      choosePlan(client, 'repair', {
        title: 'Plan a repair',
        none: 'Nothing here is to be repaired: no fault, or none that a change of wiring settles.',
      }),
    ),
    commands.registerCommand('pickup.identifyLeads', () =>
      choosePlan(client, 'identify', {
        title: 'Identify the leads',
        none: 'Every lead of this pickup is placed already, or no reading says more about them.',
      }),
    ),
  );
}

async function choosePlan(
  client: BaseLanguageClient,
  what: PlansParams['what'],
  words: { readonly title: string; readonly none: string },
): Promise<void> {
  const editor = window.activeTextEditor;
  if (editor?.document.languageId !== LANGUAGE_ID) return;
  const { line, character } = editor.selection.active;
  const uri = editor.document.uri.toString();
  const params: PlansParams = { protocol: PROTOCOL_VERSION, uri, cursor: { line, character }, what };
  const { plans } = await client.sendRequest<PlansResult>(PLANS_REQUEST, params);
  if (plans.length === 0) {
    await window.showInformationMessage(words.none);
    return;
  }
  const items = plans.map((plan) => {
    // The title of a repair names its steps already.
    const { title, steps, leaves, cautions } = plan;
    return { label: title, detail: [...(leaves.length > 0 ? leaves : steps), ...cautions].join(' · '), plan };
  });
  const picked = await window.showQuickPick(items, {
    title: words.title,
    placeHolder: 'Chosen, it is written into the spec',
    matchOnDetail: true,
  });
  if (picked) await apply(client, picked.plan);
}

async function apply(client: BaseLanguageClient, { edit }: Plan): Promise<void> {
  const changes = Object.fromEntries(Object.entries(edit.changes ?? {}).map(([uri, edits]) => [uri, [...edits]]));
  const converted = await client.protocol2CodeConverter.asWorkspaceEdit({ changes });
  if (!(await workspace.applyEdit(converted)))
    void window.showWarningMessage('The text has changed meanwhile: plan again.');
}
