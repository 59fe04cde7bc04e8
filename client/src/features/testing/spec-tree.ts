import { type TestController, type TestItem, type TestItemCollection, type TextDocument, Uri, workspace } from 'vscode';
import { specFiles } from '../files/spec-files.ts';

/** The specs of the workspace as tests, folder by folder; what lies in a folder becomes tests once somebody looks into it. */
export class SpecTree {
  private entries: Entries = new Map();
  private isStale = true;
  private listing: Promise<void> | undefined;

  private readonly controller: TestController;

  constructor(controller: TestController) {
    this.controller = controller;
  }

  /** What lies in a folder, or at the top. */
  async resolve(folder?: TestItem): Promise<void> {
    if (this.isStale) await this.list();
    if (folder) this.fill(folder.children, folder.id);
  }

  /** The test of a file that somebody works on is there for “Run Tests in Current File”, though nobody has looked at the list yet. */
  async reveal({ uri }: TextDocument): Promise<void> {
    if (workspace.getWorkspaceFolder(uri) === undefined) return;
    await this.resolve();
    const id = uri.toString();
    let within = itemsIn(this.controller.items);
    for (;;) {
      const folder = within.find((item) => item.canResolveChildren && id.startsWith(`${item.id}/`));
      if (folder === undefined) return;
      await this.resolve(folder);
      within = itemsIn(folder.children);
    }
  }

  /** Files have come or gone. Nothing is listed before anybody has looked. */
  async changed(): Promise<void> {
    if (this.listing || !this.isStale) await this.list();
  }

  /** Files come by the hundred: those that come while one listing runs share the next. */
  list(): Promise<void> {
    this.isStale = true;
    this.listing ??= this.listUntilCurrent().finally(() => {
      this.listing = undefined;
    });
    return this.listing;
  }

  /** All specs among these tests and in these folders. */
  async specsIn(items: Iterable<TestItem>, excluded: ReadonlySet<TestItem>): Promise<readonly TestItem[]> {
    const specs: TestItem[] = [];
    for (const item of items) {
      if (excluded.has(item)) continue;
      if (!item.canResolveChildren) {
        specs.push(item);
        continue;
      }
      await this.resolve(item);
      specs.push(...(await this.specsIn(itemsIn(item.children), excluded)));
    }
    return specs;
  }

  private async listUntilCurrent(): Promise<void> {
    while (this.isStale) {
      this.isStale = false;
      this.entries = entriesOf((await specFiles()).map((uri) => Uri.parse(uri)));
    }
    this.fill(this.controller.items, TOP);
  }

  /** What was there stays the same test, with its last result. */
  private fill(collection: TestItemCollection, folder: string): void {
    const wanted: ReadonlyMap<string, Entry> = this.entries.get(folder) ?? new Map();
    for (const { id } of itemsIn(collection)) if (!wanted.has(id)) collection.delete(id);
    for (const [id, { uri, label, isFolder }] of wanted) {
      const known = collection.get(id);
      if (known === undefined) {
        const item = this.controller.createTestItem(id, label, uri);
        item.canResolveChildren = isFolder;
        item.sortText = `${isFolder ? 0 : 1} ${label}`;
        collection.add(item);
      } else if (known.children.size > 0) this.fill(known.children, id);
    }
  }
}

export const itemsIn = (collection: TestItemCollection): readonly TestItem[] => [...collection].map(([, item]) => item);

interface Entry {
  readonly uri: Uri;
  readonly label: string;
  readonly isFolder: boolean;
}

/** What lies in each folder, by the URIs of both. */
type Entries = Map<string, Map<string, Entry>>;

const TOP = '';

/** A workspace of one folder needs no name for it. */
function entriesOf(specs: readonly Uri[]): Entries {
  const entries: Entries = new Map();
  const put = (folder: string, entry: Entry): string => {
    const id = entry.uri.toString();
    const within = entries.get(folder) ?? new Map<string, Entry>();
    entries.set(folder, within.set(id, entry));
    return id;
  };
  const hasSeveral = (workspace.workspaceFolders?.length ?? 0) > 1;
  for (const spec of specs) {
    const home = workspace.getWorkspaceFolder(spec);
    if (home === undefined) continue;
    const names = spec.path
      .slice(home.uri.path.length)
      .split('/')
      .filter((name) => name !== '');
    let within = hasSeveral ? put(TOP, { uri: home.uri, label: home.name, isFolder: true }) : TOP;
    for (const [index, label] of names.slice(0, -1).entries())
      within = put(within, { uri: Uri.joinPath(home.uri, ...names.slice(0, index + 1)), label, isFolder: true });
    put(within, { uri: spec, label: names.at(-1) ?? spec.path, isFolder: false });
  }
  return entries;
}
