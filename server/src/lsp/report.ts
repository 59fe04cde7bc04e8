import type { Analysis, InstrumentAnalysis } from '../analysis/analysis-types.ts';
import { pickupNumbers, positionNumbers } from '../comparison/numbers-table.ts';
import type { Language } from '../words/languages/language.ts';
import { titleOf } from '../words/parts.ts';
import { askedFile, CALLED_OFF, FAILED, isOver } from './asked-file.ts';
import type { AnswerOwn } from './guard.ts';
import { REPORT_REQUEST, type ReportedSubject, type ReportResult } from './protocol.ts';
import type { AboutFile } from './protocol-parts.ts';
import type { Session } from './session.ts';

/** What is computed of one file, in the words of the bench view's tables. */
export function serveReports(own: AnswerOwn, session: Session, t: Language): void {
  own<AboutFile, ReportResult>(REPORT_REQUEST, 'report', { subjects: [], ...FAILED }, async ({ uri }, token) => {
    const told = await askedFile(session, uri, token, async ({ analysis }) => {
      const subjects: ReportedSubject[] = [];
      for (const subject of reported(analysis, t)) {
        subjects.push(subject);
        if (await isOver(token)) return CALLED_OFF;
      }
      return { subjects };
    });
    return { subjects: [], ...told };
  });
}

function* reported({ pickups, instruments }: Analysis, t: Language): Generator<ReportedSubject> {
  for (const each of pickups) {
    const { name } = each.pickup;
    yield { kind: 'pickup', name, title: titleOf(each.pickup), tables: [pickupNumbers(each, undefined, t)] };
  }
  for (const each of instruments) {
    const { name } = each.instrument;
    yield { kind: 'instrument', name, title: titleOf(each.instrument), tables: positionTables(each, t) };
  }
}

const positionTables = (analysed: InstrumentAnalysis, t: Language): ReportedSubject['tables'] =>
  analysed.instrument.positions.flatMap(({ key }) => positionNumbers(analysed, key.value, {}, t) ?? []);
