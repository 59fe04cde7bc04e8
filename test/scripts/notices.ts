/** The licence notices of everything that a build has put into its bundles. */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import type { Metafile } from 'esbuild';

export interface BundledPackage {
  readonly name: string;
  readonly version: string;
  readonly licence: string;
  readonly text: string;
}

/** By name. Throws where a package brings nothing of its licence: then nobody may ship it unread. */
export function bundledPackages(
  written: readonly { readonly metafile: Metafile }[],
  root: string,
): readonly BundledPackage[] {
  const inputs = [...new Set(written.flatMap(({ metafile }) => Object.keys(metafile.inputs)))].sort();
  const files = new Map<string, string[]>();
  for (const input of inputs) {
    const folder = /^.*node_modules\/(?:@[^/]+\/)?[^/]+(?=\/)/.exec(input)?.[0];
    if (folder !== undefined) files.set(folder, [...(files.get(folder) ?? []), path.join(root, input)]);
  }
  const packages = [...files].map(([folder, sources]) => readPackage(path.join(root, folder), sources, root));
  const byTitle = new Map(packages.map((each) => [titleOf(each), each]));
  return [...byTitle.values()].sort((a, b) => (titleOf(a) < titleOf(b) ? -1 : 1));
}

export const noticesText = (packages: readonly BundledPackage[]): string =>
  [
    'This package holds parts of the packages below, under these licences.\n',
    ...packages.map((each) => `${'='.repeat(80)}\n${titleOf(each)}, ${each.licence}\n\n${each.text.trim()}\n`),
  ].join('\n');

const titleOf = ({ name, version }: BundledPackage): string => `${name} ${version}`;

function readPackage(folder: string, sources: readonly string[], root: string): BundledPackage {
  const manifest = JSON.parse(textOf(path.join(folder, 'package.json'))) as Readonly<Record<string, unknown>>;
  const [name, version, licence] = [manifest.name, manifest.version, manifest.license].map(String);
  const files = readdirSync(folder).filter((file) => /^(licen[cs]e|copying|notice)/i.test(file));
  const text = files
    .sort()
    .map((file) => textOf(path.join(folder, file)))
    .join('\n');
  const found = text.trim() === '' ? ownWords(sources, licence, root) : text;
  if (found === undefined) throw new Error(`${name} is bundled and brings no text of its licence`);
  return { name: name ?? '', version: version ?? '', licence: licence ?? '', text: found };
}

/** Without a file of its licence: whose it is stands at the head of its sources, the terms of the MIT licence are ours. */
function ownWords(sources: readonly string[], licence: string | undefined, root: string): string | undefined {
  const heads = sources.flatMap((source) => /^(?:\/\/.*\n|\/\*[\s\S]*?\*\/\n)+/.exec(textOf(source))?.[0] ?? []);
  const holders = [...new Set(heads)].filter((head) => /copyright/i.test(head));
  if (licence !== 'MIT' || holders.length === 0) return undefined;
  const terms = textOf(path.join(root, 'LICENSE')).replace(/^[\s\S]*?(?=Permission is hereby granted)/, '');
  return [...holders, terms].join('\n');
}

const textOf = (file: string): string => readFileSync(file, 'utf8').replaceAll('\r\n', '\n');
