import { cautionsOf, GUIDANCE, type Hazard } from '../words/cautions.ts';
import type { PlainText } from '../words/languages/language.ts';
import type { Finding } from './finding.ts';
import { type Code, isCode, pageOf } from './pages.ts';

const JOINTS: readonly Hazard[] = ['solder'];
const SWEEPING: readonly Hazard[] = ['sweep'];
const JOINTS_OR_POLES: readonly Hazard[] = ['solder', 'magnets', 'magnetising'];

/** What the work that settles a finding takes, by its code or the family of its code; the rest is settled by writing or measuring. */
const HAZARDS: ReadonlyMap<string, readonly Hazard[]> = new Map([
  ['circuit', JOINTS],
  ['controls', JOINTS],
  ['ground', JOINTS],
  ['ground/metal-hot', JOINTS_OR_POLES],
  ['hum', JOINTS],
  ['hum/not-cancelled', JOINTS_OR_POLES],
  ['lead/floating', JOINTS],
  ['phase', JOINTS_OR_POLES],
  ['phase/unproven', ['magnets']],
  ['potting', ['wax']],
  ['reading/contradicts', ['magnets']],
  ['sweep/circuit-differs', SWEEPING],
  ['sweep/loaded', SWEEPING],
  ['sweep/not-passive', SWEEPING],
  ['sweep/open', JOINTS],
  ['sweep/polarity', SWEEPING],
  ['sweep/shorted-turns', ['winder', ...SWEEPING]],
  ['sweep/too-weak', SWEEPING],
  ['switch', JOINTS],
  ['target', ['winder']],
  ['winding/does-not-fit', ['winder']],
  ['winding/spool-too-short', ['winder']],
]);

export function hazardsOf(code: Code): readonly Hazard[] {
  const [family = ''] = code.split('/');
  return HAZARDS.get(code) ?? HAZARDS.get(family) ?? [];
}

/** For whoever reads findings that ask for work: each caution once. Information asks for none, but for another sweep. */
export const cautionsFor = (findings: readonly Pick<Finding, 'code' | 'severity'>[]): readonly PlainText[] =>
  cautionsOf(
    ...findings.flatMap(({ code, severity }) =>
      hazardsOf(code).filter((each) => severity === 'error' || severity === 'warning' || each === 'sweep'),
    ),
  );

const CARE = '## Take care';

/** The explanation page of a finding, in Markdown, with the cautions for the work that settles it. */
export function explanationOf(code: string): string | undefined {
  if (!isCode(code)) return undefined;
  const page = pageOf(code);
  const cautions = cautionsOf(...hazardsOf(code));
  if (cautions.length === 0) return page;
  const list = [...cautions, GUIDANCE].map((each) => `- ${each}\n`).join('');
  return `${page}\n${page.includes(CARE) ? '' : `${CARE}\n\n`}${list}`;
}
