import assert from 'node:assert/strict';
import { type NumbersTable, pickupNumbers, positionNumbers } from '../../server/src/comparison/numbers-table.ts';
import { analysedSample } from '../support/sample-files.ts';

const row = ({ rows }: NumbersTable, begins: string) => {
  const found = rows.find(({ name }) => name.startsWith(begins));
  assert.ok(found, `no row ${begins} in ${rows.map(({ name }) => name).join(' | ')}`);
  return found;
};

const ottlewick = (edit?: (text: string) => string) => {
  const [pickup] = analysedSample('ottlewick-neck.pickup', edit).pickups;
  assert.ok(pickup);
  return pickup;
};

describe('numbers of the bench view', () => {
  it('name their unit once, and give value and ± to the same place', () => {
    const table = pickupNumbers(ottlewick());
    assert.equal(row(table, 'resistance hot').name, 'resistance hot to ground at 20\u202F°C, kΩ');
    assert.equal(row(table, 'resistance hot').now, '13.90 ± 0.07, measured');
    assert.equal(row(table, 'screw coil, turns').name, 'screw coil, turns');
    assert.equal(row(table, 'screw coil, turns').now, '8\u202F200 ± 20');
    assert.equal('before' in row(table, 'phase'), false);
  });

  it('of two states tell the change; where nothing can be seen to change, nothing', () => {
    const before = ottlewick((text) => text.replace('turns 8_200 ± 20', 'turns 5_000 ± 20'));
    const table = pickupNumbers(ottlewick(), before);
    const turns = row(table, 'screw coil, turns');
    // Both have the same ± and its cause in common: it cancels.
    assert.deepEqual([turns.before, turns.now, turns.change], ['5\u202F000 ± 20', '8\u202F200 ± 20', '+3\u202F200']);
    assert.equal(row(table, 'resistance hot').change, '');
    assert.equal(row(table, 'phase').change, '');
  });

  it('a window that overflowed and fits now says so', () => {
    const tight = ottlewick((text) => text.replace('turns 8_200 ± 20', 'turns 9_800 ± 20'));
    assert.equal(row(pickupNumbers(ottlewick(), tight), 'screw coil, window filled').change, 'fits');
    assert.equal(row(pickupNumbers(tight, ottlewick()), 'screw coil, window filled').change, 'does not fit');
  });

  it('of a position are those at its jack', () => {
    const [quorl] = analysedSample('quorl.pickup').instruments;
    assert.ok(quorl);
    const table = positionNumbers(quorl, '3');
    assert.ok(table);
    assert.equal(table.caption, 'Numbers, position 3');
    assert.equal(row(table, 'phase').now, 'one coil');
    assert.equal(row(table, 'hum against').now, '0');
    assert.equal(positionNumbers(quorl, '9'), undefined);
  });
});
