import { readFileSync } from 'node:fs';
import { loadavg } from 'node:os';
import { setTimeout as sleep } from 'node:timers/promises';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { type ServerProcess, startServer } from '../protocol/server-process.ts';
import { generatedSpec } from './generated-spec.ts';

const SIZES = [100, 1_000, 10_000] as const;
const COLD_STARTS = 7;
/** Keystrokes that are made first and not counted, and those that are. */
const WARM_UP = 10;
const KEYSTROKES = 60;
const REQUESTS = 20;
/** A fast typist's pause. */
const THINK_MS = 60;
const FILE = 'file:///bench/main.pickup';

/** Latency and memory of the server over stdio, as any client sees them, on generated specs of several lengths. */
export async function run(): Promise<void> {
  // The servers do not keep this process waiting for them; here it has to.
  const waiting = setInterval(() => undefined, 60_000);
  try {
    await measureAll();
  } finally {
    clearInterval(waiting);
  }
}

async function measureAll(): Promise<void> {
  // The first start after a build reads the bundle from the disk.
  await (await startServer()).stop();
  console.log(
    `language server over stdio, Node ${process.version}, load ${loadavg()[0]?.toFixed(1)}; ms, median / p95`,
  );
  console.log('| lines | cold start to findings | keystroke to findings | completion | hover | burst of 20 | MB |');
  console.log('|--:|--:|--:|--:|--:|--:|--:|');
  for (const lines of SIZES) console.log(await measure(lines));
}

async function measure(lines: number): Promise<string> {
  const spec = generatedSpec(lines);
  const cold: number[] = [];
  let server = await coldStart(spec.text, cold);
  for (let start = 1; start < COLD_STARTS; start += 1) {
    await server.stop();
    server = await coldStart(spec.text, cold);
  }
  const document = TextDocument.create(FILE, 'pickup', 1, spec.text);
  const about = (offset: number) => ({ textDocument: { uri: FILE }, position: document.positionAt(offset) });

  const keys: number[] = [];
  let version = 1;
  const type = (): void => {
    version += 1;
    const start = document.positionAt(spec.digit);
    const typed = version % 2 === 0;
    const end = typed ? start : { line: start.line, character: start.character + 1 };
    server.change(FILE, version, [{ range: { start, end }, text: typed ? '1' : '' }]);
  };
  await sleep(500);
  for (let key = 0; key < WARM_UP + KEYSTROKES; key += 1) {
    const began = performance.now();
    type();
    await server.diagnosed(FILE, version);
    if (key >= WARM_UP) keys.push(performance.now() - began);
    await sleep(THINK_MS);
  }
  const asked = async (method: string, offset: number): Promise<readonly number[]> => {
    const times: number[] = [];
    for (let request = 0; request < REQUESTS; request += 1) {
      const began = performance.now();
      const answer = await server.request(method, about(offset));
      times.push(performance.now() - began);
      if (answer === null) throw new Error(`${method} has no answer to measure`);
      await sleep(5);
    }
    return times;
  };
  const completion = await asked('textDocument/completion', spec.name);
  const hover = await asked('textDocument/hover', spec.word);
  const before = server.published.length;
  const began = performance.now();
  for (let key = 0; key < 20; key += 1) type();
  await server.diagnosed(FILE, version);
  const burst = performance.now() - began;
  const answers = server.published.length - before;
  const cells = [
    String(spec.text.split('\n').length - 1),
    both(cold),
    both(keys),
    both(completion),
    both(hover),
    `${burst.toFixed(1)} (${answers} answers)`,
    residentMb(server.child.pid),
  ];
  await server.stop();
  return `| ${cells.join(' | ')} |`;
}

/** From the start of the process to the findings of its first file. */
async function coldStart(text: string, times: number[]): Promise<ServerProcess> {
  const began = performance.now();
  const server = await startServer();
  server.open(FILE, text);
  const found = await server.diagnosed(FILE, 1);
  times.push(performance.now() - began);
  if (found.length === 0) throw new Error('no finding: nothing was measured');
  return server;
}

const both = (times: readonly number[]): string =>
  `${quantile(times, 0.5).toFixed(1)} / ${quantile(times, 0.95).toFixed(1)}`;

function quantile(times: readonly number[], share: number): number {
  const sorted = [...times].sort((a, b) => a - b);
  const at = (sorted.length - 1) * share;
  const low = sorted[Math.floor(at)] ?? Number.NaN;
  return low + ((sorted[Math.ceil(at)] ?? low) - low) * (at - Math.floor(at));
}

/** Resident memory of the process; Linux only, elsewhere a dash. */
function residentMb(pid: number | undefined): string {
  try {
    const kilobytes = /VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1];
    return String(Math.round(Number(kilobytes) / 1024));
  } catch {
    return '–';
  }
}
