/**
 * The layers of the code as DEVELOPERS.md draws them: the table there is the rule, this test reads it. An import that the table
 * does not allow fails here, whatever the compiler says.
 */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync, statSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const root = path.dirname(path.dirname(fileURLToPath(import.meta.url)));

interface Part {
  readonly name: string;
  readonly folder: string;
  /** Parts it may import beside itself. */
  readonly parts: readonly string[];
  readonly packages: readonly string[];
}

describe('architecture', () => {
  const parts = partsOfTable(readFileSync(path.join(root, 'DEVELOPERS.md'), 'utf8'));

  it('is drawn in DEVELOPERS.md, every part with a folder that exists', () => {
    assert.ok(parts.length >= 12, `only ${parts.length} parts in the table`);
    for (const { folder } of parts) assert.ok(statSync(path.join(root, folder)).isDirectory(), folder);
  });

  it('holds every source file in one part', () => {
    const homeless = sources(['grammar/values', 'grammar/src', 'server/src', 'client/src', 'client/webview']).filter(
      (file) => !partOf(file, parts),
    );
    assert.deepEqual(homeless, []);
  });

  it('takes the values of the protocol from one file, which costs the start of the server once', () => {
    const own = 'server/src/lsp/protocol-library.ts';
    const offences = sources(['server/src/lsp']).filter((file) => {
      const taken = /^import \{([^}]*)\} from 'vscode-languageserver';/m.exec(
        readFileSync(path.join(root, file), 'utf8'),
      );
      return file !== own && taken?.[1]?.split(',').some((name) => !/^\s*(?:type |$)/.test(name));
    });
    assert.deepEqual(offences, []);
  });

  for (const part of parts)
    it(`${part.name} imports only what its row allows`, () => {
      const offences = sources([part.folder])
        .filter((file) => partOf(file, parts) === part)
        .flatMap((file) => importsOf(file).flatMap((specifier) => offence(file, specifier, part, parts)));
      assert.deepEqual(offences, []);
    });

  it('has no circle of files, imports of types included', () => {
    const files = sources(['grammar/src', 'server/src', 'client/src', 'client/webview']);
    const imports = new Map(files.map((file) => [file, importsOf(file).flatMap((each) => fileOf(file, each) ?? [])]));
    assert.ok([...imports.values()].flat().length > files.length, 'hardly any import was found');
    assert.deepEqual(circleIn(imports), []);
  });

  it('exports no value that only tests ask for', () => {
    // What writes the generated files is no test.
    const texts = sources(['grammar', 'server/src', 'client', 'test/scripts']).map(textOf);
    const times = new Map<string, number>();
    for (const [word] of texts.join('\n').matchAll(/\w+/g)) times.set(word, (times.get(word) ?? 0) + 1);
    const exported = texts.flatMap((text) =>
      [...text.matchAll(/^export (?:async )?(?:const|function\*?|class) (\w+)/gm)].map(([, name = '']) => name),
    );
    assert.ok(exported.length > texts.length, 'hardly any export was found');
    const idle = exported.filter((name) => times.get(name) === 1);
    assert.deepEqual(idle, []);
  });

  it('names only paths that exist', () => {
    const pages = ['README.md', 'DEVELOPERS.md'];
    const missing = pages.flatMap((page) => {
      const text = readFileSync(path.join(root, page), 'utf8');
      const named = [...text.matchAll(/`((?:grammar|server|client|test|samples|\.ci)\/[\w./-]+)`/g)].flatMap(
        (match) => match[1] ?? [],
      );
      return named.filter((each) => !exists(each)).map((each) => `${page}: ${each}`);
    });
    assert.deepEqual(missing, []);
  });
});

function partsOfTable(markdown: string): readonly Part[] {
  return [...markdown.matchAll(/^\| `([\w-]+)` +\| `([\w/]+\/)` +\| ([^|]*) \| ([^|]*) \|/gm)].map((row) => {
    const words = (cell: string | undefined) =>
      [...(cell ?? '').matchAll(/`([^`]+)`/g)].flatMap((match) => match[1] ?? []);
    return { name: row[1] ?? '', folder: row[2] ?? '', parts: words(row[3]), packages: words(row[4]) };
  });
}

function sources(folders: readonly string[]): readonly string[] {
  return folders.flatMap((folder) =>
    readdirSync(path.join(root, folder), { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts'))
      .map((name) => path.posix.join(folder, name.split(path.sep).join('/'))),
  );
}

const textOf = (file: string): string => readFileSync(path.join(root, file), 'utf8');

/** The part with the longest folder that holds the file. */
function partOf(file: string, parts: readonly Part[]): Part | undefined {
  return parts.filter(({ folder }) => file.startsWith(folder)).sort((a, b) => b.folder.length - a.folder.length)[0];
}

function importsOf(file: string): readonly string[] {
  const text = textOf(file);
  return [
    ...text.matchAll(
      /(?:^|\n)\s*(?:import|export)\s[^;]*?from\s+'([^']+)'|import\(\s*'([^']+)'\s*\)|(?:^|\n)import\s+'([^']+)'/g,
    ),
  ].flatMap((match) => match[1] ?? match[2] ?? match[3] ?? []);
}

/** The file that an import names; `undefined` for a package. */
const fileOf = (from: string, specifier: string): string | undefined =>
  specifier.startsWith('.') ? path.posix.join(path.posix.dirname(from), specifier) : undefined;

/** Files that import each other round in a circle, the first found; empty where there is none. */
function circleIn(imports: ReadonlyMap<string, readonly string[]>): readonly string[] {
  const done = new Set<string>();
  const walk = (file: string, way: readonly string[]): readonly string[] => {
    const before = way.indexOf(file);
    if (before >= 0) return [...way.slice(before), file];
    if (done.has(file)) return [];
    for (const next of imports.get(file) ?? []) {
      const circle = walk(next, [...way, file]);
      if (circle.length > 0) return circle;
    }
    done.add(file);
    return [];
  };
  for (const file of imports.keys()) {
    const circle = walk(file, []);
    if (circle.length > 0) return circle;
  }
  return [];
}

function offence(file: string, specifier: string, part: Part, parts: readonly Part[]): readonly string[] {
  const target = fileOf(file, specifier);
  if (target !== undefined) {
    const home = partOf(target, parts);
    if (!home || home === part || part.parts.includes(home.name) || part.parts.includes(target)) return [];
    return [`${file} imports ${target} (${home.name})`];
  }
  const name = specifier.startsWith('node:')
    ? 'node'
    : specifier
        .split('/')
        .slice(0, specifier.startsWith('@') ? 2 : 1)
        .join('/');
  return part.packages.includes(name) ? [] : [`${file} imports the package ${name}`];
}

function exists(name: string): boolean {
  try {
    statSync(path.join(root, name));
    return true;
  } catch {
    return false;
  }
}
