/** Leads, joints and metal: what is joined to what, told where a person would change it. */
import assert from 'node:assert/strict';
import { analyse, expectFindings, fixed, fixTitles, messageOf } from '../support/check-fixture.ts';

const pickup = (
  hookup: readonly string[],
  { conductors = '', more = '', slug = 'start violet\n    finish turquoise' } = {},
) => `pickup heron {
${conductors}  coil screw {
    turns 5_000
    wound clockwise
    polarity north-up
    start pink
    finish grey
  }
  coil slug {
    turns 5_000
    wound clockwise
    polarity south-up
    ${slug}
  }
${more}  hookup {
${hookup.map((line) => `    ${line}\n`).join('')}  }
}
`;
const GOOD = ['hot violet', 'link grey turquoise', 'ground pink'];
const codes = (text: string) => analyse(text).findings.map(({ code }) => code);
const first = (text: string, code: string) => {
  const analysis = analyse(text);
  const title = fixTitles(analysis, code)[0]?.replace(/ \*$/, '') ?? '';
  return fixed(analysis, code, title);
};

describe('leads', () => {
  it('that nothing joins float, at the word that brings them out', () => {
    const analysis = expectFindings(
      pickup(GOOD, { conductors: '  conductors orange\n             ^^^^^^ lead/floating error\n' }),
    );
    assert.deepEqual(fixTitles(analysis, 'lead/floating'), ['Tape it off: `free orange` *']);
    assert.deepEqual(codes(first(analysis.text, 'lead/floating')), []);
  });

  it('that are free are stated', () => {
    assert.deepEqual(codes(pickup([...GOOD, 'free orange'], { conductors: '  conductors orange\n' })), []);
  });

  it('are the same by colour and by code of IEC 60757', () => {
    assert.deepEqual(codes(pickup(['hot VT', 'link GY TQ', 'ground PK'])), []);
  });

  it('that no part brings out are found at the word; the broken path is not told again', () => {
    const analysis = expectFindings(
      pickup(['hot violet', 'link gray turquoise', '     ^^^^ lead/undeclared error', 'ground pink']),
    );
    assert.match(messageOf(analysis, 'lead/undeclared'), /what leaves it is pink, grey, violet and turquoise/);
    assert.deepEqual(fixTitles(analysis, 'lead/undeclared'), ['Change to `grey` *']);
    assert.deepEqual(codes(first(analysis.text, 'lead/undeclared')), []);
  });

  it('soldered to a conductor that the cable does not have are found at the coil', () => {
    const text = pickup(GOOD, { slug: 'start to violet\n    finish turquoise' });
    assert.deepEqual(
      codes(text).filter((code) => code.startsWith('lead/')),
      ['lead/undeclared'],
    );
  });

  it('of one colour from two coils could mean either; naming the ends settles it', () => {
    const text = pickup(['hot violet', 'link grey grey', 'ground pink'], { slug: 'start violet\n    finish grey' });
    assert.deepEqual(codes(text), ['lead/reused']);
    assert.deepEqual(codes(first(text, 'lead/reused')), []);
    const named = pickup(['hot violet', 'link screw.finish slug.finish', 'ground pink'], {
      slug: 'start violet\n    finish grey',
    });
    assert.deepEqual(codes(named), []);
  });

  it('named as the conductor that they go to are soldered to it by one fix, all of them', () => {
    const cable = '  conductors violet grey turquoise pink\n  hookup {';
    const text = pickup(GOOD).replace('  hookup {', cable);
    assert.deepEqual(new Set(codes(text)), new Set(['lead/reused']));
    const fixed = first(text, 'lead/reused');
    assert.match(fixed, /start to pink\n.*finish to grey/);
    assert.deepEqual(codes(fixed), []);
  });

  it('in two joints are found', () => {
    const text = pickup(['hot violet', 'link grey turquoise', 'ground pink turquoise']);
    assert.deepEqual(codes(text).includes('lead/reused'), true);
  });
});

describe('the path', () => {
  it('without its link is open, told once with the leads it leaves loose', () => {
    const analysis = expectFindings(
      pickup(['hot violet', 'ground pink']).replace('  hookup {\n', '  hookup {\n  ^^^^^^^^ circuit/open error\n'),
    );
    assert.match(
      messageOf(analysis, 'circuit/open'),
      /no path leads from hot violet to ground pink; grey and turquoise are joined to nothing/,
    );
    assert.deepEqual(fixTitles(analysis, 'circuit/open'), ['Join them: `link grey turquoise` *']);
    assert.deepEqual(codes(first(analysis.text, 'circuit/open')), []);
  });

  it('without hot or ground says which is missing', () => {
    assert.match(
      messageOf(analyse(pickup(['link grey turquoise', 'ground pink', 'free violet'])), 'circuit/open'),
      /no lead is hot/,
    );
    assert.match(
      messageOf(analyse(pickup(['hot violet', 'link grey turquoise', 'free pink'])), 'circuit/open'),
      /no lead is ground/,
    );
  });

  it('is not asked for before there is a hookup', () => {
    const text = 'pickup heron {\n  coil main {\n    turns 7_700\n    start grey\n    finish violet\n  }\n}\n';
    assert.deepEqual(codes(text), []);
  });

  it('round a coil shorts it: only the other one sounds', () => {
    const analysis = expectFindings(
      pickup(['hot violet', 'ground pink grey turquoise', '^^^^^^^^^^^^^^^^^^^^^^^^^^ circuit/coil-shorted error']),
    );
    assert.match(
      messageOf(analysis, 'circuit/coil-shorted'),
      /the screw coil .* shorted and only the slug coil sounds/,
    );
  });

  it('from hot straight to ground shorts the output, told once', () => {
    const text = pickup(['hot violet bare', 'link grey turquoise', 'ground pink bare'], { more: '  shield bare\n' });
    assert.deepEqual(codes(text), ['circuit/output-shorted']);
    assert.deepEqual(codes(first(text, 'circuit/output-shorted')), []);
  });
});

