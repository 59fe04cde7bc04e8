/** Work on many files, spread over the cores where the program can start threads of itself. */
import { availableParallelism } from 'node:os';
import { setImmediate as nextTurn } from 'node:timers/promises';
import { setFlagsFromString } from 'node:v8';
import { parentPort, Worker, workerData } from 'node:worker_threads';
import { type Analyser, createAnalyser } from '../analysis/analysis.ts';

/**
 * What is done to each file, made from settings. Settings and results cross from thread to thread: plain data. What a task has
 * read and computed of a file is nowhere but in its result, so that it can be let go.
 */
export interface Task<S, I, R> {
  /** By which a thread finds it. */
  readonly name: string;
  begin(settings: S, analyser: Analyser): (item: I) => R;
}

export interface Threads {
  /** The results in the order of the files, or places in files; each as soon as those before it are there. */
  each<S, I, R>(task: Task<S, I, R>, settings: S, items: readonly I[]): AsyncIterable<R>;
}

/** Files whose trees, models and numbers are kept at the same time: those that others use are asked for again and again. */
export const KEPT_FILES = 32;

/** A file after the other. */
export const oneThread = (analyser: Analyser): Threads => ({
  async *each(task, settings, items) {
    const work = task.begin(settings, analyser);
    for (const item of items) yield work(item);
  },
});

/** This thread and one of the same program for each further core. */
export function manyThreads(program: string, analyser: Analyser, cores = availableParallelism()): Threads {
  return {
    each(task, settings, items) {
      const count = Math.min(cores, MOST_THREADS, Math.floor(items.length / FILES_WORTH_A_THREAD)) - 1;
      if (count < 1) return oneThread(analyser).each(task, settings, items);
      // What a file leaves behind is collected before it grows to several times of what is alive.
      setFlagsFromString('--heap-growing-percent=100');
      // Compiling well takes a fifth of the time of a thousand files: only what runs most often is worth it.
      setFlagsFromString('--interrupt-budget=1000000');
      const workerData = { name: task.name, settings } satisfies Order;
      const start = () => new Worker(program, { workerData, resourceLimits: { maxYoungGenerationSizeMb: 24 } });
      return spread(items, task.begin(settings, analyser), Array.from({ length: count }, start));
    },
  };
}

/** A start takes about as long as this many files. */
const FILES_WORTH_A_THREAD = 16;
const MOST_THREADS = 8;
/** Files that are handed over at once. */
const BATCH = 4;
/** How far the work may be ahead of the first file that is not done: as much of results is kept. */
const AHEAD = 256;

interface Order {
  readonly name: string;
  readonly settings: unknown;
}

interface Batch<I> {
  readonly first: number;
  readonly items: readonly I[];
}

interface Done<R> {
  readonly first: number;
  readonly results: readonly R[];
}

/** In a thread that `manyThreads` has started: does what it is handed. */
export function serveThread(tasks: readonly Task<never, never, unknown>[]): void {
  const { name, settings } = workerData as Order;
  const task = tasks.find((each) => each.name === name);
  const work = task?.begin(settings as never, createAnalyser(KEPT_FILES));
  parentPort?.on('message', ({ first, items }: Batch<never>) => {
    if (work) parentPort?.postMessage({ first, results: items.map(work) } satisfies Done<unknown>);
  });
}

async function* spread<I, R>(items: readonly I[], work: (item: I) => R, threads: readonly Worker[]): AsyncIterable<R> {
  const results = new Map<number, R>();
  let [next, told] = [0, 0];
  const idle = new Set<Worker>();
  const take = (most: number): Batch<I> => {
    const first = next;
    next = Math.min(items.length, next + most);
    return { first, items: items.slice(first, next) };
  };
  const mayTake = (): boolean => next < items.length && next < told + AHEAD;
  const hand = (thread: Worker): void => {
    idle.delete(thread);
    if (mayTake()) thread.postMessage(take(BATCH));
    else idle.add(thread);
  };
  let fault: Error | undefined;
  let wake = (): void => undefined;
  for (const thread of threads) {
    thread.on('message', (done: Done<R>) => {
      for (const [index, result] of done.results.entries()) results.set(done.first + index, result);
      hand(thread);
      wake();
    });
    thread.on('error', (error) => {
      fault = error instanceof Error ? error : new Error(String(error));
      wake();
    });
    // Two at a time: it never waits for the next.
    hand(thread);
    hand(thread);
  }
  try {
    while (told < items.length) {
      if (fault) throw fault;
      const result = results.get(told);
      if (result !== undefined) {
        results.delete(told);
        told += 1;
        for (const thread of [...idle]) hand(thread);
        yield result;
      } else if (mayTake()) {
        const { first, items: own } = take(1);
        for (const item of own) results.set(first, work(item));
        await nextTurn();
      } else {
        await new Promise<void>((resolve) => {
          wake = resolve;
        });
      }
    }
  } finally {
    await Promise.all(threads.map((thread) => thread.terminate()));
  }
}
