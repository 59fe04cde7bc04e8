import { commands, Disposable, type SaveDialogOptions, Uri, window, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  fromBase64,
  PAGE_REQUEST,
  type PageParams,
  type PageResult,
  PROTOCOL_VERSION,
} from '../../../../server/src/lsp/protocol.ts';
import { fileName } from '../files/file-choice.ts';
import { t } from '../words.ts';
import type { BenchViewControl } from './bench-view-control.ts';

/** Saving what the view shows. The save dialog asks before it replaces a file. */
export function activateExport(benchView: BenchViewControl, client: BaseLanguageClient): Disposable {
  return Disposable.from(
    commands.registerCommand('pickup.exportSvg', async (target?: unknown) => {
      const { svg, subject } = benchView.shown()?.drawing ?? {};
      if (svg === undefined) return nothingToSave();
      await save(new TextEncoder().encode(svg), subject?.name ?? 'drawing', SVG, targetOf(target));
    }),
    commands.registerCommand('pickup.exportPng', async () => {
      if (benchView.shown()?.drawing.svg === undefined) return nothingToSave();
      benchView.paint();
    }),
    commands.registerCommand('pickup.exportHtml', async (target?: unknown) => {
      const subject = benchView.subject();
      if (subject === undefined) return nothingToSave();
      const params: PageParams = { protocol: PROTOCOL_VERSION, ...subject };
      const { html } = await client.sendRequest<PageResult>(PAGE_REQUEST, params);
      if (html === undefined) return nothingToSave();
      await save(new TextEncoder().encode(html), subject.subject.name, HTML, targetOf(target));
    }),
  );
}

/** A picture that the view has painted. */
export async function savePicture(png: string, name: string): Promise<void> {
  const bytes = fromBase64(png);
  await save(bytes, name, PNG, undefined);
}

interface Kind {
  readonly ending: string;
  readonly filters: NonNullable<SaveDialogOptions['filters']>;
}

const SVG: Kind = { ending: 'svg', filters: { 'SVG drawing': ['svg'] } };
const PNG: Kind = { ending: 'png', filters: { 'PNG picture': ['png'] } };
const HTML: Kind = { ending: 'html', filters: { 'HTML page': ['html'] } };

/** Beside the spec unless the person says otherwise. */
async function save(bytes: Uint8Array, name: string, { ending, filters }: Kind, given: Uri | undefined): Promise<void> {
  const folder = workspace.workspaceFolders?.[0]?.uri;
  const target =
    given ??
    (await window.showSaveDialog({
      filters,
      ...(folder && { defaultUri: Uri.joinPath(folder, `${fileNameOf(name)}.${ending}`) }),
    }));
  if (target === undefined) return;
  try {
    await workspace.fs.writeFile(target, bytes);
  } catch (error) {
    void window.showErrorMessage(
      t('{0} could not be written: {1}', fileName(target), error instanceof Error ? error.message : String(error)),
    );
  }
}

/** A name of a pickup may hold what no file system takes. */
const fileNameOf = (name: string): string => name.replace(/[^\p{L}\p{N}._-]+/gu, '-').slice(0, 80) || 'drawing';

const targetOf = (target: unknown): Uri | undefined => (target instanceof Uri ? target : undefined);

async function nothingToSave(): Promise<void> {
  await window.showInformationMessage(t('Open the bench view of a pickup first: what it shows is saved.'));
}
