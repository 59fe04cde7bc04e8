import { given } from '../../../grammar/values/present.ts';
import { heard, isSilentResponse, SAMPLE_RATE } from '../sound/listen.ts';
import type { SoundParams, SoundResult } from './bench-view-protocol.ts';
import type { ComparedStates } from './compared-states.ts';
import { responsePicture } from './sections.ts';

const SECONDS = 4;
/** The same pluck each time: only what was changed may differ. */
const SEED = 1;

/** One pluck through the response of now and of before, level-matched. */
export function sound(states: ComparedStates, params: SoundParams): Omit<SoundResult, 'protocol'> {
  const empty = { sampleRate: SAMPLE_RATE };
  const picture = responsePicture(states, params);
  const { frequencyHz } = params;
  if (picture === undefined || !(frequencyHz >= 20 && frequencyHz <= 2000)) return empty;
  const bands = [picture.now.band, ...(picture.before ? [picture.before.band] : [])];
  const [now, before] = heard(bands, { frequencyHz, seconds: SECONDS, seed: SEED }).map(toBase64);
  return { ...empty, ...given({ now, before }), isSilent: isSilentResponse(picture.now.band) };
}

function toBase64(samples: Float32Array): string {
  const bytes = new Uint8Array(2 * samples.length);
  const view = new DataView(bytes.buffer);
  samples.forEach((sample, index) => {
    view.setInt16(2 * index, Math.round(Math.max(-1, Math.min(1, sample)) * 32_767), true);
  });
  const pieces: string[] = [];
  // A call takes only so many arguments.
  for (let at = 0; at < bytes.length; at += CHUNK) pieces.push(String.fromCharCode(...bytes.subarray(at, at + CHUNK)));
  return btoa(pieces.join(''));
}

const CHUNK = 8192;
