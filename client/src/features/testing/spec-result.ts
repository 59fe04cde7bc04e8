import {
  type CancellationToken,
  Location,
  Range,
  type TestItem,
  TestMessage,
  type TestRun,
  Uri,
  workspace,
} from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { CHECK_REQUEST, type CheckResult, PROTOCOL_VERSION } from '../../../../server/src/lsp/protocol.ts';
import { terminalText } from '../terminal-text.ts';

/** How the check of a spec came out: an error fails it; a warning does not, and is written into the output of the run. */
export interface SpecResult {
  readonly outcome: 'passed' | 'failed' | 'errored';
  readonly messages: readonly TestMessage[];
  /** Files that this rests on. */
  readonly uris: ReadonlySet<string>;
  readonly output: readonly OutputLine[];
}

interface OutputLine {
  readonly text: string;
  readonly location: Location;
}

export async function checkSpec(
  client: BaseLanguageClient,
  uri: string,
  token: CancellationToken,
): Promise<SpecResult> {
  try {
    const params = { protocol: PROTOCOL_VERSION, uri };
    return resultOf(Uri.parse(uri), await client.sendRequest<CheckResult>(CHECK_REQUEST, params, token));
  } catch (error) {
    return notChecked(uri, error instanceof Error ? error.message : String(error));
  }
}

export function tellResult(run: TestRun, item: TestItem, { outcome, messages, output }: SpecResult): void {
  for (const { text, location } of output) run.appendOutput(`${text}\r\n`, location, item);
  if (outcome === 'passed') run.passed(item);
  else run[outcome](item, messages);
}

function resultOf(uri: Uri, { findings, uris, problem }: CheckResult): SpecResult {
  if (problem !== undefined) return notChecked(uri.toString(), problem);
  const told = findings
    .filter(({ severity }) => severity === 'error' || severity === 'warning')
    .map(({ severity, message, code, range: { start, end } }) => {
      const range = new Range(start.line, start.character, end.line, end.character);
      const place = `${workspace.asRelativePath(uri)}:${start.line + 1}:${start.character + 1}`;
      const said = `${message} [${code}]`;
      return {
        severity,
        location: new Location(uri, range),
        // Both are shown by a terminal.
        said: terminalText(said),
        text: terminalText(`${place}: ${severity}: ${said}`),
      };
    });
  const messages = told
    .filter(({ severity }) => severity === 'error')
    .map(({ said, location }) => Object.assign(new TestMessage(said), { location }));
  return {
    outcome: messages.length > 0 ? 'failed' : 'passed',
    messages,
    // The server may write the same address otherwise than the editor.
    uris: new Set(uris.map((each) => Uri.parse(each).toString())),
    output: told,
  };
}

const notChecked = (uri: string, why: string): SpecResult => ({
  outcome: 'errored',
  messages: [new TestMessage(terminalText(why))],
  uris: new Set([uri]),
  output: [],
});
