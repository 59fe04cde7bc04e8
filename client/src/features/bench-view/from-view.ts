import type { Pots, Subject } from '../../../../server/src/lsp/protocol.ts';
import { type FromView, VIEW_COMMANDS } from './messages.ts';

/** A message as the view may send it; `undefined` for anything else, so that a page gone astray can ask for nothing new. */
export function fromView(message: unknown): FromView | undefined {
  const said = fieldsOf(message);
  switch (said.type) {
    case 'ready':
    case 'resized':
      return isNumber(said.width) ? { type: said.type, width: said.width } : undefined;
    case 'reveal':
      return isText(said.part) ? { type: said.type, part: said.part } : undefined;
    case 'reveal line':
      return Number.isInteger(said.line) && isNumber(said.line) && said.line >= 0
        ? { type: said.type, line: said.line }
        : undefined;
    case 'begin':
      return Number.isInteger(said.index) && isNumber(said.index) && said.index >= 0
        ? { type: said.type, index: said.index }
        : undefined;
    case 'explain':
      return isText(said.code) ? { type: said.type, code: said.code } : undefined;
    case 'choose': {
      const { kind, name } = fieldsOf(said.subject);
      return isKind(kind) && isText(name) ? { type: said.type, subject: { kind, name } } : undefined;
    }
    case 'position':
      return said.position === undefined || isText(said.position)
        ? { type: said.type, position: said.position }
        : undefined;
    case 'pots': {
      const pots = potsIn(said.pots);
      return pots && { type: said.type, pots };
    }
    case 'command': {
      const command = VIEW_COMMANDS.find((each) => each === said.command);
      return command && { type: said.type, command };
    }
    case 'sound':
      return isNumber(said.frequencyHz) ? { type: said.type, frequencyHz: said.frequencyHz } : undefined;
    case 'picture':
      return isText(said.png) && BASE64.test(said.png) ? { type: said.type, png: said.png } : undefined;
    default:
      return undefined;
  }
}

/** Numbers by the names of knobs, and nothing else. */
export function potsIn(value: unknown): Pots | undefined {
  const numbers = Object.entries(fieldsOf(value)).flatMap(([id, at]) => (isNumber(at) ? [[id, at] as const] : []));
  return numbers.length > 0 && numbers.length === Object.keys(fieldsOf(value)).length
    ? Object.fromEntries(numbers)
    : undefined;
}

/** RFC 4648, section 4. */
const BASE64 = /^[A-Za-z0-9+/]*={0,2}$/;

/** What a view may be about. */
export const isKind = (kind: unknown): kind is Subject['kind'] =>
  kind === 'pickup' || kind === 'instrument' || kind === 'parts';

const isText = (value: unknown): value is string => typeof value === 'string';
const isNumber = (value: unknown): value is number => typeof value === 'number' && Number.isFinite(value);

/** Its own fields, whatever it is. */
const fieldsOf = (value: unknown): Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null ? Object.fromEntries(Object.entries(value)) : {};
