import type { Connection } from 'vscode-languageserver';
import type { Analysis } from '../analysis/analysis-types.ts';
import {
  CARDS_REQUEST,
  type CardsParams,
  type CardsResult,
  FIND_REQUEST,
  type FindParams,
  type FindResult,
  isSectionName,
  PAGE_REQUEST,
  type PageParams,
  type PageResult,
  PLANS_REQUEST,
  type PlansParams,
  type PlansResult,
  SECTION_REQUEST,
  type SectionParams,
  type SectionResult,
  SOUND_REQUEST,
  type SoundParams,
  type SoundResult,
} from './bench-view-protocol.ts';
import { type ComparedStates, createBases, ownBefore, whenRead } from './compared-states.ts';
import { fileKey } from './file-key.ts';
import { findPickups } from './find.ts';
import { answering, type Report } from './guard.ts';
import { slice } from './pace.ts';
import { benchPage, cardPages } from './page.ts';
import { plansAt } from './plans.ts';
import { PROTOCOL_VERSION } from './protocol.ts';
import { sectionOf } from './sections.ts';
import type { Session } from './session.ts';
import { sound } from './sound.ts';

type Asked = Pick<SectionParams, 'uri' | 'base' | 'among'> & { readonly subject?: SectionParams['subject'] };

/** Requests of the bench view: one section each, so that whatever is typed meanwhile comes between them. */
export function serveBench(
  connection: Connection,
  { session, report }: { readonly session: Session; readonly report: Report },
): void {
  const bases = createBases(session.files);
  /** A shop has hundreds of files; a keystroke's findings come between them. */
  const analysesOf = async (uris: readonly string[]): Promise<readonly Analysis[]> => {
    const found = new Map<string, Analysis>();
    for (const uri of uris) {
      const analysis = await whenRead(() => session.analysisOfFile(uri));
      if (analysis) found.set(fileKey(uri), analysis);
      await new Promise((resolve) => setTimeout(resolve, 0));
    }
    return [...found.values()];
  };
  const statesOf = async ({ uri, base, subject, among }: Asked): Promise<ComparedStates | undefined> => {
    const document = session.documents.get(uri);
    const now = document && (await session.whenAnalysed(document));
    if (!document || !now) return undefined;
    const before = base ? await bases.before(base, now) : subject && ownBefore(now, subject);
    return { document, now, before, ...(among === undefined ? {} : { among: await analysesOf([uri, ...among]) }) };
  };
  connection.onRequest<SectionResult | null, void>(
    SECTION_REQUEST,
    answering<SectionParams, SectionResult | null>(report, 'bench view', null, async (params) => {
      const states = await statesOf(params);
      const content = states && isSectionName(params.section) ? sectionOf(params.section, states, params) : undefined;
      if (states === undefined || content === undefined) return null;
      return { protocol: PROTOCOL_VERSION, uri: params.uri, version: states.document.version, content };
    }),
  );
  connection.onRequest(
    PAGE_REQUEST,
    answering<PageParams, PageResult>(report, 'page', { protocol: PROTOCOL_VERSION }, async (params) => {
      const states = await statesOf(params);
      return {
        protocol: PROTOCOL_VERSION,
        ...(states ? { html: await benchPage(states, params, session.files.photoBytes) } : {}),
      };
    }),
  );
  const noCards: CardsResult = { protocol: PROTOCOL_VERSION, pages: [], leftOut: [] };
  connection.onRequest(
    CARDS_REQUEST,
    answering<CardsParams, CardsResult>(report, 'cards', noCards, async (params) => {
      const states = await statesOf(params);
      return states ? cardPages(states, params, session.files.photoBytes) : noCards;
    }),
  );
  const silence: SoundResult = { protocol: PROTOCOL_VERSION, sampleRate: 48_000 };
  connection.onRequest<SoundResult, void>(
    SOUND_REQUEST,
    answering<SoundParams, SoundResult>(report, 'sound', silence, async (params) => {
      const states = await statesOf(params);
      return states ? sound(states, params) : silence;
    }),
  );
  const noPlans: PlansResult = { protocol: PROTOCOL_VERSION, plans: [] };
  connection.onRequest(
    PLANS_REQUEST,
    answering<PlansParams, PlansResult>(report, 'plans', noPlans, async (params, token) => {
      const document = session.documents.get(params.uri);
      const analysis = document && (await session.whenAnalysed(document, token));
      if (!document || !analysis) return noPlans;
      const textOf = (uri: string) => session.files.document(uri);
      return { protocol: PROTOCOL_VERSION, plans: plansAt({ document, analysis, textOf }, params) };
    }),
  );
  const nothingFound: FindResult = {
    protocol: PROTOCOL_VERSION,
    found: [],
    isFiltered: false,
    examples: [],
  };
  connection.onRequest(
    FIND_REQUEST,
    answering<FindParams, FindResult>(report, 'find', nothingFound, (params, token) => {
      let isOver = slice();
      const goOn = async (): Promise<boolean> => {
        if (isOver()) {
          await new Promise((resolve) => setTimeout(resolve, 0));
          isOver = slice();
        }
        return !token.isCancellationRequested;
      };
      return findPickups({ session, goOn }, params);
    }),
  );
}
