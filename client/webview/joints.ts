import type { JointRow } from '../../server/src/lsp/protocol.ts';
import { element } from './element.ts';

/** The same that the drawing shows, for those who read rather than look. */
export function jointsTable(joints: readonly JointRow[]): readonly Node[] {
  if (joints.length === 0) return [];
  const head = element('tr', {}, [
    element('th', { scope: 'col', textContent: 'joint' }),
    element('th', { scope: 'col', textContent: 'soldered together' }),
  ]);
  const rows = joints.map(({ joint, leads }) =>
    element('tr', {}, [
      element('th', { scope: 'row', textContent: joint }),
      element('td', { textContent: leads.join(', ') }),
    ]),
  );
  return [
    element('table', { className: 'lt' }, [
      element('caption', { textContent: 'Joints' }),
      element('thead', {}, [head]),
      element('tbody', {}, rows),
    ]),
  ];
}
