import assert from 'node:assert/strict';
import { fromView } from '../../client/src/features/bench-view/from-view.ts';
import type { FromView } from '../../client/src/features/bench-view/messages.ts';

const GOOD: readonly FromView[] = [
  { type: 'ready', width: 700 },
  { type: 'resized', width: 420.5 },
  { type: 'reveal', part: 'coil.screw' },
  { type: 'reveal line', line: 0 },
  { type: 'use build', index: 0 },
  { type: 'what if', asked: 1, settings: {} },
  { type: 'what if', asked: 2, settings: { 'screw.turns': 4500, 'slug.wire': 'wire plain-42' } },
  { type: 'write what if' },
  { type: 'write plan' },
  { type: 'explain', code: 'phase/coils-cancel' },
  { type: 'choose', subject: { kind: 'instrument', name: '__proto__' } },
  { type: 'position', position: '2' },
  { type: 'position', position: undefined },
  { type: 'pots', pots: { volume: 10, tone: 0 } },
  { type: 'pots', pots: { 'neck.volume': 7.5, blend: 5 } },
  { type: 'command', command: 'exportSvg' },
  { type: 'sound', frequencyHz: 82.4, settings: undefined },
  { type: 'sound', frequencyHz: 82.4, settings: { 'screw.turns': 4500 } },
  { type: 'picture', png: 'iVBORw0KGgo=' },
];

const BAD: readonly unknown[] = [
  undefined,
  null,
  7,
  'ready',
  [],
  {},
  { type: 'ready' },
  { type: 'resized', width: Number.NaN },
  { type: 'reveal', part: 7 },
  { type: 'reveal line', line: -1 },
  { type: 'reveal line', line: 1.5 },
  { type: 'use build', index: -1 },
  { type: 'what if', asked: 1, settings: { 'screw.turns': null } },
  { type: 'what if', settings: {} },
  { type: 'explain', code: {} },
  { type: 'choose', subject: { kind: 'folder', name: 'x' } },
  { type: 'choose', subject: null },
  { type: 'position', position: null },
  { type: 'pots', pots: { volume: '10', tone: 0 } },
  { type: 'pots', pots: {} },
  { type: 'pots', pots: [7, 'x'] },
  { type: 'command', command: 'restartServer' },
  { type: 'command', command: '../workbench.action.terminal.new' },
  { type: 'command', command: 'constructor' },
  { type: 'sound', frequencyHz: Number.POSITIVE_INFINITY },
  { type: 'picture', png: '<svg onload=x>' },
  { type: '__proto__' },
];

describe('messages of the bench view', () => {
  it('are taken as they are, and nothing beside their fields', () => {
    for (const message of GOOD) assert.deepEqual(fromView({ ...message, more: 'x' }), message);
  });

  for (const message of BAD) {
    it(`${JSON.stringify(message)} is none`, () => assert.equal(fromView(message), undefined));
  }
});
