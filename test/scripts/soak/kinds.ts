/** What is soaked: each kind counts its steps, and tells where it is and what went wrong. */
import assert from 'node:assert/strict';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { readFileTree } from '../../../grammar/src/read-file.ts';
import { type Analysing, createAnalyser } from '../../../server/src/analysis/analysis.ts';
import type { Analysis } from '../../../server/src/analysis/analysis-types.ts';
import { PROTOCOL_VERSION } from '../../../server/src/lsp/protocol.ts';
import { answersOf, layOut, playHands, randomChange } from '../../protocol/random-hands.ts';
import { playSession } from '../../protocol/random-session.ts';
import { startServer } from '../../protocol/server-process.ts';
import { askEverything, readEverything } from '../../support/any-text.ts';
import { BAD_TEXTS, randomEdit } from '../../support/bad-texts.ts';
import { chance, uniform } from '../../support/chance.ts';
import { FOLDER, hostOf } from '../../support/check-fixture.ts';
import { sampleFiles } from '../../support/sample-files.ts';

export type Message = { readonly kind: 'at' | 'fault' | 'summary'; readonly words: string };

interface Soak {
  readonly scale: number;
  readonly seed: number;
  at(words: string): void;
  fault(where: string, error: unknown): void;
  summary(words: string): void;
}

const SAMPLES: Readonly<Record<string, string>> = Object.fromEntries(
  sampleFiles().map(({ path: name, text }) => [name, text]),
);
/** Longer texts are the parser's to bear; the analysis of one takes seconds. */
const LONGEST_ANALYSED = 30_000;

const analysed = (name: string, text: string, analyser = createAnalyser()): Analysis =>
  analyser.analyse(FOLDER + name, hostOf({ ...SAMPLES, [name]: text }));

