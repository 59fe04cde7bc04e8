import { HARMFUL } from '../../../server/src/lsp/protocol.ts';

/** Text from a spec as a terminal may show it: what would steer or reorder it is replaced. */
export const terminalText = (text: string): string => text.replace(HARMFUL_ONES, '\uFFFD');

const HARMFUL_ONES = new RegExp(HARMFUL, 'gu');
