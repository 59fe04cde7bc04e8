/** What the list of actions plans for the switch of an instrument. */
import assert from 'node:assert/strict';
import { wiringActions } from '../../server/src/features/wiring-actions.ts';
import { finished } from '../../server/src/physics/switching/steps.ts';
import { analysedSample } from '../support/sample-files.ts';

const unwired = (text: string): string =>
  text.replace(/\n {2}wiring \{[^}]*\}\n/, '\n').replace(/^# expect:.*\n/gm, '');
const onTwoPoles = (text: string): string =>
  unwired(text).replace('switch lever lever-four-five', 'switch lever lever-two-five');

function actionsAt(line: string, edit: (text: string) => string, sample = 'yarrowby.pickup') {
  const analysis = analysedSample(sample, edit);
  const start = analysis.text.indexOf(line) + 2;
  return { analysis, actions: finished(wiringActions(analysis, { start, end: start })) };
}

describe('actions that plan a wiring', () => {
  it('write it at a switch or a selector without one, and nowhere else', () => {
    for (const line of ['  switch lever', '  selector {']) {
      const { actions } = actionsAt(line, unwired);
      assert.deepEqual(
        actions.map(({ title }) => title),
        ['Plan the wiring: 19 wires, and none has fewer'],
      );
      assert.match(
        actions[0]?.edits[0]?.newText ?? '',
        /^wiring \{\n {4}hot lever\.a0 lever\.b0\n[^}]*\n {4}free lever\.a3 /,
      );
    }
    assert.deepEqual(actionsAt('  scale 648', unwired).actions, []);
  });

  it('take a switch of the shelf where the own one cannot, the one with the fewest lugs first', () => {
    const { analysis, actions } = actionsAt('  switch lever', onTwoPoles);
    assert.deepEqual(
      actions.map(({ title }) => title),
      [
        'Take lever-two-bridging of the shelf: it does all positions with 14 wires',
        'Take lever-four-five of the shelf: it does all positions with 19 wires',
      ],
    );
    const [{ at, newText } = assert.fail('no edit')] = actions[0]?.edits ?? [];
    assert.equal(analysis.text.slice(at.start, at.end), 'lever-two-five');
    assert.equal(newText, 'lever-two-bridging');
  });

  it('take a switch of the shelf in the place of one of two that cannot', () => {
    // One pole cannot ground a joint in each of two pickups apart from each other: the middle of the lever wants both at once, and neither.
    const onOnePole = (text: string) =>
      unwired(text).replace('push-pull-two on loud', 'toggle-both').replaceAll('pull up', 'pull down');
    const { analysis, actions } = actionsAt('  switch pull', onOnePole, 'pennywither.pickup');
    const [{ title, edits } = assert.fail('no action')] = actions;
    assert.match(title, /^Take centre-off of the shelf in the place of pull: it does all positions with \d+ wires$/);
    assert.deepEqual(
      edits.map(({ at, newText }) => [analysis.text.slice(at.start - 5, at.end), newText]),
      [['pull toggle-both', 'centre-off']],
    );
  });
});
