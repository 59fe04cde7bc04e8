import { given } from '../../../grammar/values/present.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import type { Language } from '../words/languages/language.ts';
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
  WHAT_IF_REQUEST,
  type WhatIfParams,
  type WhatIfResult,
} from './bench-view-protocol.ts';
import { type ComparedStates, createBases, ownBefore, whenRead } from './compared-states.ts';
import { fileKey } from './file-key.ts';
import { findPickups } from './find.ts';
import type { AnswerOwn } from './guard.ts';
import { inSlices } from './in-slices.ts';
import { slice } from './pace.ts';
import { benchPage, cardPages } from './page.ts';
import { plannedBefore } from './plan-view.ts';
import { plansAt } from './plans.ts';
import { sectionOf } from './sections.ts';
import type { Session } from './session.ts';
import { sound } from './sound.ts';
import { movedStates } from './what-if.ts';
import { whatIfState } from './what-if-state.ts';

type Asked = Pick<SectionParams, 'uri' | 'base' | 'among'> & { readonly subject?: SectionParams['subject'] };

/** Requests of the bench view: one section each, so that whatever is typed meanwhile comes between them. */
export function serveBench(own: AnswerOwn, session: Session, t: Language): void {
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
    const found = await session.whenAnalysed(uri);
    if (!found) return undefined;
    const { document, analysis: now } = found;
    const before = base ? await bases.before(base, now) : subject && ownBefore(now, subject);
    return { t, document, now, before, ...given({ among: among && (await analysesOf([uri, ...among])) }) };
  };
  own<SectionParams, SectionResult | null>(SECTION_REQUEST, 'bench view', null, async (params, token) => {
    const states = await statesOf(params);
    if (states && params.section === 'plan') await inSlices(plannedBefore(states, params.subject), token);
    if (token.isCancellationRequested) return null;
    const content = states && isSectionName(params.section) ? sectionOf(params.section, states, params) : undefined;
    return states && content ? { uri: params.uri, version: states.document.version, content } : null;
  });
  own<PageParams, PageResult>(PAGE_REQUEST, 'page', {}, async (params, token) => {
    const states = await statesOf(params);
    if (states) await inSlices(plannedBefore(states, params.subject), token);
    return states && !token.isCancellationRequested
      ? { html: await benchPage(states, params, session.files.photoBytes) }
      : {};
  });
  const noCards = { pages: [], leftOut: [] };
  own<CardsParams, CardsResult>(CARDS_REQUEST, 'cards', noCards, async (params) => {
    const states = await statesOf(params);
    return states ? cardPages(states, params, session.files.photoBytes) : noCards;
  });
  const silence = { sampleRate: 48_000 };
  own<SoundParams, SoundResult>(SOUND_REQUEST, 'sound', silence, async (params) => {
    const states = await statesOf(params);
    const { subject, settings } = params;
    const heard = states && settings ? movedStates(states, subject, settings)?.states : states;
    return heard ? sound(heard, params) : silence;
  });
  own<WhatIfParams, WhatIfResult>(WHAT_IF_REQUEST, 'what if', {}, async (params) => {
    const states = await statesOf(params);
    return given({ state: states && whatIfState(states, params) });
  });
  own<PlansParams, PlansResult>(PLANS_REQUEST, 'plans', { plans: [] }, async (params, token) => {
    const found = await session.whenAnalysed(params.uri, token);
    const textOf = (uri: string) => session.files.document(uri);
    return { plans: found ? plansAt({ ...found, textOf }, params, t) : [] };
  });
  const nothingFound = { found: [], isFiltered: false, examples: [], cautions: [] };
  own<FindParams, FindResult>(FIND_REQUEST, 'find', nothingFound, (params, token) => {
    let isOver = slice();
    const goOn = async (): Promise<boolean> => {
      if (isOver()) {
        await new Promise((resolve) => setTimeout(resolve, 0));
        isOver = slice();
      }
      return !token.isCancellationRequested;
    };
    return findPickups({ session, goOn, t }, params);
  });
}
