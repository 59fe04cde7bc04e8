import { loadavg } from 'node:os';
import { Writable } from 'node:stream';
import type { Message, PublishDiagnosticsParams } from 'vscode-languageserver';
import type { EarlyFindings } from '../../server/src/analysis/analysis-types.ts';
import { sentFindings } from '../../server/src/lsp/sent-findings.ts';
import { createSession } from '../../server/src/lsp/session.ts';
import { WholeMessageWriter } from '../../server/src/lsp/writer-node.ts';
import { generatedSpec } from './generated-spec.ts';

const URI = 'file:///bench/main.pickup';
const KEYSTROKES = 120;
/** The first ones compile what the later ones run. */
const WARM_UP = 60;
const PHASES = ['edit', 'its line', 'told first', 'text and names', 'told early', 'circuit', 'told'] as const;

/** What a keystroke costs inside the server, and where: the share of each of its phases, in specs of several lengths. */
export async function run(): Promise<void> {
  console.log(
    `keystroke inside the server, Node ${process.version}, load ${loadavg()[0]?.toFixed(1)}; medians of processor time`,
  );
  console.log(`| lines | ms | ${PHASES.join(' | ')} |`);
  console.log(`|--:|--:|${PHASES.map(() => '--:|').join('')}`);
  for (const lines of [100, 1_000, 10_000]) {
    const phases = keystrokes(lines);
    const total = phases.reduce((sum, ms) => sum + ms, 0);
    const shares = phases.map((ms) => `${ms.toFixed(2)} ms, ${Math.round((100 * ms) / total)} %`);
    console.log(`| ${lines} | ${total.toFixed(1)} | ${shares.join(' | ')} |`);
  }
}

/** Of all threads of the process: a busy computer changes it less than the clock. */
const processorMs = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

function keystrokes(lines: number): readonly number[] {
  const { text, digit } = generatedSpec(lines);
  const session = createSession({
    sources: { disk: undefined, askClient: undefined, arrived: () => undefined },
    failed: (_, error) => {
      throw error;
    },
    soon: setImmediate,
  });
  const document = session.documents.open({ textDocument: { uri: URI, languageId: 'pickup', version: 1, text } });
  session.complete(document);
  const start = document.positionAt(digit);
  const textOf = (uri: string) => session.files.document(uri);
  const asSent = sentFindings({ textOf, linksCodes: true, relatesPlaces: true, tagsFindings: true });
  const writer = new WholeMessageWriter(new Writable({ write: (_piece, _encoding, done) => done() }));
  const tell = (found: EarlyFindings): void => {
    const params: PublishDiagnosticsParams = { uri: URI, diagnostics: asSent(document, found) };
    void writer.write({ jsonrpc: '2.0', method: 'textDocument/publishDiagnostics', params } as Message);
  };
  const times: readonly number[][] = PHASES.map(() => []);
  for (let key = 0; key < KEYSTROKES; key += 1) {
    const isTyped = key % 2 === 0;
    const end = isTyped ? start : { line: start.line, character: start.character + 1 };
    const at = [processorMs()];
    const passed = () => at.push(processorMs());
    session.documents.change({
      textDocument: { uri: URI, version: key + 2 },
      contentChanges: [{ range: { start, end }, text: isTyped ? '1' : '' }],
    });
    session.changed([URI]);
    passed();
    for (let part = 0; part < 2; part += 1) {
      const { early } = session.goOn(URI, () => false, true);
      passed();
      if (early) tell(early);
      passed();
    }
    const analysis = session.analysisOf(document);
    passed();
    if (analysis) tell(analysis);
    passed();
    if (key >= WARM_UP) for (const [phase, own] of times.entries()) own.push((at[phase + 1] ?? 0) - (at[phase] ?? 0));
  }
  return times.map((own) => [...own].sort((a, b) => a - b)[own.length >> 1] ?? Number.NaN);
}