export const KINDS: Readonly<Record<string, (soak: Soak) => Promise<void>>> = {
  inputs: async ({ scale, seed, at, fault, summary }) => {
    const wanted = Math.ceil(100_000 * scale);
    let [count, asked] = [0, 0];
    for (let round = seed; count < wanted; round++)
      for (const [name, good] of Object.entries(SAMPLES))
        for (const [kind, texts] of Object.entries(BAD_TEXTS)) {
          let index = 0;
          const random = uniform(round + count);
          for (const { text } of texts(good, round)) {
            index++;
            // Of each class a share, so that a small scale sees all of them.
            if (random() > Math.max(scale, 0.02)) continue;
            if (count >= wanted) break;
            const where = `${name}, ${kind}, seed ${round}, text ${index}`;
            if (count++ % 50 === 0) at(where);
            try {
              readEverything(text);
              if (count % 10 === 0 && text.length <= LONGEST_ANALYSED) {
                asked++;
                const analysis = analysed(name, text);
                assert.ok(
                  !analysis.findings.some(({ message }) => message.includes('the program failed')),
                  'it failed at it',
                );
                askEverything(analysis);
              }
            } catch (error) {
              fault(where, error);
            }
          }
        }
    summary(`${count} texts read, ${asked} of them analysed`);
  },

  edits: async ({ scale, seed, at, fault, summary }) => {
    const wanted = Math.ceil(2500 * scale);
    const names = Object.keys(SAMPLES);
    let steps = 0;
    for (let count = 0; count < wanted; count++) {
      const random = uniform(seed * 100_000 + count);
      const pick = (below: number) => Math.floor(random() * below);
      const name = names[pick(names.length)] ?? '';
      const shared = ['shop.pickup', 'parts/stock.pickup'][pick(2)] ?? '';
      const where = `seed ${seed}, sequence ${count}, ${name}`;
      at(where);
      try {
        const analyser = createAnalyser();
        const texts: Record<string, string> = { ...SAMPLES };
        let tree = readFileTree(texts[name] ?? '');
        for (let step = 0; step < 20; step++) {
          const edited = pick(4) === 0 ? shared : name;
          texts[edited] = pick(12) === 0 ? (SAMPLES[edited] ?? '') : randomEdit(texts[edited] ?? '', random);
          tree = readFileTree(texts[name] ?? '', tree);
          steps++;
          assert.deepEqual(tree, readFileTree(texts[name] ?? ''), 'the tree');
          if (step % 5 !== 4) continue;
          const host = hostOf(texts);
          const late = pick(4) === 0;
          const inSteps = stepped(analyser.analysing(FOLDER + name, host), pick(3) === 0 ? pick(6) : undefined);
          assert.deepEqual(
            told(inSteps ?? analyser.analyse(FOLDER + name, host), late),
            told(createAnalyser().analyse(FOLDER + name, host), late),
            'the findings',
          );
        }
      } catch (error) {
        fault(where, error);
      }
    }
    summary(`${wanted} sequences, ${steps} edits`);
  },

  hands: async ({ scale, seed, at, fault, summary }) => {
    const wanted = Math.ceil(2500 * scale);
    const folder = mkdtempSync(path.join(tmpdir(), 'pickup-soak-'));
    layOut(folder);
    const options = { workspace: pathToFileURL(folder).href, initializationOptions: { protocol: PROTOCOL_VERSION } };
    let edited = await startServer(options);
    for (let count = 0; count < wanted; count++) {
      const where = `seed ${seed}, sequence ${count}`;
      at(where);
      const fresh = await startServer(options);
      try {
        await playHands(edited, fresh, folder, chance(seed * 100_000 + count), 5 + (count % 20));
      } catch (error) {
        fault(where, error);
        await edited.stop();
        layOut(folder);
        edited = await startServer(options);
      }
      await fresh.stop();
    }
    await edited.stop();
    rmSync(folder, { recursive: true, force: true });
    summary(`${wanted} sequences on a live server`);
  },

  sessions: async ({ scale, seed, at, fault, summary }) => {
    const wanted = Math.ceil(1000 * scale);
    for (let count = 0; count < wanted; count++) {
      const where = `seed ${seed}, session ${count}`;
      at(where);
      await playSession(chance(seed * 100_000 + count)).catch((error: unknown) => fault(where, error));
    }
    summary(`${wanted} sessions`);
  },

  typing: async ({ scale, seed, at, fault, summary }) => {
    const untilMs = performance.now() + 3_600_000 * scale;
    const folder = mkdtempSync(path.join(tmpdir(), 'pickup-soak-'));
    layOut(folder);
    const server = await startServer({
      workspace: pathToFileURL(folder).href,
      initializationOptions: { protocol: PROTOCOL_VERSION },
    });
    const name = 'fennel-bridge.pickup';
    const uri = pathToFileURL(path.join(folder, name)).href;
    const random = uniform(seed);
    const good = SAMPLES[name] ?? '';
    let document = TextDocument.create(uri, 'pickup', 1, good);
    server.open(uri, good);
    const sizes: number[] = [];
    for (let step = 1; performance.now() < untilMs; step++) {
      const change = step % 40 === 0 ? { text: good } : randomChange(document, random);
      document = TextDocument.update(document, [change], document.version + 1);
      server.change(uri, document.version, [change]);
      if (step % 5 !== 0) continue;
      await server.completelyDiagnosed(uri, document.version);
      await answersOf(server, uri);
      if (step % 200 !== 0) continue;
      at(`seed ${seed}, edit ${step}`);
      sizes.push(residentMB(server.child.pid));
    }
    await server.stop();
    rmSync(folder, { recursive: true, force: true });
    const third = Math.floor(sizes.length / 3);
    const [middle, last] = [median(sizes.slice(third, 2 * third)), median(sizes.slice(2 * third))];
    summary(`${document.version} edits; MB: ${sizes.map(Math.round).join(' ')}`);
    if (third >= 3 && last > middle * 1.15 + 10)
      fault(
        `seed ${seed}`,
        `memory grows: ${Math.round(middle)} MB in the second third, ${Math.round(last)} in the last`,
      );
    if (server.log.length > 0) fault(`seed ${seed}`, server.log.join('\n'));
  },
};

/** What an analysis in steps comes to; nothing where it is given up after so many. */
function stepped(steps: Analysing, most = Number.POSITIVE_INFINITY): Analysis | undefined {
  for (let count = 0; count < most; count++) {
    const step = steps.next();
    if (step.done) return step.value;
    step.value?.();
  }
  return undefined;
}

/** Findings in a form that two analyses can be compared by. */
const told = (analysis: Analysis, late: boolean): unknown =>
  (late ? analysis.allFindings() : analysis.findings).map(({ code, severity, message, place, subject }) => ({
    code,
    severity,
    message,
    subject,
    at: analysis.locate(place),
  }));

const median = (numbers: readonly number[]): number => [...numbers].sort((a, b) => a - b)[numbers.length >> 1] ?? 0;

/** As Linux tells it; elsewhere nothing is said of memory. */
function residentMB(pid: number | undefined): number {
  try {
    const [, kB = '0'] = /VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8')) ?? [];
    return Number(kB) / 1024;
  } catch {
    return 0;
  }
}
