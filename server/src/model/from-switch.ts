/** A switch from its block: the contact table, and what in it contradicts itself. */
import type { language } from '../../../grammar/src/schema/index.ts';
import { factsOf, type MergedBlock } from './merged-block.ts';
import type { ModelProblem } from './model.ts';
import type { Place, Stated } from './place.ts';
import type { Resolver } from './resolver.ts';
import type { Detent, Switch } from './switch.ts';

type Facts = ReturnType<typeof factsOf<typeof language.switch>>;
type Pole = Facts['poles'][number];
type DetentLine = Facts['detents'][number];

export function switchFrom(block: MergedBlock<typeof language.switch>, resolver: Resolver): Switch {
  const { rows, poles, detents, travel, accept, ...plain } = factsOf(block);
  for (const problem of [
    ...unevenPoles(poles),
    ...doubled(detents),
    ...joinedTwice(detents),
    ...(rows.length > 0 ? outsideRows(rows, poles, detents) : []),
    ...besideNumbers(poles, detents),
  ])
    resolver.report(problem);
  const table = tableOf(poles, detents);
  const stated = rows.map(({ value }) => namesOf(value));
  const ownRows = stated.length > 0 ? stated : rowsOf(poles, table);
  return {
    ...plain,
    name: block.name ?? '',
    place: block.place,
    title: block.title,
    lugs: [...new Set([...ownRows.flat(), ...table.flatMap(({ joins }) => joins.flat())])],
    rows: ownRows,
    detents: table,
    travel: travel?.value,
  };
}

const NOTHING = 'none';

const namesOf = (lugs: readonly Stated<string>[]): readonly string[] => lugs.map(({ value }) => value);

/** Numbered detents from the poles, each replaced by the line that states it whole; then those that have only a line. */
function tableOf(poles: readonly Pole[], lines: readonly DetentLine[]): readonly Detent[] {
  const stated = lines.map(({ value }): Detent => {
    const joins = value.contacts === 'open' ? [] : value.contacts.map((group) => namesOf(group.value));
    return { name: value.detent.value, title: value.title, joins };
  });
  const throws = Math.max(0, ...poles.map(({ value }) => value.throws.length));
  const numbered = Array.from({ length: throws }, (_, index): Detent => {
    const name = String(index + 1);
    const joins = poles.flatMap(({ value: { common, throws: to } }) => {
      const met = to[index]?.value;
      return met === undefined || met === NOTHING ? [] : [[common.value, met]];
    });
    return stated.find((each) => each.name === name) ?? { name, title: undefined, joins };
  });
  return [...numbered, ...stated.filter(({ name }) => !numbered.some((each) => each.name === name))];
}

/** A row for each pole, its common first; without poles, a row for each group of lugs that some detent joins to others. */
function rowsOf(poles: readonly Pole[], table: readonly Detent[]): readonly (readonly string[])[] {
  const rows = poles.map(({ value: { common, throws } }) => [
    ...new Set([common.value, ...namesOf(throws).filter((lug) => lug !== NOTHING)]),
  ]);
  for (const group of table.flatMap(({ joins }) => joins)) {
    const row = rows.find((each) => group.some((lug) => each.includes(lug)));
    const left = group.filter((lug) => !rows.some((each) => each.includes(lug)));
    if (row) row.push(...left);
    else rows.push([...left]);
  }
  return rows;
}

const problem = (message: string, action: string, place: Place): ModelProblem => ({
  code: 'switch/contact-table',
  message,
  action,
  place,
});

function unevenPoles(poles: readonly Pole[]): readonly ModelProblem[] {
  const count = poles[0]?.value.throws.length;
  return poles.flatMap(({ value: { common, throws }, place }) =>
    throws.length === count
      ? []
      : [
          problem(
            `The pole of ${common.value} has ${throws.length} throws, the first pole has ${count}: each detent needs one of each.`,
            'Name as many throws as the others have; write `none` where the common meets nothing.',
            place,
          ),
        ],
  );
}

function doubled(detents: readonly DetentLine[]): readonly ModelProblem[] {
  return detents.flatMap(({ value: { detent }, place }, index) =>
    detents.findIndex((each) => each.value.detent.value === detent.value) < index
      ? [problem(`Detent ${detent.value} is stated twice.`, 'Write all that it closes in one line.', place)]
      : [],
  );
}

function joinedTwice(detents: readonly DetentLine[]): readonly ModelProblem[] {
  return detents.flatMap(({ value: { detent, contacts }, place }) => {
    const all = contacts === 'open' ? [] : contacts.flatMap((group) => namesOf(group.value));
    const twice = all.find((lug, index) => all.indexOf(lug) < index);
    return twice === undefined
      ? []
      : [
          problem(
            `Detent ${detent.value} names ${twice} twice: what a lug is joined to is one group.`,
            'Put the lugs that are one behind one `joins`.',
            place,
          ),
        ];
  });
}

function outsideRows(
  rows: Facts['rows'],
  poles: readonly Pole[],
  detents: readonly DetentLine[],
): readonly ModelProblem[] {
  const known = new Set(rows.flatMap(({ value }) => namesOf(value)));
  const named = [
    ...poles.flatMap(({ value: { common, throws } }) => [common, ...throws]),
    ...detents.flatMap(({ value: { contacts } }) =>
      contacts === 'open' ? [] : contacts.flatMap((group) => group.value),
    ),
  ];
  const missing = named.filter(({ value }) => value !== NOTHING && !known.has(value));
  return missing.flatMap(({ value, place }, index) =>
    missing.findIndex((each) => each.value === value) < index
      ? []
      : [problem(`No row holds a lug called ${value}.`, `Add ${value} to a row, or name a lug that is in one.`, place)],
  );
}

/** Beside poles the detents are numbered. */
function besideNumbers(poles: readonly Pole[], detents: readonly DetentLine[]): readonly ModelProblem[] {
  const count = poles[0]?.value.throws.length;
  if (count === undefined) return [];
  return detents.flatMap(({ value: { detent }, place }) => {
    const number = Number(detent.value);
    return number >= 1 && number <= count
      ? []
      : [
          problem(
            `The poles have ${count} throws, so the detents are 1 to ${count}; there is no detent ${detent.value}.`,
            'Name one of these, or state all detents without `pole` lines.',
            place,
          ),
        ];
  });
}
