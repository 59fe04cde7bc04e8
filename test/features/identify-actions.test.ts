import assert from 'node:assert/strict';
import { identifyActions } from '../../server/src/features/identify-actions.ts';
import { analyse } from '../support/check-fixture.ts';
import { applyEdits } from '../support/text-edits.ts';

const drawer = (coils: string, lines: string) => `pickup heron {
  conductors violet grey pink turquoise
${coils}  readings "on the bench" 2026-08-02 {
    violet to pink 4.02 kohm
    grey to turquoise 3.99 kohm
${lines}  }
}
`;
const KICKS = `    kick violet to pink at screw approach positive
    kick grey to turquoise at slug pull-off positive
    compass screw north-up
    compass slug south-up
`;
const WOUND = '  coil screw {\n    wound clockwise\n  }\n  coil slug {\n    wound clockwise\n  }\n';

const everywhere = (text: string) => ({ start: 0, end: text.length });
const written = (text: string, index: number): string => {
  const action = identifyActions(analyse(text), everywhere(text))[index];
  return applyEdits(text, action?.edits ?? []);
};

describe('leads as an action', () => {
  it('writes start and finish of every coil that is proven', () => {
    const text = drawer(WOUND, KICKS);
    const actions = identifyActions(analyse(text), everywhere(text));
    assert.deepEqual(
      actions.map(({ title, proven }) => [title, proven]),
      [
        ['Write the leads that the readings prove: screw from pink to violet and slug from turquoise to grey', true],
        ['Solder in series, in phase: hot violet, pink with turquoise, ground grey', true],
      ],
    );
    const after = written(text, 0);
    assert.match(after, /coil screw \{\n {4}start to pink\n {4}finish to violet\n {4}wound clockwise\n/);
    assert.match(after, /coil slug \{\n {4}start to turquoise\n {4}finish to grey\n/);
    const soldered = written(after, 0);
    assert.match(soldered, / {2}hookup \{\n {4}hot violet\n {4}link pink turquoise\n {4}ground grey\n {2}\}\n\}\n$/);
    assert.deepEqual(identifyActions(analyse(soldered), everywhere(soldered)), []);
  });

  it('offers both choices, marked as such, where nobody saw the wind', () => {
    const text = drawer('  coil screw {\n  }\n  coil slug {\n  }\n', KICKS);
    const actions = identifyActions(analyse(text), everywhere(text)).slice(1);
    assert.equal(actions.length, 5);
    assert.ok(actions.every(({ proven, title }) => !proven && /no reading tells start from finish/.test(title)));
    // Either choice says the same of the signal: no kick contradicts it.
    for (const index of [1, 2, 3, 4, 5])
      assert.deepEqual(
        analyse(written(text, index)).findings.filter(({ code }) => code === 'reading/contradicts'),
        [],
      );
  });

  it('is not offered where a coil that is like the other would take the lines over', () => {
    const text = drawer(
      '  coil screw {\n    wound clockwise\n  }\n  coil slug like screw {\n  }\n',
      '    kick violet to pink at screw approach positive\n    compass screw north-up\n',
    );
    assert.deepEqual(identifyActions(analyse(text), everywhere(text)), []);
  });

  it('makes a conductor that lies on the metal the shield', () => {
    const text = `pickup heron {
  conductors violet blue pink
  baseplate nickel-silver
  coil main {
  }
  readings "on the bench" 2026-08-02 {
    blue to baseplate 0.2 ohm
    violet to pink 6.02 kohm
  }
}
`;
    assert.match(written(text, 0), / {2}conductors violet pink\n {2}shield blue\n/);
  });
});
