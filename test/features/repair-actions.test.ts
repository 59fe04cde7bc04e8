import assert from 'node:assert/strict';
import { repairActions } from '../../server/src/features/repair-actions.ts';
import { analyse } from '../support/check-fixture.ts';
import { single } from '../support/shop.ts';
import { applyEdits } from '../support/text-edits.ts';

const TEXT = `${single('wren')}${single('lark', { wound: 'counterclockwise' })}${single('heron')}instrument juniper {
  pickup neck wren at 160 mm
  pickup middle lark at 100 mm
  pickup bridge heron at 42 mm
  selector {
    1 "bridge and middle" bridge parallel middle
    2 "middle and neck" middle parallel neck
  }
}
`;

describe('a plan as an action', () => {
  const analysis = analyse(TEXT);
  const at = (line: string) => ({ start: TEXT.indexOf(line), end: TEXT.indexOf(line) });

  it('at one fault settles all of the instrument at once', () => {
    const actions = repairActions(analysis, at('2 "middle and neck"'));
    assert.deepEqual(
      actions.map(({ title }) => title),
      ['Repair the whole instrument juniper, about 12 min: Swap hot and ground of lark'],
    );
    assert.deepEqual(
      actions[0]?.findings.map(({ subject }) => subject.position),
      ['1', '2'],
    );
  });

  it('brings the edits of all steps', () => {
    const [action] = repairActions(analysis, at('1 "bridge and middle"'));
    const text = applyEdits(TEXT, action?.edits ?? []);
    assert.deepEqual(analyse(text).findings, []);
  });

  it('is offered nowhere else', () => {
    assert.deepEqual(repairActions(analysis, at('pickup neck')), []);
  });
});
