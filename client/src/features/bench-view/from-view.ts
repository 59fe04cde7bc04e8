import type { Pots, Settings, Subject } from '../../../../server/src/lsp/protocol.ts';
import { type FromView, VIEW_COMMANDS } from './messages.ts';

type Kind = FromView['type'];
type Fields = Readonly<Record<string, unknown>>;

/** What belongs to a message of one kind; `undefined` where something else was said. */
type Reader<K extends Kind> = (said: Fields) => Omit<Extract<FromView, { type: K }>, 'type'> | undefined;

const widthIn = ({ width }: Fields) => (isNumber(width) ? { width } : undefined);

const READERS: { readonly [K in Kind]: Reader<K> } = {
  ready: widthIn,
  resized: widthIn,
  reveal: ({ part }) => (isText(part) ? { part } : undefined),
  'reveal line': ({ line }) => (isIndex(line) ? { line } : undefined),
  begin: ({ index }) => (isIndex(index) ? { index } : undefined),
  'use build': ({ index }) => (isIndex(index) ? { index } : undefined),
  'what if': ({ asked, settings }) => {
    const moved = settingsIn(settings);
    return isIndex(asked) && moved ? { asked, settings: moved } : undefined;
  },
  'write what if': () => ({}),
  'write plan': () => ({}),
  explain: ({ code }) => (isText(code) ? { code } : undefined),
  choose: ({ subject }) => {
    const { kind, name } = fieldsOf(subject);
    return isKind(kind) && isText(name) ? { subject: { kind, name } } : undefined;
  },
  position: ({ position }) => (position === undefined || isText(position) ? { position } : undefined),
  pots: (said) => {
    const pots = potsIn(said.pots);
    return pots && { pots };
  },
  command: (said) => {
    const command = VIEW_COMMANDS.find((each) => each === said.command);
    return command && { command };
  },
  sound: ({ frequencyHz, settings }) => {
    if (!isNumber(frequencyHz)) return undefined;
    if (settings === undefined) return { frequencyHz, settings };
    const moved = settingsIn(settings);
    return moved && { frequencyHz, settings: moved };
  },
  picture: ({ png }) => (isText(png) && BASE64.test(png) ? { png } : undefined),
};

/** A message as the view may send it; `undefined` for anything else, so that a page gone astray can ask for nothing new. */
export function fromView(message: unknown): FromView | undefined {
  const said = fieldsOf(message);
  const { type } = said;
  if (!isText(type) || !Object.hasOwn(READERS, type)) return undefined;
  const kind = type as Kind;
  const fields = READERS[kind](said);
  // The reader of a kind gives the fields of that kind.
  return fields && ({ type: kind, ...fields } as FromView);
}

/** Numbers by the names of knobs, and nothing else. */
export function potsIn(value: unknown): Pots | undefined {
  const numbers = Object.entries(fieldsOf(value)).flatMap(([id, at]) => (isNumber(at) ? [[id, at] as const] : []));
  return numbers.length > 0 && numbers.length === Object.keys(fieldsOf(value)).length
    ? Object.fromEntries(numbers)
    : undefined;
}

/** Numbers and names by the ids of knobs, and nothing else. */
function settingsIn(value: unknown): Settings | undefined {
  const stand = Object.entries(fieldsOf(value)).flatMap(([id, at]) =>
    isNumber(at) || isText(at) ? [[id, at] as const] : [],
  );
  return stand.length === Object.keys(fieldsOf(value)).length ? Object.fromEntries(stand) : undefined;
}

/** RFC 4648, section 4. */
const BASE64 = /^[A-Za-z0-9+/]*={0,2}$/;

/** What a view may be about. */
export const isKind = (kind: unknown): kind is Subject['kind'] =>
  kind === 'pickup' || kind === 'instrument' || kind === 'parts';

const isText = (value: unknown): value is string => typeof value === 'string';
const isIndex = (value: unknown): value is number => Number.isInteger(value) && isNumber(value) && value >= 0;
const isNumber = (value: unknown): value is number => typeof value === 'number' && Number.isFinite(value);

/** Its own fields, whatever it is. */
const fieldsOf = (value: unknown): Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null ? Object.fromEntries(Object.entries(value)) : {};
