import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { formatFile } from '../../grammar/src/format.ts';
import { readFileTree } from '../../grammar/src/read-file.ts';
import { compareFacts, type FactChange } from '../../server/src/comparison/compare-facts.ts';
import { statedBlocks } from '../../server/src/comparison/stated-blocks.ts';

const state = (...texts: readonly string[]) =>
  statedBlocks(texts.map((text, index) => ({ uri: `file:///${index}.pickup`, tree: readFileTree(text) })));

const changes = (before: string | readonly string[], after: string | readonly string[]): readonly string[] =>
  compareFacts(state(...[before].flat()), state(...[after].flat())).changes.map(words);

function words(change: FactChange): string {
  const path = change.path.join(' / ');
  switch (change.kind) {
    case 'fact added':
      return `${path}: + ${change.after.text}`;
    case 'fact removed':
      return `${path}: - ${change.before.text}`;
    case 'fact changed':
      return `${path}: ${change.before.text} > ${change.after.text}`;
    case 'renamed':
      return `${path}: was ${change.from}`;
    default:
      return `${path}: ${change.kind} (${change.facts.length} facts)`;
  }
}

const PICKUP = `pickup hesk "Hesk" {
  coil screw {
    turns 5_000
    wire heavy
    start VT to pink
    tap 4_000 turns orange
  }
  hookup {
    hot turquoise
    link orange grey
    ground pink bare
  }
  readings "after potting" 2026-03-12 {
    hot to ground 7.3 kohm
    kick grey to pink approach positive
  }
}
`;

describe('facts compared by meaning', () => {
  it('a text is the same as itself and as its formatted self', () => {
    const sample = readFileSync(new URL('../../samples/teasel.pickup', import.meta.url), 'utf8');
    const tidy = formatFile(readFileTree(sample));
    assert.ok(tidy !== undefined);
    assert.deepEqual(changes(sample, tidy), []);
  });

  const same: readonly (readonly [what: string, before: string, after: string])[] = [
    ['order of facts', 'wire a {\n gauge 42 AWG\n enamel plain\n}', 'wire a {\n enamel plain\n gauge 42 AWG\n}'],
    ['order of blocks', 'wire a {\n}\nwire b {\n}', 'wire b {\n}\nwire a {\n}'],
    ['layout and comments', 'wire a {\n gauge 42 AWG # x\n}', 'wire a { gauge 42 AWG; }'],
    ['digit groups', 'wire a {\n left 5_000 g\n}', 'wire a {\n left 5000 g\n}'],
    ['the unit', 'bobbin a {\n corner 1 mm\n}', 'bobbin a {\n corner 1000 um\n}'],
    ['a value code', 'instrument a {\n input 1 Mohm\n}', 'instrument a {\n input 1M0\n}'],
    ['the unit of a size', 'bobbin a {\n core 58.0 x 5.2 mm\n}', 'bobbin a {\n core 58.0 mm x 5.2 mm\n}'],
    ['the cross of a size', 'bobbin a {\n core 58.0x5.2 mm\n}', 'bobbin a {\n core 58 × 5.2 mm\n}'],
    ['the unit of an uncertainty', 'spool a {\n left 180 g ± 5 g\n}', 'spool a {\n left 180 g +- 5\n}'],
    ['a colour and its code', PICKUP, PICKUP.replace('VT', 'violet')],
    ['order of joined leads', PICKUP, PICKUP.replace('link orange grey', 'link grey orange')],
    ['grade 2 and double', 'wire a {\n build double\n}', 'wire a {\n build grade 2\n}'],
  ];
  for (const [what, before, after] of same) {
    it(`${what} is no change`, () => assert.deepEqual(changes(before, after), []));
  }

  it('a changed number is one changed fact with its block', () => {
    assert.deepEqual(changes(PICKUP, PICKUP.replace('5_000', '4_900')), [
      'pickup hesk / coil screw: turns 5_000 > turns 4_900',
    ]);
  });
  it('what stands instead of another is a change of it', () => {
    assert.deepEqual(changes(PICKUP, PICKUP.replace('wire heavy', 'spool RYD-W7')), [
      'pickup hesk / coil screw: wire heavy > spool RYD-W7',
    ]);
  });
  it('of several facts of a word the nearest one changed', () => {
    const two = PICKUP.replace('link orange grey', 'link orange grey\n link red blue');
    assert.deepEqual(changes(two, two.replace('link red blue', 'link red white')), [
      'pickup hesk / hookup: link red blue > link red white',
    ]);
  });
  it('a reading is known by its leads, a title is a fact of its pickup', () => {
    assert.deepEqual(changes(PICKUP, PICKUP.replace('7.3 kohm', '7.4 kohm').replace('"Hesk"', '"Hesk, neck"')), [
      'pickup hesk: title "Hesk" > title "Hesk, neck"',
      'pickup hesk / readings "after potting" 2026-03-12: hot to ground 7.3 kohm > hot to ground 7.4 kohm',
    ]);
  });
  it('a block comes and goes whole', () => {
    const after = PICKUP.replace('hookup {', 'potting {\n bath 60 degC\n soak 15 min\n }\n hookup {');
    assert.deepEqual(changes(PICKUP, after), ['pickup hesk / potting: block added (2 facts)']);
    assert.deepEqual(changes(after, PICKUP), ['pickup hesk / potting: block removed (2 facts)']);
  });
  it('a lone pickup and a lone coil under another name are renamed', () => {
    assert.deepEqual(
      changes(PICKUP, PICKUP.replace('pickup hesk', 'pickup hesk-neck').replace('coil screw', 'coil upper')),
      ['pickup hesk-neck: was hesk', 'pickup hesk-neck / coil upper: was screw'],
    );
  });
  it('what cannot be read is compared as it is written', () => {
    assert.deepEqual(changes('wire a {\n guage 42 AWG\n}', 'wire a {\n guage 43 AWG\n}'), [
      'wire a: guage 42 AWG > guage 43 AWG',
    ]);
    assert.deepEqual(changes('lid {\n lip 1 mm\n}', 'lid {\n lip 2 mm\n}'), ['lid: lip 1 mm > lip 2 mm']);
  });
  it('a name such as constructor is a name', () => {
    assert.deepEqual(changes('wire constructor {\n gauge 42 AWG\n}', 'wire constructor {\n gauge 43 AWG\n}'), [
      'wire constructor: gauge 42 AWG > gauge 43 AWG',
    ]);
  });
});

