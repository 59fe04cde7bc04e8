import { commands, Disposable, ViewColumn, window, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  LANGUAGE_ID,
  PLANS_REQUEST,
  type Plan,
  type PlansParams,
  type PlansResult,
  PROTOCOL_VERSION,
} from '../../../../server/src/lsp/protocol.ts';
import { editorsEdit } from '../files/editors-edit.ts';
import { t } from '../words.ts';
import { PlanPreview } from './plan-preview.ts';

/** Repairing what is wrong at the cursor, naming leads by what was read, and what to wind for a target; each plan is looked at before it is written. */
export function activatePlans(client: BaseLanguageClient): Disposable {
  const preview = new PlanPreview();
  return Disposable.from(
    preview,
    commands.registerCommand('pickup.planRepair', () =>
      choosePlan({ client, preview }, 'repair', {
        title: t('Plan a repair'),
        none: t('Nothing here is to be repaired: no fault, or none that a change of wiring settles.'),
      }),
    ),
    commands.registerCommand('pickup.identifyLeads', () =>
      choosePlan({ client, preview }, 'identify', {
        title: t('Identify the leads'),
        none: t('Every lead of this pickup is placed already, or no reading says more about them.'),
      }),
    ),
    commands.registerCommand('pickup.proposeBuilds', () =>
      choosePlan({ client, preview }, 'propose', {
        title: t('Builds for the target'),
        none: t(
          'Nothing is proposed for this pickup: it states no target, leaves nothing out, or has no bobbin and wire to choose from.',
        ),
      }),
    ),
  );
}

interface Around {
  readonly client: BaseLanguageClient;
  readonly preview: PlanPreview;
}

interface Words {
  readonly title: string;
  readonly none: string;
}

async function choosePlan(around: Around, what: PlansParams['what'], words: Words): Promise<void> {
  const editor = window.activeTextEditor;
  if (editor?.document.languageId !== LANGUAGE_ID) return;
  const { line, character } = editor.selection.active;
  const uri = editor.document.uri.toString();
  const params: PlansParams = { protocol: PROTOCOL_VERSION, uri, cursor: { line, character }, what };
  const { plans } = await around.client.sendRequest<PlansResult>(PLANS_REQUEST, params);
  if (plans.length === 0) {
    await window.showInformationMessage(words.none);
    return;
  }
  const view = editor.viewColumn;
  let picked = await pick(plans, words);
  while (picked && !(await write(around, picked, words))) picked = await pick(plans, words);
  // The preview has done its work; the text is what one goes on with.
  await window.showTextDocument(editor.document, { viewColumn: view ?? ViewColumn.One });
}

async function pick(plans: readonly Plan[], { title: asked }: Words): Promise<Plan | undefined> {
  const items = plans.map((plan) => {
    const { title, minutes, steps, leaves, cautions } = plan;
    // A line of the list is short, and the steps of a repair are what tells one from another.
    if (minutes !== undefined)
      return {
        label: steps.join('; '),
        detail: [t('about {0} min', minutes), ...leaves, ...cautions].join(' · '),
        plan,
      };
    return { label: title, detail: [...(leaves.length > 0 ? leaves : steps), ...cautions].join(' · '), plan };
  });
  const picked = await window.showQuickPick(items, {
    title: asked,
    placeHolder: t('Chosen, it is shown beside the spec before it is written'),
    matchOnDetail: true,
  });
  return picked?.plan;
}

/** Shows what a plan changes and what it leaves, and writes it where one says so; whether one was content with it. */
async function write({ client, preview }: Around, plan: Plan, { title }: Words): Promise<boolean> {
  const edit = await editorsEdit(client, plan.edit);
  await preview.show(plan.title, edit);
  const written = { label: t('Write into the spec'), detail: [...plan.leaves, ...plan.cautions].join(' · ') };
  const other = { label: t('Another plan'), detail: '' };
  const answer = await window.showQuickPick([written, other], {
    title: `${title}: ${plan.title}`,
    ignoreFocusOut: true,
  });
  await commands.executeCommand('workbench.action.closeActiveEditor');
  if (answer === other) return false;
  if (answer === written && !(await workspace.applyEdit(edit)))
    void window.showWarningMessage(t('The text has changed meanwhile: plan again.'));
  return true;
}
