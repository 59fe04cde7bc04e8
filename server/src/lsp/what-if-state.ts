/** What the knobs moved by hand would make, as the bench view shows it: numbers, response and findings beside those of now. */
import { TextDocument } from 'vscode-languageserver-textdocument';
import { given } from '../../../grammar/values/present.ts';
import type { Finding } from '../checks/finding.ts';
import { tellIn } from '../checks/telling.ts';
import { compareFindings } from '../comparison/compare-findings.ts';
import type { Language } from '../words/languages/language.ts';
import { isAbout } from './about-subject.ts';
import type { ToldFinding, WhatIfParams, WhatIfState } from './bench-view-protocol.ts';
import type { ComparedStates } from './compared-states.ts';
import type { Subject } from './protocol-parts.ts';
import { numbersView, responseView } from './sections.ts';
import { toTextEdit } from './to-protocol.ts';
import { movedStates } from './what-if.ts';

/** `undefined`: nothing is moved, or the text cannot say it. */
export function whatIfState(states: ComparedStates, params: WhatIfParams): WhatIfState | undefined {
  const { now, document, t } = states;
  const { subject, settings } = params;
  const moved = movedStates(states, subject, settings);
  const numbers = moved && numbersView(moved.states, params);
  if (!moved || !numbers) return undefined;
  const findings = compareFindings(now.findings, moved.states.now.findings, new Map());
  return {
    version: document.version,
    numbers,
    response: responseView(moved.states, params),
    come: told(findings.come, subject, t),
    settled: told(findings.gone, subject, t),
    edits: moved.edits.map(({ at, newText }) => ({
      uri: at.uri,
      ...toTextEdit(documentOf(states, at.uri), { span: at, newText }),
    })),
  };
}

/** A part that is changed may stand in another file. */
const documentOf = ({ document, now }: ComparedStates, uri: string): TextDocument =>
  uri === now.uri ? document : TextDocument.create(uri, document.languageId, 0, now.textOf(uri) ?? '');

const told = (findings: readonly Finding[], { kind, name }: Subject, t: Language): readonly ToldFinding[] =>
  findings
    .filter((finding) => isAbout(finding, { kind, name }))
    .map((finding) => {
      const { what, foreign } = tellIn(finding, t);
      return { what, ...given({ foreign }) };
    });