describe('metal', () => {
  const shielded = (joint: string, parts = '  baseplate nickel-silver tied to bare\n') =>
    pickup(
      [
        joint.startsWith('hot') ? joint : 'hot violet',
        'link grey turquoise',
        joint.startsWith('ground') ? joint : 'ground pink',
        ...(joint.startsWith('shield') ? [joint] : []),
      ],
      {
        more: `  shield bare\n${parts}`,
      },
    );

  it('on ground, or to ground by itself, is clean', () => {
    assert.deepEqual(codes(shielded('ground pink bare')), []);
    assert.deepEqual(codes(shielded('shield bare')), []);
  });

  it('on hot is one finding for all of it, at the line that made it hot', () => {
    const analysis = analyse(
      shielded('hot violet bare', '  baseplate nickel-silver tied to bare\n  cover nickel-silver tied to baseplate\n'),
    );
    assert.deepEqual(
      analysis.findings.map(({ code }) => code),
      ['ground/metal-hot'],
    );
    assert.match(messageOf(analysis, 'ground/metal-hot'), /bare, the baseplate and the cover/);
    const [finding] = analysis.findings;
    const at = finding && analysis.locate(finding.place);
    assert.equal(at && analysis.text.slice(at.start, at.end), 'hot violet bare');
  });

  it('in the middle of the circuit is hot too', () => {
    const text = pickup(['hot violet', 'link grey turquoise bare', 'ground pink'], { more: '  shield bare\n' });
    assert.deepEqual(codes(text), ['ground/metal-hot']);
  });

  it('joined to nothing floats, a warning at its line', () => {
    const analysis = expectFindings(
      pickup(['hot violet', 'link grey turquoise', 'ground pink bare'], {
        more: '  shield bare\n  cover nickel-silver\n  ^^^^^^^^^^^^^^^^^^^ ground/metal-floating warning\n',
      }),
    );
    assert.deepEqual(codes(first(analysis.text, 'ground/metal-floating')), []);
  });

  it('that floats together is one cause', () => {
    const text = pickup(GOOD, { more: '  baseplate nickel-silver\n  cover nickel-silver tied to baseplate\n' });
    assert.deepEqual(codes(text), ['ground/metal-floating']);
  });

  it('on a lead that is taped off floats; on one that was forgotten the lead is told', () => {
    const cover = { conductors: '  conductors orange\n', more: '  cover nickel-silver tied to orange\n' };
    assert.deepEqual(codes(pickup([...GOOD, 'free orange'], cover)), ['ground/metal-floating']);
    assert.deepEqual(codes(pickup(GOOD, cover)), ['lead/floating']);
  });

  it('counts foil about a winding: grounded it is right, on hot and on nothing it is told', () => {
    const text = (foil: string, hookup: readonly string[]) =>
      pickup(hookup, {
        conductors: '  conductors orange\n',
        slug: `start violet\n    finish turquoise\n    foil tied to ${foil}`,
      });
    const foiled = (foil: string, hookup: readonly string[]) => codes(text(foil, hookup));
    assert.deepEqual(foiled('orange', ['hot violet', 'link grey turquoise', 'ground pink orange']), []);
    assert.deepEqual(foiled('orange', ['hot violet orange', 'link grey turquoise', 'ground pink']), [
      'ground/metal-hot',
    ]);
    assert.deepEqual(foiled('violet', [...GOOD, 'free orange']), ['ground/metal-hot']);
    assert.deepEqual(foiled('orange', [...GOOD, 'free orange']), ['ground/metal-floating']);
    // Under its tape nobody touches it.
    assert.match(
      messageOf(analyse(text('violet', [...GOOD, 'free orange'])), 'ground/metal-hot'),
      /^The foil of the slug coil lies on hot: it carries hum in instead of keeping it off/,
    );
  });

  it('stated as absent is no metal', () => {
    assert.deepEqual(codes(pickup(GOOD, { more: '  baseplate none\n  cover none\n' })), []);
  });
});
