/** How findings are told: as their check has it, as the shop's bench says, or as the person at the editor wants it, who comes last. */
import { nearest } from '../../../grammar/src/nearest.ts';
import type { LEVELS } from '../../../grammar/src/schema/bench.ts';
import type { Finding } from '../checks/finding.ts';
import { codes, isCode } from '../checks/pages.ts';
import { say } from '../checks/say.ts';
import { told } from '../checks/telling.ts';
import type { Bench } from '../model/bench.ts';

export type Level = (typeof LEVELS)[number];

/** By code; what is not in it stays as it is. */
export type Levels = ReadonlyMap<string, Level>;

/** What was not analysed is told in any case: otherwise its silence would say that nothing is wrong. */
export const mayBeLevelled = (code: string): boolean => isCode(code) && !code.startsWith('analysis/');

const asFound = new WeakMap<Finding, Finding>();

/** As its check has it, for what compares findings. */
export const unlevelled = (finding: Finding): Finding => asFound.get(finding) ?? finding;

/** What is accepted stays as low as it is. */
export function levelled(
  findings: readonly Finding[],
  bench: Bench | undefined,
  wanted: Levels | undefined,
): readonly Finding[] {
  const own: Levels = new Map(bench?.severity.map(({ value }) => [value.code.value, value.level]));
  if (own.size === 0 && (wanted === undefined || wanted.size === 0)) return findings;
  return findings.flatMap((finding) => {
    const level = mayBeLevelled(finding.code) ? (wanted?.get(finding.code) ?? own.get(finding.code)) : undefined;
    if (level === 'off') return [];
    if (level === undefined || level === finding.severity || finding.isAccepted === true) return [finding];
    const as = { ...finding, severity: level };
    asFound.set(as, unlevelled(finding));
    return [as];
  });
}

/** Codes on the bench that no finding has, or whose findings are told in any case. */
export const unknownCodes = ({ severity }: Bench): readonly Finding[] =>
  severity.flatMap(({ value: { code } }) => (mayBeLevelled(code.value) ? [] : [unknownCode(code)]));

function unknownCode({ value, place }: Bench['severity'][number]['value']['code']): Finding {
  const right = isCode(value) ? undefined : nearest(value, codes.filter(mayBeLevelled));
  return {
    code: 'name/unknown',
    severity: 'error',
    ...told({
      what: isCode(value) ? say`What was not analysed is told in any case.` : say`No finding has the code ${value}.`,
      action: right === undefined ? undefined : say`Write ${right}, if that is meant.`,
    }),
    place,
    related: [],
    remedies: () =>
      right === undefined
        ? []
        : [{ title: say`Change to ${right}`, edits: [{ place, newText: right }], kind: 'text', preferred: true }],
    subject: {},
  };
}
