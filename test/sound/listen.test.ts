import assert from 'node:assert/strict';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import type { FrequencyResponse } from '../../server/src/estimates/estimates.ts';
import { pickupResponse } from '../../server/src/estimates/pickup-estimates.ts';
import {
  filterFrom,
  heard,
  inTurn,
  levelMatched,
  noteHz,
  playThrough,
  renderPluck,
  SAMPLE_RATE,
  wavBytes,
} from '../../server/src/sound/listen.ts';
import { partialHz } from '../../server/src/sound/pluck.ts';
import { analysed } from '../documents/cards/card-bench.ts';
import { levelDb, samplesOf } from './spectrum.ts';

const pluck = { frequencyHz: 110, seconds: 1, seed: 1, sampleRate: SAMPLE_RATE };

/** Between its points the response is straight over the logarithm of frequency. */
function responseAt({ frequencyHz, levelDb: levels }: FrequencyResponse, hz: number): number {
  const above = frequencyHz.findIndex((each) => each >= hz);
  const [f1 = 1, f2 = 1] = [frequencyHz[above - 1], frequencyHz[above]];
  const [a = 0, b = 0] = [levels[above - 1], levels[above]];
  return a + ((b - a) * Math.log(hz / f1)) / Math.log(f2 / f1);
}

/** Every partial from 100 Hz to 8 kHz whose own level stands out of the sound. */
const partials = Array.from({ length: 80 }, (_, index) => partialHz(pluck.frequencyHz, index + 1)).filter(
  (hz) => hz >= 100 && hz <= 8000,
);

/** What the WAV file adds to the pluck at each partial, less their mean: loudness is matched, so only the shape is told. */
function shapeDb(sound: Float32Array): readonly number[] {
  const dry = renderPluck(pluck);
  const { samples, sampleRate } = samplesOf(wavBytes(sound));
  assert.equal(sampleRate, 48_000);
  return centred(partials.map((hz) => levelDb(samples, sampleRate, hz) - levelDb(dry, sampleRate, hz)));
}

const centred = (levels: readonly number[]): readonly number[] => {
  const mean = levels.reduce((sum, level) => sum + level, 0) / levels.length;
  return levels.map((level) => level - mean);
};

function follows(sound: Float32Array, response: FrequencyResponse): void {
  const expected = centred(partials.map((hz) => responseAt(response, hz)));
  const shape = shapeDb(sound);
  shape.forEach((level, index) => {
    const off = Math.abs(level - (expected[index] ?? Number.NaN));
    assert.ok(off < 0.5, `${partials[index]?.toFixed(0)} Hz: ${off.toFixed(2)} dB off`);
  });
}

describe('listening', () => {
  const hesk = analysed('hesk-neck');
  const larkspit = analysed('larkspit');
  const [found] = hesk.pickups;
  assert.ok(found);
  const ofPickup = pickupResponse(quickOf(hesk.bench)(found.pickup));
  assert.ok(ofPickup);

  it('the spectrum of the WAV file follows the response of a pickup within 0.5 dB from 100 Hz to 8 kHz', () => {
    const [sound] = heard([ofPickup], pluck);
    assert.ok(sound);
    follows(sound, ofPickup);
  });

  for (const [key, pots] of [
    ['2', { volume: 10, tone: 10 }],
    ['5', { volume: 10, tone: 2 }],
    ['1', { volume: 3, tone: 10 }],
  ] as const)
    it(`and that of position ${key} with volume ${pots.volume}, tone ${pots.tone}`, () => {
      const response = larkspit.instruments[0]?.positions(pots).find((each) => each.key === key)?.response;
      assert.ok(response);
      const [sound] = heard([response], pluck);
      assert.ok(sound);
      follows(sound, response);
    });

  it('before and now are equally loud, and neither is cut off', () => {
    const [before, now] = heard([ofPickup, { frequencyHz: [20, 20_000], levelDb: [-30, -30] }], pluck);
    assert.ok(before && now);
    const power = (sound: Float32Array) => sound.reduce((sum, sample) => sum + sample * sample, 0);
    assert.ok(Math.abs(10 * Math.log10(power(before) / power(now))) < 1e-3);
    assert.ok([...before, ...now].every((sample) => Math.abs(sample) < 0.9));
    assert.equal(inTurn([before, now]).length, before.length + now.length + 0.4 * SAMPLE_RATE);
  });

  it('a flat response leaves the pluck as it is, a level of its own only scales it', () => {
    const dry = renderPluck(pluck);
    const played = playThrough(dry, filterFrom({ frequencyHz: [20, 20_000], levelDb: [-6.0206, -6.0206] }));
    const worst = dry.reduce((most, sample, index) => Math.max(most, Math.abs((played[index] ?? 0) - sample / 2)), 0);
    assert.ok(worst < 1e-5, `${worst}`);
  });

  it('the filter answers at once: nothing rings before the stroke', () => {
    // A minimum-phase filter has the most energy at its beginning (Oppenheim and Schafer, chapter 5; recalled).
    const filter = filterFrom(ofPickup);
    const energy = (part: Float32Array) => part.reduce((sum, value) => sum + value * value, 0);
    assert.ok(energy(filter.subarray(0, 96)) / energy(filter) > 0.9, 'within 2 ms');
  });

  it('the same seed gives the same samples, another one others', () => {
    assert.deepEqual(renderPluck(pluck), renderPluck(pluck));
    assert.notDeepEqual(renderPluck({ ...pluck, seed: 2 }), renderPluck(pluck));
  });

  it('the string rings at its pitch, starts from rest and dies away', () => {
    const dry = renderPluck(pluck);
    assert.equal(dry.length, SAMPLE_RATE);
    assert.equal(dry[0], 0);
    assert.ok(levelDb(dry, SAMPLE_RATE, 110) - levelDb(dry, SAMPLE_RATE, 155) > 30);
    const rms = (from: number, to: number) => Math.hypot(...dry.subarray(from * SAMPLE_RATE, to * SAMPLE_RATE));
    assert.ok(rms(0.7, 0.9) < 0.7 * rms(0, 0.2));
  });

  it('what has no sound is silent, not an error', () => {
    assert.deepEqual([...renderPluck({ ...pluck, frequencyHz: 0, seconds: 0.001 })], new Array(48).fill(0));
    assert.equal(filterFrom({ frequencyHz: [], levelDb: [] }).length, 0);
    const shorted = { frequencyHz: [20, 20_000], levelDb: [-374, -374] };
    const [sound, other] = heard([shorted, { ...shorted, levelDb: [0, 0] }], {
      frequencyHz: 110,
      seconds: 0.1,
      seed: 1,
    });
    assert.ok(sound?.every((sample) => sample === 0));
    assert.ok(other?.some((sample) => Math.abs(sample) > 0.1));
    assert.deepEqual([...playThrough(new Float32Array(3), new Float32Array(0))], [0, 0, 0]);
    assert.deepEqual([...(levelMatched([new Float32Array(2)])[0] ?? [])], [0, 0]);
    assert.deepEqual([...wavBytes(Float32Array.of(Number.NaN, 2, -2)).subarray(44)], [0, 0, 255, 127, 1, 128]);
  });

  it('notes by name: E2 is 82.41 Hz, A4 440 Hz (equal temperament, ISO 16)', () => {
    assert.equal(noteHz('A4'), 440);
    assert.ok(Math.abs((noteHz('E2') ?? 0) - 82.4069) < 1e-4);
    assert.ok(Math.abs((noteHz('Bb1') ?? 0) - 58.2705) < 1e-4);
    assert.equal(noteHz('H2'), undefined);
  });
});
