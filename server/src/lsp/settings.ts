import { LEVELS } from '../../../grammar/src/schema/bench.ts';
import { type Level, type Levels, mayBeLevelled } from '../analysis/levels.ts';
import type { HintKind } from '../features/inlay-hints.ts';

/** The section of the editor's settings that is ours. */
export const SETTINGS_SECTION = 'pickup';

/** Whose findings are told. */
export type CheckScope = 'openFiles' | 'workspace';

export interface Settings {
  readonly checkScope: CheckScope;
  readonly hints: ReadonlySet<HintKind>;
  readonly codeLens: boolean;
  /** How findings are told to this person, by code; it goes before what the bench says. */
  readonly levels: Levels;
}

export const DEFAULT_SETTINGS: Settings = {
  checkScope: 'openFiles',
  hints: new Set<HintKind>([
    'coil resistance',
    'inferred turns',
    'pickup resistance',
    'switch contacts',
    'wiring positions',
  ]),
  codeLens: true,
  levels: new Map(),
};

/** Whatever a client sends becomes settings: what is missing or of the wrong kind is as if it had not been set. */
export function readSettings(sent: unknown): Settings {
  const hints = field(sent, 'inlayHints');
  const checkScope = field(field(sent, 'check'), 'scope') === 'workspace' ? 'workspace' : DEFAULT_SETTINGS.checkScope;
  const codeLens = !isOff(sent, 'codeLens');
  const levels = readLevels(field(sent, 'severity'));
  if (isOff(hints, 'enabled')) return { checkScope, codeLens, levels, hints: new Set() };
  return {
    checkScope,
    codeLens,
    levels,
    hints: new Set([...DEFAULT_SETTINGS.hints].filter((kind) => !isOff(hints, HINT_SETTINGS[kind]))),
  };
}

const readLevels = (sent: unknown): Levels =>
  new Map(
    Object.entries(Object(sent)).flatMap(([code, wanted]): readonly [string, Level][] => {
      const level = LEVELS.find((each) => each === wanted);
      return level && mayBeLevelled(code) ? [[code, level]] : [];
    }),
  );

const HINT_SETTINGS: Readonly<Record<HintKind, string>> = {
  'coil resistance': 'coilResistance',
  'inferred turns': 'inferredTurns',
  'pickup resistance': 'pickupResistance',
  'switch contacts': 'switchContacts',
  'wiring positions': 'wiringPositions',
};

const isOff = (group: unknown, key: string): boolean => field(group, key) === false;

function field(value: unknown, key: string): unknown {
  if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) return undefined;
  return Reflect.get(value, key);
}
