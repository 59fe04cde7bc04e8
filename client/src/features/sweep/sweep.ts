import { commands, Disposable, type TextEditor, Uri, type ViewColumn, window, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  CURVE_REQUEST,
  type CurveParams,
  type CurveResult,
  fromBase64,
  LANGUAGE_ID,
  PROTOCOL_VERSION,
  SWEEP_LINE_REQUEST,
  type SweepLineParams,
  type SweepLineResult,
  TEST_SIGNAL_REQUEST,
  type TestSignalResult,
  toBase64,
} from '../../../../server/src/lsp/protocol.ts';
import { editorsEdit } from '../files/editors-edit.ts';
import { fileName, writeText } from '../files/file-choice.ts';
import { t } from '../words.ts';

/** Measuring a pickup over frequency: the signal to be played, and the curve of its recording with the line that names it. */
export function activateSweeps(client: BaseLanguageClient): Disposable {
  return Disposable.from(
    commands.registerCommand('pickup.saveTestSignal', (given?: unknown) => saveTestSignal(client, given)),
    commands.registerCommand('pickup.curveFromRecording', (given?: unknown) => curveFromRecording(client, given)),
  );
}

async function saveTestSignal(client: BaseLanguageClient, given: unknown): Promise<Uri | undefined> {
  const { wav, cautions } = await client.sendRequest<TestSignalResult>(TEST_SIGNAL_REQUEST, {
    protocol: PROTOCOL_VERSION,
  });
  const { target }: { target?: unknown } = Object(given ?? {});
  const file = target instanceof Uri ? target : await askSignalFile(cautions);
  if (file === undefined || wav === '') return undefined;
  await workspace.fs.writeFile(file, fromBase64(wav));
  return file;
}

/** What can hurt is read before there is anything to play. */
async function askSignalFile(cautions: readonly string[]): Promise<Uri | undefined> {
  const save = t('Save It');
  const answer = await window.showWarningMessage(
    t('A test signal is played into the pickup, and both channels are recorded together.'),
    { modal: true, detail: cautions.join('\n\n') },
    save,
  );
  if (answer !== save) return undefined;
  const folder = workspace.workspaceFolders?.[0]?.uri;
  return window.showSaveDialog({
    title: t('Save the test signal'),
    filters: { Sound: ['wav'] },
    ...(folder && { defaultUri: Uri.joinPath(folder, 'sweep.wav') }),
  });
}

/** For those who call the command: nothing is asked then. */
interface Given {
  readonly recordings: readonly Uri[];
  readonly target: Uri;
  readonly reference?: 'left' | 'right';
  readonly seconds?: number;
  readonly setUp: string;
}

function givenFrom(given: unknown): Given | undefined {
  const { recordings, target, reference, seconds, setUp }: { [K in keyof Given]?: unknown } = Object(given ?? {});
  if (!Array.isArray(recordings) || !(target instanceof Uri) || typeof setUp !== 'string') return undefined;
  return {
    recordings: recordings.filter((each) => each instanceof Uri),
    target,
    setUp,
    ...(reference === 'left' || reference === 'right' ? { reference } : {}),
    ...(typeof seconds === 'number' ? { seconds } : {}),
  };
}

async function curveFromRecording(client: BaseLanguageClient, given: unknown): Promise<Uri | undefined> {
  const spec = window.activeTextEditor;
  const chosen = givenFrom(given) ?? (await askRecordings(spec?.document.uri));
  if (chosen === undefined || chosen.recordings.length === 0) return undefined;
  const recordings = await Promise.all(
    chosen.recordings.map(async (uri) => ({ name: fileName(uri), wav: toBase64(await workspace.fs.readFile(uri)) })),
  );
  const params: CurveParams = {
    protocol: PROTOCOL_VERSION,
    recordings,
    ...(chosen.reference && { reference: chosen.reference }),
    ...(chosen.seconds !== undefined && { seconds: chosen.seconds }),
  };
  const { text, lines, problem, cautions } = await client.sendRequest<CurveResult>(CURVE_REQUEST, params);
  if (text === undefined) {
    void window.showErrorMessage([problem ?? t('There is no curve in this recording.'), ...cautions].join(' '));
    return undefined;
  }
  await writeText(chosen.target, text);
  if (spec?.document.languageId === LANGUAGE_ID) await nameInSpec(client, spec, chosen);
  if (given === undefined)
    void window.showInformationMessage([`${fileName(chosen.target)}: ${lines.join('; ')}.`, ...cautions].join(' '));
  return chosen.target;
}