describe('facts taken over by like', () => {
  const base = 'pickup a {\n serial 1\n cover none\n coil x {\n turns 5_000\n wound clockwise\n }\n}\n';
  const written = 'pickup b {\n cover none\n coil x {\n turns 4_000\n wound clockwise\n }\n}\n';
  const taken = 'pickup b like a {\n coil x {\n turns 4_000\n }\n}\n';

  it('are the same as written out, history aside', () => {
    assert.deepEqual(changes(base + written, base + taken), []);
  });
  it('change with the block that they come from, and are told there once', () => {
    const after = base.replace('cover none', 'cover brass');
    assert.deepEqual(changes(base + taken, after + taken), ['pickup a: cover none > cover brass']);
  });
  it('change where another block is taken', () => {
    const other = 'pickup c {\n cover brass\n coil x {\n turns 1\n wound clockwise\n }\n}\n';
    assert.deepEqual(changes(base + other + taken, base + other + taken.replace('like a', 'like c')), [
      'pickup b: cover none > cover brass',
    ]);
  });
  it('in a circle end', () => {
    assert.deepEqual(changes('wire a like b {\n}\nwire b like a {\n}', 'wire a like b {\n}\nwire b like a {\n}'), []);
  });
});

describe('facts of files that are used', () => {
  const main = 'use "parts.pickup"\npickup a {\n coil x {\n bobbin tall\n }\n}\n';
  const parts = 'bobbin tall {\n corner 1 mm\n}\nbobbin other {\n corner 1 mm\n}\nbench {\n mains 50 Hz\n}\n';

  it('count where the spec names their block, and the bench always', () => {
    const after = parts.replaceAll('1 mm', '2 mm').replace('50', '60');
    assert.deepEqual(changes([main, parts], [main, after]), [
      'bobbin tall: corner 1 mm > corner 2 mm',
      'bench: mains 50 Hz > mains 60 Hz',
    ]);
  });
  it('moved into the spec are no change', () => {
    assert.deepEqual(changes([main, parts], [main + parts.replace(/bobbin other[^}]*\}\n/, ''), '']), []);
  });
});
