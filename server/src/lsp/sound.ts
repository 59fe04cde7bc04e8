import { given } from '../../../grammar/values/present.ts';
import { heard, isSilentResponse, SAMPLE_RATE } from '../sound/listen.ts';
import { toBase64 } from './base64.ts';
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
  const [now, before] = heard(bands, { frequencyHz, seconds: SECONDS, seed: SEED }).map(samplesText);
  return { ...empty, ...given({ now, before }), isSilent: isSilentResponse(picture.now.band) };
}

function samplesText(samples: Float32Array): string {
  const bytes = new Uint8Array(2 * samples.length);
  const view = new DataView(bytes.buffer);
  samples.forEach((sample, index) => {
    view.setInt16(2 * index, Math.round(Math.max(-1, Math.min(1, sample)) * 32_767), true);
  });
  return toBase64(bytes);
}
