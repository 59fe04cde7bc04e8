import { sounds } from '../estimates/signs.ts';
import { positionWords } from '../words/parts.ts';
import { capital } from '../words/text.ts';
import { definePositionCheck } from './instrument-check.ts';

export const circuitOpenPosition = definePositionCheck({
  code: 'circuit/open',
  severity: 'error',
  yieldsTo: ['circuit/open', 'circuit/output-shorted', 'lead/floating'],
  at: ({ position, coils, network }) => {
    const quick = [...new Set(network.segments.map((each) => each.quick))];
    // A pickup that is silent by itself is told at the pickup.
    if (coils.length > 0 || quick.some(({ signs }) => !signs.some(sounds))) return undefined;
    return {
      what: (t) => t('{0} is silent: nothing of what it names drives the output.', capital(positionWords(position, t))),
      action: (t) => t('Take a pickup or a coil whose two ends reach hot and ground.'),
    };
  },
});
