/** Findings that the writer keeps: they become information, where they are not less already; an acceptance that nothing needs is a finding itself. */
import type { Acceptance } from '../model/acceptance.ts';
import type { Place } from '../model/place.ts';
import { removeLine } from './edits.ts';
import type { Finding } from './finding.ts';
import { buildCodes, lateCodes } from './index.ts';
import { textRemedy } from './remedy.ts';
import { inEnglish, say, type Worded } from './say.ts';
import { type Told, told } from './telling.ts';

interface Accepting {
  readonly name: string;
  readonly place: Place;
  readonly accepted: readonly Acceptance[];
}

/** Until the late checks have run (`isComplete`), an acceptance of what only they can find is not called unused. */
export function acceptedFindings(
  findings: readonly Finding[],
  things: readonly Accepting[],
  isComplete: boolean,
): readonly Finding[] {
  if (things.every(({ accepted }) => accepted.length === 0)) return findings;
  const used = new Set<Acceptance>();
  const kept = findings.map((finding): Finding => {
    const acceptance = things.flatMap(({ accepted, name }) =>
      accepted.filter((each) => covers(each, finding, name)),
    )[0];
    if (!acceptance) return finding;
    for (const { accepted, name } of things)
      for (const each of accepted) if (covers(each, finding, name)) used.add(each);
    const severity = finding.severity === 'hint' ? 'hint' : 'information';
    return { ...finding, severity, isAccepted: true, ...asAccepted(finding, acceptance) };
  });
  const unused = things.flatMap(({ accepted }) =>
    accepted.filter((each) => !used.has(each) && (isComplete || !isLate(each))),
  );
  return [...kept, ...unused.map(unusedFinding)];
}

/** What may be kept: what is found of a build and of its photographs. A text that does not read is put right. */
export const mayBeAccepted = ({ code, isAccepted }: Finding): boolean =>
  isAccepted !== true && !code.startsWith('name/') && (buildCodes.has(code) || code.startsWith('photo/'));

/** True where something is accepted that only the late checks may find. */
export const acceptsLate = (things: readonly Accepting[]): boolean =>
  things.some(({ accepted }) => accepted.some(isLate));

const isLate = ({ code }: Acceptance): boolean => lateCodes.has(code.value);

function covers({ code, scope }: Acceptance, finding: Finding, owner: string): boolean {
  if (finding.code !== code.value) return false;
  const { place } = finding;
  if (place.chunk === scope.chunk && scope.span.start <= place.span.start && place.span.end <= scope.span.end)
    return true;
  return finding.subject.pickup === owner && scope.span.start === 0;
}

/** What is accepted needs no action any more. */
function asAccepted({ telling: { what, hint } }: Finding, { reason }: Acceptance): Told {
  const accepted: Worded = (t) => (reason === undefined ? t('Accepted.') : t('Accepted: {0}', reason));
  if (hint === undefined) return told({ what, hint: accepted });
  return told({
    what,
    hint: typeof hint === 'function' ? (t) => `${hint(t)} ${accepted(t)}` : say`${hint} ${inEnglish(accepted)}`,
  });
}

function unusedFinding({ code, place }: Acceptance): Finding {
  return {
    code: 'accept/unused',
    severity: 'warning',
    ...told({
      what: (t) => t('Nothing is left to accept: {0} is not found here any more.', code.value),
      action: (t) => t('Remove the line.'),
    }),
    place,
    related: [],
    remedies: () => [textRemedy((t) => t('Remove the line'), [removeLine(place)], true)],
    subject: {},
  };
}
