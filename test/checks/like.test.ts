/** Pickups made `like` another: a fix for one leaves the other as it is. */
import assert from 'node:assert/strict';
import { analyse, expectFindings, fixed, fixTitles } from '../support/check-fixture.ts';

const BASE = `pickup heron {
  shield bare
  coil screw {
    turns 5_000
    wound clockwise
    polarity north-up
    start pink
    finish grey
  }
  coil slug like screw {
    polarity south-up
    start violet
    finish turquoise
  }
  baseplate nickel-silver tied to bare
  hookup {
    hot violet
    link grey turquoise
    ground pink bare
  }
}
`;
const derived = (...lines: readonly string[]) => `${BASE}pickup wren like heron {
${lines.map((line) => `${line}\n`).join('')}}
`;
const codes = (text: string) => analyse(text).findings.map(({ code }) => code);
const swap = 'Swap the leads of the slug coil: violet and turquoise change places';

describe('a fix in a pickup that is like another', () => {
  const wrongWay = derived('  coil slug {', '    wound counterclockwise', '  }');

  it('states the hookup lines that it changes anew', () => {
    const analysis = analyse(wrongWay);
    assert.deepEqual(codes(wrongWay), ['phase/coils-cancel']);
    const text = fixed(analysis, 'phase/coils-cancel', swap);
    assert.ok(text.startsWith(BASE), 'the other pickup keeps its text');
    assert.match(text, /pickup wren like heron \{\n {2}hookup \{\n {4}hot turquoise\n {4}link grey violet\n {2}\}\n/);
    assert.deepEqual(codes(text), []);
  });

  it('adds them to a hookup of its own', () => {
    const text = derived(
      '  coil slug {',
      '    wound counterclockwise',
      '  }',
      '  hookup {',
      '    ground bare pink',
      '  }',
    );
    const after = fixed(analyse(text), 'phase/coils-cancel', swap);
    assert.match(after, /hookup \{\n {4}hot turquoise\n {4}link grey violet\n {4}ground bare pink\n/);
    assert.deepEqual(codes(after), []);
  });

  it('states a coil’s fact in a block of its own, on one line too', () => {
    const text = derived('  coil slug { polarity north-up }');
    assert.deepEqual(codes(text), ['phase/coils-cancel']);
    const bySlug = fixed(analyse(text), 'phase/coils-cancel', 'Magnetise the rods of the slug coil the other way');
    assert.deepEqual(codes(bySlug), []);
    const byScrew = fixed(analyse(text), 'phase/coils-cancel', 'Magnetise the rods of the screw coil the other way');
    assert.ok(byScrew.startsWith(BASE));
    assert.match(byScrew, /coil screw \{\n {4}polarity south-up\n {2}\}/);
    assert.deepEqual(codes(byScrew), []);
  });

  it('restates every line of a word, since one replaces all', () => {
    const three = derived('  conductors orange white');
    const analysis = analyse(three);
    assert.deepEqual(codes(three), ['lead/floating', 'lead/floating']);
    for (const finding of analysis.findings)
      for (const remedy of analysis.verifiedFixes(finding))
        assert.ok(remedy.edits.every(({ place }) => analysis.locate(place)?.start ?? 0 >= BASE.length));
  });

  it('is not proposed where it would have to take away the last line of a word that the other brings', () => {
    const proposed = (text: string): readonly string[] =>
      analyse(text).findings.flatMap((finding) => finding.remedies().map(({ title }) => title));
    // Without the link the two coils would be parallel: a single pickup can lose it, one that inherits it cannot.
    const parallel = (text: string) =>
      text.replace('hot violet', 'hot violet grey').replace('ground pink', 'ground pink turquoise');
    assert.ok(proposed(parallel(BASE)).includes('Take out `link grey turquoise`'));
    const text = derived('  hookup {', '    hot violet grey', '    ground pink turquoise bare', '  }');
    assert.deepEqual(codes(text), ['circuit/output-shorted']);
    assert.ok(!proposed(text).includes('Take out `link grey turquoise`'));
  });

  it('says `on purpose` in a hookup of its own', () => {
    const after = fixed(analyse(wrongWay), 'phase/coils-cancel', 'It is meant: say `on purpose`');
    assert.ok(after.startsWith(BASE));
    assert.match(after, /hookup \{\n {4}on purpose\n {2}\}/);
    assert.deepEqual(
      analyse(after).findings.map(({ code, severity }) => `${code} ${severity}`),
      ['phase/coils-cancel information'],
    );
  });
});

describe('what is found in a pickup that is like another', () => {
  it('lies in its own text', () => {
    const analysis = expectFindings(`${BASE}pickup wren like heron {
  potting {
    bath 92 degC
    ^^^^^^^^^^^^ potting/too-hot error
  }
}
`);
    assert.deepEqual(fixTitles(analysis, 'potting/too-hot'), ['Lower the bath: `bath 60 degC` *']);
  });
});
