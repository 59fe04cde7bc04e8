/**
 * `like` hands lines on. Where a pickup is changed that another one is like, the other pickup was not worked on: what it would take
 * over with the change is stated in its own block as it was.
 */
import { insertFirstLine, insertFirstLines } from '../checks/edits.ts';
import type { Edit } from '../checks/finding.ts';
import type { Coil, CoilLead } from '../model/coil.ts';
import type { Joint, Pickup } from '../model/pickup.ts';
import type { Place, Stated } from '../model/place.ts';

/** A pickup before and after the plan; the same twice where nothing is done to it. */
export interface Worked {
  readonly before: Pickup;
  readonly after: Pickup;
}

/** `undefined` where it cannot be written beside what the plan writes into the other pickup's own block. */
export function keepLikes(changed: Worked, other: Worked): readonly Edit[] | undefined {
  const { chunk } = changed.before.place;
  if (other.before.place.chunk === chunk) return [];
  const edits: Edit[] = [];
  const joints = jointLines(changed, other);
  if (joints === undefined) return undefined;
  const { hookup, place, coils } = other.before;
  if (joints.length > 0 && hookup) {
    if (hookup.place.chunk === place.chunk) edits.push(insertFirstLines(hookup.place, joints));
    else if (kindsChanged(other).length > 0) return undefined;
    else edits.push(insertFirstLine(place, `hookup {\n${joints.map((line) => `    ${line}\n`).join('')}  }`));
  }
  for (const coil of coils) {
    const lines = coilLines(coil, changed, other);
    if (lines.length === 0) continue;
    const worked = other.after.coils.some((each) => each.name === coil.name && each !== coil);
    if (coil.place.chunk === place.chunk) edits.push(insertFirstLines(coil.place, lines));
    else if (worked) return undefined;
    else edits.push(insertFirstLine(place, `coil ${coil.name} { ${lines.join('; ')} }`));
  }
  const bar = other.before.barMagnet;
  const turned = changed.before.barMagnet?.value.pole !== changed.after.barMagnet?.value.pole;
  if (turned && bar?.place.chunk === chunk && bar.value.pole === other.after.barMagnet?.value.pole) {
    const name = bar.value.magnet?.name;
    if (name === undefined) return undefined;
    edits.push(insertFirstLine(place, `magnet ${name} ${bar.value.pole} toward ${bar.value.towardCoil.value}`));
  }
  return edits;
}

function jointLines(changed: Worked, other: Worked): readonly string[] | undefined {
  const { chunk } = changed.before.place;
  const own = kindsChanged(other);
  const taken = (other.before.hookup?.joints ?? []).filter(({ place }) => place.chunk === chunk);
  if (taken.length === 0) return [];
  const kinds = kindsChanged(changed).filter((kind) => !own.includes(kind));
  // A kind of line that came new would be taken over, and nothing takes it away again.
  if (kinds.some((kind) => !(other.before.hookup?.joints ?? []).some((joint) => joint.kind === kind))) return undefined;
  return taken
    .filter(({ kind }) => kinds.includes(kind))
    .map(({ kind, leads }) => `${kind} ${leads.map(({ text }) => text).join(' ')}`);
}

/** Words of the hookup whose lines come out different. */
function kindsChanged({ before, after }: Worked): readonly Joint['kind'][] {
  const kinds = ['hot', 'link', 'ground', 'shield', 'free'] as const;
  const linesOf = ({ hookup }: Pickup, kind: Joint['kind']) =>
    (hookup?.joints ?? [])
      .filter((joint) => joint.kind === kind)
      .map(({ leads }) => leads.map(({ text }) => text).join(' '))
      .join('\n');
  return kinds.filter((kind) => linesOf(before, kind) !== linesOf(after, kind));
}

type CoilWord = 'wound' | 'polarity' | 'spindle' | 'start' | 'finish';

/** Facts of the other pickup's coil that stand in lines which change. */
function coilLines(coil: Coil, changed: Worked, other: Worked): readonly string[] {
  const { chunk } = changed.before.place;
  const after = other.after.coils.find(({ name }) => name === coil.name);
  const words: readonly CoilWord[] = ['wound', 'polarity', 'spindle', 'start', 'finish'];
  return words.flatMap((word): readonly string[] => {
    const fact: Stated<unknown> | undefined = coil[word];
    if (fact?.place.chunk !== chunk || after?.[word] !== fact) return [];
    const rewritten = changed.before.coils.some(
      (each, index) => isAt(each[word]?.place, fact.place) && changed.after.coils[index]?.[word] !== each[word],
    );
    return rewritten ? [lineOf(coil, word)] : [];
  });
}

const isAt = (place: Place | undefined, other: Place): boolean =>
  place?.chunk === other.chunk && place.span.start === other.span.start;

function lineOf(coil: Coil, word: CoilWord): string {
  switch (word) {
    case 'spindle':
      return `spindle ${coil.spindle?.value.rotation ?? ''}, ${coil.spindle?.value.towardIt ?? ''} toward it`;
    case 'start':
    case 'finish':
      return `${word} ${leadText(coil[word]?.value)}`;
    default:
      return `${word} ${coil[word]?.value ?? ''}`;
  }
}

const leadText = (lead: CoilLead | undefined): string =>
  [lead?.own?.value, lead?.to && `to ${lead.to.value.text}`].filter(Boolean).join(' ');
