/** Long work in the background, in slices so short that whatever is typed or asked comes between them. */
export interface Pace {
  /** Waits for a turn of its own where a slice is over, and for the hands to rest where nobody waits for the work. */
  turn(): Promise<void>;
  /** Something was typed, or work on what is in sight goes on. */
  interrupted(): void;
  /** Runs work for which somebody waits: it no longer rests while hands type. */
  urgently<T>(work: () => Promise<T>): Promise<T>;
}

export interface PaceOptions {
  readonly soon: (callback: () => void) => void;
  readonly after: (milliseconds: number, callback: () => void) => void;
  readonly now: () => number;
}

/** A third of what a person who types would notice on top of the answer. */
const SLICE_MS = 2;
const REST_MS = 300;

export function createPace({ soon, after, now }: PaceOptions): Pace {
  let sliceBegan = now();
  let restUntil = 0;
  let waitedFor = 0;
  return {
    turn: async () => {
      if (now() - sliceBegan < SLICE_MS && now() >= restUntil) return;
      await new Promise<void>(soon);
      while (waitedFor === 0 && now() < restUntil) {
        const left = restUntil - now();
        await new Promise<void>((resolve) => after(left, resolve));
      }
      sliceBegan = now();
    },
    interrupted: () => {
      restUntil = now() + REST_MS;
    },
    urgently: async (work) => {
      waitedFor += 1;
      try {
        return await work();
      } finally {
        waitedFor -= 1;
      }
    },
  };
}

/** Work for which somebody waits, so long that whoever asks about another file meanwhile hardly notices. */
const TURN_MS = 20;

/** Tells when a turn of such work that begins now is over. */
export function slice(): () => boolean {
  const end = performance.now() + TURN_MS;
  return () => performance.now() >= end;
}
