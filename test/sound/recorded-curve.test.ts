import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { type SweepSignal, testSignal } from '../../server/src/sound/exponential-sweep.ts';
import {
  type FaultyRecording,
  type RecordedCurve,
  type RecordedPoint,
  recordedCurve,
} from '../../server/src/sound/recorded-curve.ts';
import { recordingFaultText, recordingLines } from '../../server/src/sound/recording-words.ts';
import { type Recording, readWav } from '../../server/src/sound/wav-read.ts';

const FOLDER = path.join(import.meta.dirname, 'recordings');

interface Case {
  readonly title: string;
  readonly files: { readonly recording?: string; readonly reference?: string; readonly pickup?: string };
  readonly seconds: number;
  readonly humHz: number;
  readonly humDbfs: number;
  readonly toleranceDb: number;
  readonly toleranceDbBelow100Hz: number;
  readonly toleranceDeg: number;
  readonly curve: readonly (readonly [hz: number, db: number, deg: number])[];
}

/** Circuits solved by ngspice; noise, hum, clocks and delays put on afterwards. Invented pickups. */
const CASES: readonly Case[] = JSON.parse(readFileSync(path.join(FOLDER, 'recordings.json'), 'utf8')).recordings;

function recording(name: string | undefined): Recording {
  const read = readWav(readFileSync(path.join(FOLDER, name ?? '')));
  assert.ok(typeof read !== 'string', String(read));
  return read;
}

function heardIn({ files, seconds }: Case) {
  const [reference, pickup] = files.recording
    ? recording(files.recording).channels
    : [recording(files.reference).channels[0], recording(files.pickup).channels[0]];
  assert.ok(reference && pickup);
  return { reference, pickup, signal: { seconds, sampleRate: 48_000 } };
}

function curveOf(result: RecordedCurve | FaultyRecording): RecordedCurve {
  assert.ok('points' in result, 'fault' in result ? recordingFaultText(result) : '');
  return result;
}

const faultOf = (result: RecordedCurve | FaultyRecording) => ('fault' in result ? result.fault : 'none');

/** Phases as they run on from one another. */
const near = (deg: number, beside: number) => beside + ((((deg - beside + 180) % 360) + 360) % 360) - 180;

/** Between the points of a curve, by a cubic through its four neighbours over the logarithm of frequency. */
function valueAt(points: readonly RecordedPoint[], hz: number, read: (point: RecordedPoint) => number): number {
  const after = points.findIndex((point) => point.hz >= hz);
  const around = [after - 2, after - 1, after, after + 1].map((index) => points[index]);
  const values = around.flatMap((point) => (point ? [read(point)] : []));
  const [a = Number.NaN, b = Number.NaN, c = Number.NaN, d = Number.NaN] = values;
  const u = Math.log(hz / (around[1]?.hz ?? 1)) * (24 / Math.LN2);
  return b + 0.5 * u * (c - a + u * (2 * a - 5 * b + 4 * c - d + u * (3 * (b - c) + d - a)));
}

describe('a recorded sweep as a curve', () => {
  for (const each of CASES) {
    it(`${each.title}: within ${each.toleranceDb} dB and ${each.toleranceDeg}° of ngspice's circuit`, () => {
      const { points, hum, isShapeOnly, isInverted } = curveOf(recordedCurve(heardIn(each)));
      for (const [hz, db, deg] of each.curve) {
        const level = valueAt(points, hz, (point) => point.levelDb);
        const tolerance = hz < 100 ? each.toleranceDbBelow100Hz : each.toleranceDb;
        assert.ok(Math.abs(level - db) <= tolerance, `${hz} Hz: ${level} dB instead of ${db}`);
        const phase = valueAt(points, hz, (point) => near(point.phaseDeg, deg));
        assert.ok(Math.abs(phase - deg) <= each.toleranceDeg, `${hz} Hz: ${phase}° instead of ${deg}`);
        // What is said of the level's own deviation covers what it is off by, the curve through the points included.
        const sd = valueAt(points, hz, (point) => point.levelSdDb);
        assert.ok(Math.abs(level - db) < 4 * sd, `${hz} Hz: off by ${level - db}, stated ± ${sd}`);
      }
      assert.ok(hum && Math.abs(hum.hz - each.humHz) < 0.02, `hum ${hum?.hz}`);
      assert.ok(Math.abs(hum.levelDbfs - each.humDbfs) < 0.1, `hum ${hum.levelDbfs} dBFS`);
      assert.deepEqual([isShapeOnly, isInverted], [false, false]);
    });
  }

  const [first] = CASES;
  assert.ok(first);
  const heard = heardIn(first);

  it('tells channels that are exchanged', () =>
    assert.equal(faultOf(recordedCurve({ ...heard, pickup: heard.reference, reference: heard.pickup })), 'channels'));

  it('tells a recording that reaches full scale', () =>
    assert.deepEqual(
      recordedCurve({ ...heard, pickup: heard.pickup.map((sample) => Math.max(-1, Math.min(1, 2.5 * sample))) }),
      { fault: 'clipped', channel: 'pickup' },
    ));

  it('tells a recording that ends before the sweep does, and one that begins in the middle of it', () => {
    const cut = (from: number, to: number) =>
      faultOf(
        recordedCurve({ ...heard, pickup: heard.pickup.slice(from, to), reference: heard.reference.slice(from, to) }),
      );
    assert.equal(cut(0, 40_000), 'cut-short');
    assert.equal(cut(20_000, heard.pickup.length), 'cut-short');
  });

  it('tells a channel without a sweep: nothing, noise, or a sweep of another length', () => {
    const { length } = heard.pickup;
    const noise = Float64Array.from({ length }, (_, index) => 0.1 * Math.sin(index ** 2 / 3));
    assert.deepEqual(recordedCurve({ ...heard, pickup: new Float64Array(length) }), {
      fault: 'silent',
      channel: 'pickup',
    });
    assert.equal(faultOf(recordedCurve({ ...heard, reference: noise })), 'silent');
    assert.equal(faultOf(recordedCurve({ ...heard, signal: { seconds: 3, sampleRate: 48_000 } })), 'silent');
  });

  it('sees an input that turns the signal over, and leaves the phase as it was recorded', () => {
    const turned = curveOf(recordedCurve({ ...heard, pickup: heard.pickup.map((sample) => -sample) }));
    assert.ok(turned.isInverted);
    assert.match(recordingLines(turned).join('\n'), /turns the signal over/);
  });

  it('knows the shape only where what was sent was not recorded', () => {
    const signal: SweepSignal = { seconds: 1.15, sampleRate: 48_000 };
    // Every sample the mean of two: cos(π f / 48 kHz) of its level, 1.19 dB down at 7 kHz beside the lows.
    const played = Float64Array.from(testSignal(signal));
    const pickup = played.map((sample, index) => (sample + (played[index - 1] ?? 0)) / 2);
    const { points, isShapeOnly } = curveOf(recordedCurve({ pickup, reference: undefined, signal }));
    assert.ok(isShapeOnly);
    const level = (hz: number) => valueAt(points, hz, (point) => point.levelDb);
    for (const hz of [60, 200, 2000, 7000, 12_000]) {
      const expected = 20 * Math.log10(Math.cos((Math.PI * hz) / 48_000));
      assert.ok(Math.abs(level(hz) - level(100) - expected) < 0.06, `${hz} Hz: ${level(hz) - level(100)}`);
    }
  });
});
