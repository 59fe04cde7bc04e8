import {
  commands,
  Disposable,
  type Event,
  EventEmitter,
  env,
  type QuickPickItem,
  Uri,
  window,
  workspace,
} from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  CARD_KINDS,
  CARDS_REQUEST,
  type CardKind,
  type CardsParams,
  type CardsResult,
  LANGUAGE_ID,
  PROTOCOL_VERSION,
} from '../../../../server/src/lsp/protocol.ts';
import { askFolder, isThere, writeText } from '../files/file-choice.ts';
import { type Text, t } from '../words.ts';

/** Printable cards of the file in the editor: chosen, written as pages into a folder, and opened. */
export function activateCards(client: BaseLanguageClient): Cards {
  const written = new EventEmitter<Uri>();
  const command = commands.registerCommand('pickup.printCards', async (given?: unknown) => {
    const spec = window.activeTextEditor?.document.uri;
    const targets = await printCards(client, givenFrom(given));
    if (spec && targets.length > 0) written.fire(spec);
    return targets;
  });
  return { onDidWrite: written.event, dispose: () => Disposable.from(command, written).dispose() };
}

export interface Cards extends Disposable {
  /** The spec of which cards were written. */
  readonly onDidWrite: Event<Uri>;
}

interface Chosen {
  readonly kinds: readonly string[];
  /** The photographs on the hand-over card, too. */
  readonly photos: boolean;
}

/** For those who call the command: nothing is asked then. */
interface Given extends Chosen {
  readonly folder: Uri | undefined;
}

function givenFrom(given: unknown): Given | undefined {
  const { kinds, folder, photos }: { kinds?: unknown; folder?: unknown; photos?: unknown } = Object(given ?? {});
  if (!Array.isArray(kinds)) return undefined;
  return {
    kinds: kinds.filter((kind) => typeof kind === 'string'),
    folder: folder instanceof Uri ? folder : undefined,
    photos: photos === true,
  };
}

async function printCards(client: BaseLanguageClient, given: Given | undefined): Promise<readonly Uri[]> {
  const document = window.activeTextEditor?.document;
  if (document?.languageId !== LANGUAGE_ID) return [];
  const chosen = given ?? (await askCards());
  if (chosen === undefined || chosen.kinds.length === 0) return [];
  const { kinds, photos } = chosen;
  const uri = document.uri.toString();
  const params: CardsParams = {
    protocol: PROTOCOL_VERSION,
    uri,
    kinds,
    photos,
    paper: paperOf(),
    ...languageOf(document.uri),
  };
  const { pages, leftOut } = await client.sendRequest<CardsResult>(CARDS_REQUEST, params);
  if (pages.length === 0) {
    void window.showInformationMessage(leftOut[0] ?? t('This file declares no pickup to print a card of.'));
    return [];
  }
  const folder =
    given?.folder ??
    ownFolder(document.uri) ??
    (await askFolder(t('Folder for the cards'), t('Write the Cards Here'), Uri.joinPath(document.uri, '..')));
  if (folder === undefined) return [];
  const targets = pages.map(({ name }) => Uri.joinPath(folder, `${name}.html`));
  if (!(await mayReplace(targets))) return [];
  for (const [index, { html }] of pages.entries()) {
    const target = targets[index];
    if (target) await writeText(target, html);
  }
  if (given === undefined) await tell(targets, leftOut, folder);
  return targets;
}

/**
 * Cards lie in a folder of their own beside their spec, not among the specs; `undefined` where that folder is to be asked for: the
 * setting is empty or leads elsewhere than below the spec's folder, or the spec is a draft or outside the workspace.
 */
function ownFolder(spec: Uri): Uri | undefined {
  const name = workspace.getConfiguration('pickup', spec).get<unknown>('cards.folder');
  if (typeof name !== 'string' || name.trim() === '' || workspace.getWorkspaceFolder(spec) === undefined)
    return undefined;
  const home = Uri.joinPath(spec, '..');
  const folder = Uri.joinPath(home, name.trim());
  return folder.path.startsWith(`${home.path.replace(/\/$/, '')}/`) ? folder : undefined;
}

async function askCards(): Promise<Chosen | undefined> {
  const items = CARD_KINDS.map((kind) => {
    const [label, description] = ABOUT[kind];
    return { card: kind, label: t(label), description: t(description), picked: kind !== 'label' };
  });
  const photos = {
    card: undefined,
    label: t('photographs'),
    description: t('on the hand-over card, without place, time and camera'),
  };
  const picked = await window.showQuickPick<Item>([...items, photos], {
    title: t('Print cards'),
    placeHolder: t('Which cards'),
    canPickMany: true,
  });
  const kinds = picked?.flatMap(({ card }) => card ?? []);
  return kinds && { kinds, photos: picked?.some(({ card }) => card === undefined) === true };
}

interface Item extends QuickPickItem {
  /** None of the photographs. */
  readonly card: CardKind | undefined;
}

const ABOUT: Readonly<Record<CardKind, readonly [label: Text, description: Text]>> = {
  winding: ['winding', 'one a coil, for beside the winder'],
  bench: ['bench', 'what the meter must read, before and after the joints'],
  wiring: ['wiring', 'the drawing and its table of joints'],
  continuity: ['continuity', 'joints in order, what a meter finds joined at the lugs in each position'],
  potting: ['potting', 'bath, time, temperature'],
  'hand-over': ['hand-over', 'for the customer'],
  label: ['label', 'for the box, with a code that points to the file'],
};

/** Of the cards, where the setting names one: the customer's may be another than the editor's. */
function languageOf(spec: Uri): Pick<CardsParams, 'language'> {
  const language = workspace.getConfiguration('pickup', spec).get<unknown>('cards.language');
  return typeof language === 'string' && language !== 'editor' ? { language } : {};
}

/** Where Letter is the paper in use, the language says so. Common practice, no published source. */
const paperOf = (): CardsParams['paper'] => (/^en-(US|CA)$|^es-MX$/.test(env.language) ? 'letter' : 'a4');

async function mayReplace(targets: readonly Uri[]): Promise<boolean> {
  const count = (await Promise.all(targets.map(isThere))).filter(Boolean).length;
  if (count === 0) return true;
  const replace = t('Replace');
  const what =
    count === 1 ? t('One of these cards is there already.') : t('{0} of these cards are there already.', count);
  return (await window.showWarningMessage(what, { modal: true }, replace)) === replace;
}

async function tell(targets: readonly Uri[], leftOut: readonly string[], folder: Uri): Promise<void> {
  const left = leftOut.length === 0 ? '' : ` ${t('Left out: {0}.', leftOut.join('; '))}`;
  const open = t('Open');
  const where = workspace.asRelativePath(folder, false);
  const what =
    targets.length === 1
      ? t('The card is written to {0}.', where)
      : t('{0} cards are written to {1}.', targets.length, where);
  if ((await window.showInformationMessage(`${what}${left}`, open)) === open) {
    for (const target of targets) await env.openExternal(target);
  }
}
