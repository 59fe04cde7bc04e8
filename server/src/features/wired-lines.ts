/** What is told at the lines of a wired instrument: contacts beside a position, positions beside a line of the wiring; more in their hovers. */
import type { Analysis } from '../analysis/analysis-types.ts';
import { type WiredStates, wiredStates } from '../estimates/switch-states.ts';
import type { Instrument } from '../model/instrument.ts';
import type { Place } from '../model/place.ts';
import { terminalsOfLine } from '../model/soldered.ts';
import { contactWords, deadWords, heardWords, stateWords } from '../words/switch-words.ts';
import { list } from '../words/text.ts';
import type { RichText } from './rich-text.ts';

export interface WiredLine {
  readonly kind: 'switch contacts' | 'wiring positions';
  /** The line. */
  readonly place: Place;
  readonly label: string;
  readonly tooltip: string;
  readonly rows: readonly { readonly name: string; readonly value: string }[];
}

/** Of every instrument of the model whose wiring is known. */
export const wiredLines = ({ model }: Pick<Analysis, 'model'>): readonly WiredLine[] =>
  model.instruments.flatMap((instrument) => {
    const states = wiredStates(instrument);
    return states ? [...positionLines(states, instrument), ...wiringLines(states, instrument)] : [];
  });

function positionLines({ states }: WiredStates, instrument: Instrument): readonly WiredLine[] {
  return states.flatMap((state) =>
    state.positions.map((position): WiredLine => {
      const [contacts, at] = [contactWords(state, instrument), stateWords(instrument, state.state)];
      const silent = deadWords(state);
      return {
        kind: 'switch contacts',
        place: position.place,
        label: `contacts ${contacts}`,
        tooltip: `${at}: ${heardWords(state)}`,
        rows: [
          { name: 'the switches stand', value: at },
          { name: 'contacts closed', value: contacts },
          { name: 'as wired', value: heardWords(state) },
          ...(silent.length > 0 ? [{ name: 'silent coils', value: silent.join('; ') }] : []),
        ],
      };
    }),
  );
}

/** A line carries signal where what sounds goes through it; ground always does and is not told. */
function wiringLines({ states, numbered: { rig } }: WiredStates, { wiring }: Instrument): readonly WiredLine[] {
  const elements = rig.elements;
  return (wiring?.lines ?? []).flatMap((line): readonly WiredLine[] => {
    const [first] = terminalsOfLine(line);
    if (first === undefined || line.kind === 'free' || line.kind === 'ground') return [];
    const carrying = states.filter(({ meaning }) => {
      const live = elements
        .filter(({ name }) => meaning.sounding.includes(name))
        .flatMap(({ ends }) => ends.map(meaning.netOf));
      return live.includes(meaning.netOf(first)) && meaning.netOf(first) !== meaning.netOf('ground');
    });
    const keys = carrying.flatMap(({ positions }) => positions.map(({ key }) => key.value));
    const where = keys.length > 0 ? list([...keys].sort((a, b) => Number(a) - Number(b))) : 'none';
    const value = keys.length === 1 ? `position ${where}` : `positions ${where}`;
    return [
      {
        kind: 'wiring positions',
        place: line.place,
        label: value,
        tooltip: `carries signal in ${value}`,
        rows: [{ name: 'carries signal in', value }],
      },
    ];
  });
}

/** Over a position of a wired instrument, or a line of its wiring. */
export function wiredLineText(analysis: Analysis, offset: number): RichText {
  const line = wiredLines(analysis).find(({ place }) => {
    const at = analysis.locate(place);
    return at?.uri === analysis.uri && at.start <= offset && offset <= at.end;
  });
  return line ? [{ kind: 'values', rows: line.rows.map((row) => ({ ...row, restsOn: '' })) }] : [];
}
