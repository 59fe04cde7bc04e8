import { fromBase64, type SoundResult } from '../../server/src/lsp/protocol.ts';

export type Heard = 'before' | 'now';

export interface Player {
  /** Within a press of a button: only then may a page sound. */
  open(): void;
  /** From the start; while something rings, from where it has got to, faded over. */
  play(sound: SoundResult, heard: Heard): void;
  /** The other state, while the string goes on ringing. */
  hear(heard: Heard): void;
  stop(): void;
  isRinging(): boolean;
}

/** Time constant of a fade, in seconds: no click, and still at once. */
const FADE_S = 0.012;

interface Voice {
  readonly source: AudioBufferSourceNode;
  readonly gain: GainNode;
}

/** Both states ring at once, one of them with its gain down, so that switching misses nothing. */
export function createPlayer(): Player {
  let context: AudioContext | undefined;
  let voices = new Map<Heard, Voice>();
  let began = 0;
  let ends = 0;

  const isRinging = (): boolean => context !== undefined && voices.size > 0 && context.currentTime < ends;
  const fadeTo = (audio: AudioContext, { gain }: Voice, level: number): void => {
    gain.gain.cancelScheduledValues(audio.currentTime);
    gain.gain.setTargetAtTime(level, audio.currentTime, FADE_S);
  };
  const silence = (): void => {
    if (context === undefined) return;
    for (const voice of voices.values()) {
      fadeTo(context, voice, 0);
      voice.source.stop(context.currentTime + 10 * FADE_S);
    }
    voices = new Map();
  };
  return {
    open: () => {
      context ??= new AudioContext();
      void context.resume();
    },
    play: ({ now, before, sampleRate }, heard) => {
      if (context === undefined) return;
      const audio = context;
      const offset = isRinging() ? audio.currentTime - began : 0;
      silence();
      const made: [Heard, Voice][] = [];
      for (const [side, samples] of [
        ['now', now],
        ['before', before],
      ] as const) {
        if (samples === undefined) continue;
        const buffer = bufferFrom(samples, sampleRate);
        const source = new AudioBufferSourceNode(audio, { buffer });
        const gain = new GainNode(audio, { gain: 0 });
        source.connect(gain).connect(audio.destination);
        source.start(0, Math.min(offset, buffer.duration));
        ends = audio.currentTime + buffer.duration - offset;
        made.push([side, { source, gain }]);
      }
      began = audio.currentTime - offset;
      voices = new Map(made);
      const chosen = voices.get(heard) ?? voices.get('now');
      if (chosen) fadeTo(audio, chosen, 1);
    },
    hear: (heard) => {
      if (context === undefined || !voices.has(heard)) return;
      for (const [side, voice] of voices) fadeTo(context, voice, side === heard ? 1 : 0);
    },
    stop: silence,
    isRinging,
  };
}

/** 16 bits a sample, little end first. */
function bufferFrom(samples: string, sampleRate: number): AudioBuffer {
  const bytes = fromBase64(samples);
  const view = new DataView(bytes.buffer);
  const length = Math.floor(bytes.length / 2);
  const buffer = new AudioBuffer({ length: Math.max(length, 1), sampleRate, numberOfChannels: 1 });
  const channel = buffer.getChannelData(0);
  for (let index = 0; index < length; index += 1) channel[index] = view.getInt16(2 * index, true) / 32_768;
  return buffer;
}