async function nameInSpec(
  client: BaseLanguageClient,
  { document, selection, viewColumn }: TextEditor,
  { target, setUp }: Given,
): Promise<void> {
  const { line, character } = selection.active;
  const params: SweepLineParams = {
    protocol: PROTOCOL_VERSION,
    uri: document.uri.toString(),
    cursor: { line, character },
    path: pathFrom(document.uri, target),
    setUp,
  };
  const { edit } = await client.sendRequest<SweepLineResult>(SWEEP_LINE_REQUEST, params);
  if (edit === undefined) return;
  await workspace.applyEdit(await editorsEdit(client, edit));
  await showAgain(document.uri, viewColumn);
}

const showAgain = (uri: Uri, column: ViewColumn | undefined) =>
  window.showTextDocument(uri, column === undefined ? {} : { viewColumn: column });

/** Seen from the folder of a file; the whole path where they share no root. */
function pathFrom(spec: Uri, target: Uri): string {
  const [here, there] = [spec.path.split('/').slice(0, -1), target.path.split('/')];
  let shared = 0;
  while (shared < here.length && here[shared] === there[shared]) shared++;
  return [...here.slice(shared).map(() => '..'), ...there.slice(shared)].join('/');
}

async function askRecordings(spec: Uri | undefined): Promise<Given | undefined> {
  const title = t('Curve from a recording');
  const recordings = await window.showOpenDialog({
    title: t('The recording; two files where its channels were saved apart'),
    openLabel: t('Read It'),
    canSelectMany: true,
    filters: { Sound: ['wav'] },
  });
  const [first, second, ...more] = recordings ?? [];
  if (first === undefined || more.length > 0) return undefined;
  const choices = second
    ? [
        { label: fileName(first), recordings: [second, first] },
        { label: fileName(second), recordings: [first, second] },
      ]
    : [
        { label: t('left channel'), reference: 'left' as const, recordings: [first] },
        { label: t('right channel'), reference: 'right' as const, recordings: [first] },
      ];
  const sent = await window.showQuickPick(choices, { title, placeHolder: t('Where is what was sent, the reference?') });
  if (sent === undefined) return undefined;
  const setUp = await askSetUp(title);
  if (setUp === undefined) return undefined;
  const name = fileName(first).replace(/\.[^.]*$/, '');
  const target = await window.showSaveDialog({
    title: t('Save the curve, beside the spec that names it'),
    filters: { Curve: ['csv'] },
    ...(spec && { defaultUri: Uri.joinPath(spec, '..', 'sweeps', `${name}.csv`) }),
  });
  if (target === undefined) return undefined;
  const { label: _, ...channels } = sent;
  return { ...channels, target, setUp };
}

async function askSetUp(title: string): Promise<string | undefined> {
  const ways = [
    { label: 'over', description: t('the pickup in the way, a resistor to ground: the one to use'), usual: '10 kohm' },
    { label: 'through', description: t('a resistor in the way, the pickup to ground'), usual: '100 kohm' },
    {
      label: 'excited over',
      description: t('by a coil above it, whose current goes over a resistor'),
      usual: '1 kohm',
    },
  ];
  const way = await window.showQuickPick(ways, { title, placeHolder: t('What was it measured through?') });
  const resistor =
    way && (await window.showInputBox({ title, prompt: t('The resistor, as measured'), value: way.usual }));
  return way && resistor ? `${way.label} ${resistor}` : undefined;
}
