/** Coils, leads and slots: every line that names one is known, and what nothing declares is told. */
import assert from 'node:assert/strict';
import { analyse } from '../support/check-fixture.ts';

const TEXT = `pickup heron {
  conductors violet grey
  coils 18.5 mm apart, screw toward bridge
  coil screw {
    start gold to violet
    finish to grey
  }
  coil slug like screw {
    below screw
  }
  hookup {
    hot VT
    ground grey
  }
  readings 2026-03-02 {
    inductance violet to grey 4.1 H
    compass screw north-up
  }
}
`;

const lines = (name: string): readonly string[] => {
  const { model, locate, text } = analyse(TEXT);
  return model
    .references()
    .filter((reference) => reference.name === name)
    .flatMap(({ place }) => locate(place)?.start ?? [])
    .sort((a, b) => a - b)
    .map((start) => text.slice(text.lastIndexOf('\n', start) + 1, text.indexOf('\n', start)).trim());
};

describe('names inside a pickup', () => {
  it('of a coil are found wherever a line holds them', () => {
    assert.deepEqual(lines('screw'), [
      'coils 18.5 mm apart, screw toward bridge',
      'coil screw {',
      'coil slug like screw {',
      'below screw',
      'compass screw north-up',
    ]);
  });
  it('of a lead are found under its code too, in readings of every kind', () => {
    assert.deepEqual(lines('violet'), [
      'conductors violet grey',
      'start gold to violet',
      'hot VT',
      'inductance violet to grey 4.1 H',
    ]);
  });
  it("leave a coil's own lead to the coil where it is soldered inside", () => {
    assert.deepEqual(lines('gold'), []);
  });
  it('are told where nothing declares them', () => {
    const { findings, locate, text } = analyse(TEXT.replace('apart, screw', 'apart, scrow'));
    const told = findings.filter(({ code }) => code === 'name/unknown');
    assert.deepEqual(
      told.map(({ message }) => message),
      ['This pickup has no coil called scrow: it has screw, slug.'],
    );
    const at = told[0] && locate(told[0].place);
    assert.equal(at && text.slice(at.start, at.end), 'scrow');
  });
});
