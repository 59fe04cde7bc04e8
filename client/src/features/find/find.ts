import {
  CancellationTokenSource,
  commands,
  type Disposable,
  type QuickPickItem,
  Range,
  Uri,
  window,
  workspace,
} from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  FIND_REQUEST,
  type FindParams,
  type FindResult,
  type FoundPickup,
  PROTOCOL_VERSION,
} from '../../../../server/src/lsp/protocol.ts';
import { specFiles } from '../files/spec-files.ts';
import { t } from '../words.ts';

/** The pickups on record in the workspace, in a list that takes the same filters as the command line's. */
export function activateFind(client: BaseLanguageClient): Disposable {
  return commands.registerCommand('pickup.findPickup', () => find(client));
}

interface Item extends QuickPickItem {
  readonly found?: FoundPickup;
  /** Put into the box when chosen. */
  readonly filter?: string;
  /** What to mind, whole: a row of the list may be too narrow for it. */
  readonly caution?: string;
}

/** Between the last keystroke and the search. */
const REST_MS = 150;

async function find(client: BaseLanguageClient): Promise<void> {
  const uris = await specFiles();
  const pick = window.createQuickPick<Item>();
  pick.title = t('Find a pickup');
  pick.placeholder = t('Any words, or filters: spool RYD-W7, made 2026-03 to 2026-04, needs retest; several by commas');
  pick.matchOnDescription = true;
  pick.matchOnDetail = true;
  let searches = 0;
  let resting: ReturnType<typeof setTimeout> | undefined;
  let running: CancellationTokenSource | undefined;
  /** A newer wish ends the older one. */
  const search = async (text: string): Promise<void> => {
    searches += 1;
    const mine = searches;
    running?.cancel();
    const source = new CancellationTokenSource();
    running = source;
    pick.busy = true;
    const params: FindParams = { protocol: PROTOCOL_VERSION, uris, typed: text };
    const result = await client.sendRequest<FindResult>(FIND_REQUEST, params, source.token).catch(() => undefined);
    if (mine !== searches) return;
    pick.busy = false;
    if (!result) return;
    pick.items = itemsOf(result, text);
    // What is to be minded stands first, and what was looked for is what the Enter key takes.
    pick.activeItems = pick.items.filter(({ found }) => found).slice(0, 1);
  };
  pick.onDidChangeValue((text) => {
    clearTimeout(resting);
    resting = setTimeout(() => void search(text), REST_MS);
  });
  pick.onDidAccept(() => {
    const [item] = pick.selectedItems;
    if (item?.filter !== undefined) {
      pick.value = item.filter;
      void search(item.filter);
    } else if (item?.found) {
      pick.hide();
      void show(item.found);
    } else if (item?.caution !== undefined) void window.showWarningMessage(item.caution, { modal: true });
  });
  pick.onDidHide(() => {
    clearTimeout(resting);
    searches += 1;
    running?.cancel();
    pick.dispose();
  });
  pick.show();
  await search('');
}

function itemsOf({ found, isFiltered, problem, examples, cautions }: FindResult, text: string): readonly Item[] {
  // A filter is not in the words of what it finds: then the list must not match by them again.
  const alwaysShow = isFiltered;
  const items = found.map((each): Item => {
    const label = each.title ?? each.name;
    return {
      label,
      description: `${each.name} · ${fileOf(each.uri)}`,
      // Why it is there is what a narrow list must not cut off.
      detail: [...each.reasons, each.about].filter((part) => part !== '').join(' · '),
      alwaysShow,
      found: each,
    };
  });
  if (problem !== undefined) return [{ label: problem, alwaysShow: true }];
  if (items.length === 0) return [{ label: t('No pickup fits.'), alwaysShow: true }];
  if (text !== '') return [...cautions.flatMap(cautionItems), ...items];
  return [...items, ...examples.map((filter): Item => ({ label: filter, description: t('a filter'), filter }))];
}

/** One row a sentence, what stands behind its colon below it, so that each can be read in a list of usual width. */
const cautionItems = (caution: string): readonly Item[] =>
  caution.split(/(?<=\.) (?=\p{Lu})/u).map((sentence) => {
    const [label = '', detail] = sentence.split(/(?<=:) (.*)/);
    return { label: `$(warning) ${label}`, ...(detail && { detail }), alwaysShow: true, caution };
  });

const fileOf = (uri: string): string => workspace.asRelativePath(Uri.parse(uri, true));

async function show({ uri, range: { start, end } }: FoundPickup): Promise<void> {
  const selection = new Range(start.line, start.character, start.line, start.character);
  const editor = await window.showTextDocument(Uri.parse(uri, true), { selection });
  editor.revealRange(new Range(start.line, start.character, end.line, end.character));
}
