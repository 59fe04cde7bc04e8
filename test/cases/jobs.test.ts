/**
 * Jobs of a workshop from the first reading to the hand-over, each with all that is found in it and the sentence that matters. The
 * first lines of each spec say what is right, by hand: resistances by sum, signs by the table of two coils, temperature by the
 * coefficient of copper.
 */
import assert from 'node:assert/strict';
import { readdirSync } from 'node:fs';
import path from 'node:path';
import { createAnalyser } from '../../server/src/analysis/analysis.ts';
import { diskHost, uriOf } from '../../server/src/cli/files.ts';

const analyser = createAnalyser();
const folder = import.meta.dirname;

interface Right {
  /** Severity, code and the first line of the piece. */
  readonly found: readonly string[];
  readonly says?: RegExp;
}

const RIGHT: Readonly<Record<string, Right>> = {
  'as-received': {
    found: ['information hum/partly-cancelled: link gold turquoise'],
    says: /4.970 ± 190 turns in the screw coil and 5.080 ± 200 turns in the slug coil/,
  },
  'bass-halves': { found: [] },
  'both-in-braid': {
    found: ['error phase/position-cancels: 2 "both" neck parallel bridge'],
    says: /neck works against bridge.*Turn the magnet of neck over/,
  },
  'both-sound-thin': { found: ['error phase/position-cancels: 2 "both" neck parallel bridge'] },
  'came-back': {
    found: ['warning reading/unlikely: slug 3.20 kohm'],
    says: /Most likely turns of the slug coil shorted since the earlier reading/,
  },
  'closed-read-as-found': {
    found: ['information phase/unproven: 2 neck parallel bridge'],
    says: /Take a kick `pink to turquoise`/,
  },
  'closed-singles': {
    found: [
      'error phase/position-cancels: 2 neck parallel bridge',
      'information phase/unproven: 2 neck parallel bridge',
    ],
    says: /Swap hot and ground of bridge, or turn the magnet of bridge over, or magnetise its rods/,
  },
  'leads-joined-wrongly': {
    found: ['error phase/coils-cancel: link violet brown'],
    says: /Swap the leads of the slug coil/,
  },
  'leads-joined': { found: ['information hum/partly-cancelled: link violet blue'] },
  'leads-kicked-and-poles': { found: [] },
  'leads-kicked': { found: [] },
  'leads-unknown': {
    found: ['information winding/turns-unknown: coil screw {', 'information winding/turns-unknown: coil slug {'],
    says: /Kick the pairs that were read at its poles \(`kick red to violet at screw approach positive`, else `brown to blue`\)/,
  },
  'magnet-exchanged': { found: ['information hum/partly-cancelled: link gold turquoise'] },
  'nobody-counted': { found: ['information hum/partly-cancelled: link gold pink'] },
  'one-coil-heavier': {
    found: [
      'warning reading/whose-coil: counted 7_612',
      'information hum/partly-cancelled: link gold turquoise',
      'error potting/too-hot: bath 62 degC',
    ],
    says: /Most likely the coil was wound anew/,
  },
  'open-coil': { found: [] },
  'poor-joint': { found: ['warning reading/sum: hot to ground 9.4 kohm'], says: /a poor joint that adds 1\.5.kΩ/ },
  'push-pull': {
    found: [
      'information hum/partly-cancelled: 7 "inner coils" neck.slug parallel bridge.slug',
      'information hum/partly-cancelled: 8 "inner coils in series" neck.slug series bridge.slug',
      'information hum/partly-cancelled: 10 "outer coils" neck.screw parallel bridge.screw',
      'information phase/position-cancels: 12 "neck and bridge reversed" neck parallel reversed bridge, on purpose',
    ],
  },
  'readings-of-a-week': {
    found: [
      'warning reading/sum: hot to ground 8.75 kohm',
      'warning reading/sum: hot to ground 7.60 kohm',
      'warning reading/unlikely: slug 7.3 kohm',
      'warning reading/unlikely: slug 3.20 kohm',
    ],
    says: /shorted turns in the slug coil: nothing else explains every reading/,
  },
  'set-first-try': {
    found: [
      'warning reading/whose-coil: counted 7_500',
      'information hum/partly-cancelled: link turquoise gold',
      'warning hum/position-hums: 2 "bridge split and middle" bridge.screw parallel middle',
      'error phase/position-cancels: 4 "middle and neck split" middle parallel neck.slug',
    ],
    says: /Take bridge\.slug in place of bridge\.screw, and hum is 15 dB less/,
  },
  'set-in-phase': {
    found: [
      'warning reading/whose-coil: counted 7_500',
      'information hum/partly-cancelled: link turquoise gold',
      'warning hum/position-hums: 2 "bridge split and middle" bridge.screw parallel middle',
      'information hum/partly-cancelled: 4 "middle and neck split" middle parallel neck.slug',
    ],
  },
  'set-quiet': {
    found: [
      'warning reading/whose-coil: counted 7_500',
      'information hum/partly-cancelled: link turquoise gold',
      'information hum/partly-cancelled: 2 "bridge split and middle" bridge.slug parallel middle',
      'information hum/partly-cancelled: 4 "middle and neck split" middle parallel neck.slug',
    ],
  },
  'short-by-both': {
    found: ['warning reading/unlikely: slug 3.20 kohm'],
    says: /It is shorted turns in the slug coil/,
  },
  'short-by-inductance': {
    found: ['warning reading/unlikely: inductance blue to gold 0.6 H at 1 kHz'],
    says: /Most likely shorted turns in the slug coil/,
  },
  'singles-and-tap': { found: ['information hum/partly-cancelled: 2 "bridge + middle" bridge parallel middle'] },
  'slip-of-the-point': { found: ['warning reading/unlikely: slug 39.5 kohm'], says: /3\.95.kΩ was meant/ },
  'small-pots': {
    found: [
      'warning reading/whose-coil: counted 7_500',
      'information hum/partly-cancelled: link turquoise gold',
      'information controls/pot-too-small: volume 250 kohm audio',
      'information controls/pot-too-small: tone 250 kohm audio with 47 nF',
      'information hum/partly-cancelled: 2 "bridge split and middle" bridge.slug parallel middle',
      'information hum/partly-cancelled: 4 "middle and neck split" middle parallel neck.slug',
    ],
    says: /Take a pot of 270.kΩ or more/,
  },
  'spliced-coil': { found: [] },
  'still-warm': {
    found: ['warning reading/sum: hot to ground 8.75 kohm'],
    says: /Most likely a coil still warm, at about 48.°C/,
  },
  'target-and-reel': {
    found: ['information winding/turns-unknown: coil main {', 'information winding/turns-unknown: coil main {'],
    says: /does not fit, 118.% of the window/,
  },
  'thicker-wire': {
    found: ['warning reading/unlikely: slug 3.15 kohm'],
    says: /Most likely 41 AWG wire on the slug coil/,
  },
  'three-conductors': { found: [] },
  'two-volumes': { found: [] },
  'ways-of-controls': {
    found: ['error ground/metal-hot: 2 "both" neck parallel reversed bridge, on purpose'],
    says: /the metal of bridge \(bare and baseplate\) comes to hot/,
  },
  'three-pickups': {
    found: [
      'error phase/position-cancels: 2 "bridge and middle" bridge parallel middle',
      'error phase/position-cancels: 4 "middle and neck" middle parallel neck',
      'information hum/partly-cancelled: 7 "neck, tapped middle turned" neck parallel reversed middle.orange',
      'information hum/partly-cancelled: 8 "phase switch: middle turned" neck parallel reversed middle, on purpose',
    ],
    says: /7.600 turns in neck\.main and 6.000 turns in middle\.main/,
  },
};

describe('jobs of a workshop', () => {
  it('are all listed', () => {
    const files = readdirSync(path.join(folder, 'jobs')).map((name) => name.replace('.pickup', ''));
    assert.deepEqual(files.sort(), Object.keys(RIGHT).sort());
  });

  for (const [name, { found, says }] of Object.entries(RIGHT)) {
    it(name, () => {
      const analysis = analyser.analyse(uriOf(path.join(folder, `jobs/${name}.pickup`)), diskHost(folder));
      const findings = analysis.allFindings();
      const lines = findings.map(({ severity, code, place }) => {
        const { start, end } = analysis.locate(place) ?? { start: 0, end: 0 };
        return `${severity} ${code}: ${analysis.text.slice(start, end).split('\n')[0]}`;
      });
      assert.deepEqual(lines, found);
      if (says) assert.match(findings.map(({ message }) => message).join('\n'), says);
    });
  }
});
