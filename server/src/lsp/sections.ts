import type { InstrumentAnalysis } from '../analysis/analysis-types.ts';
import { type NumbersTable, pickupNumbers, positionNumbers } from '../documents/bench/numbers-table.ts';
import { positionsPicture, positionsSheet, positionsTable } from '../documents/positions-sheet.ts';
import { pickupResponsePicture, positionResponsePicture } from '../documents/response-plot/from-model.ts';
import { type ResponsePicture, responsePlot, responseTable } from '../documents/response-plot/response-plot.ts';
import { type MissingReading, missingInstrumentReadings, missingPickupReadings } from '../features/missing-readings.ts';
import { LEFT_OUT } from '../sound/listen.ts';
import type { MissingRow, NumbersView, PlotView, Section, SectionParams } from './bench-view-protocol.ts';
import { type Before, type ComparedStates, instrumentNamed, nameBefore, pickupNamed } from './compared-states.ts';
import { comparisonView } from './comparison-view.ts';
import { heardAt, potsFrom } from './heard.ts';
import type { Subject } from './protocol-parts.ts';
import { toRange } from './to-protocol.ts';
import { WIDE_FROM } from './wiring-drawing.ts';

/** One section of the bench view; `undefined` where there is nothing to compare with. */
export function benchSection(states: ComparedStates, params: SectionParams): Section | undefined {
  const { section, subject } = params;
  switch (section) {
    case 'comparison':
      return states.before && { section, ...comparisonView(states, states.before, params) };
    case 'missing':
      return { section, readings: missingRows(states, subject) };
    case 'numbers':
      return { section, ...(numbersView(states, params) ?? { caption: 'Numbers', rows: [] }) };
    case 'response':
      return { section, leftOut: LEFT_OUT, ...responseView(states, params) };
    case 'positions':
      return { section, ...positionsView(states, params) };
    default:
      return undefined;
  }
}

export function missingRows({ document, now }: ComparedStates, { kind, name }: Subject): readonly MissingRow[] {
  const pickup = kind === 'pickup' ? pickupNamed(now, name) : undefined;
  const instrument = kind === 'instrument' ? instrumentNamed(now, name) : undefined;
  const readings: readonly MissingReading[] = pickup
    ? missingPickupReadings(now, pickup)
    : instrument
      ? missingInstrumentReadings(instrument)
      : [];
  return readings.map(({ place, ...row }) => {
    const at = now.locate(place);
    return { ...row, ...(at?.uri === now.uri ? { range: toRange(document, at) } : {}) };
  });
}

export function numbersView({ now, before }: ComparedStates, params: Heard): NumbersView | undefined {
  const { subject } = params;
  if (subject.kind === 'pickup') {
    const pickup = pickupNamed(now, subject.name);
    return pickup && pickupNumbers(pickup, before && pickupNamed(before.analysis, nameBefore(before, subject)));
  }
  const heard = heardAt(now, params);
  if (heard === undefined) return undefined;
  const table: NumbersTable | undefined = positionNumbers(heard.instrument, heard.position.key.value, {
    pots: potsFrom(params.pots),
    before: before && instrumentBefore(before, heard.instrument),
  });
  return table;
}

type Heard = Pick<SectionParams, 'subject' | 'position' | 'pots'>;

export function responseView(states: ComparedStates, params: Heard): PlotView {
  const picture = responsePicture(states, params);
  if (picture) return { svg: responsePlot(picture, 'narrow'), table: responseTable(picture) };
  return { why: WHY_NO_RESPONSE };
}

const WHY_NO_RESPONSE =
  'There is no response to draw: a coil lacks its turns, its bobbin or its wire; or nothing is left between hot and ground, because a joint is open, the coils cancel or the volume is down.';

/** The response at the jack in the position heard; of a pickup heard by itself, under the usual load. */
export function responsePicture({ now, before }: ComparedStates, params: Heard): ResponsePicture | undefined {
  const { subject } = params;
  const names = { before: before?.label ?? '', now: 'now' };
  const heard = heardAt(now, params);
  if (heard) {
    const past = before && instrumentBefore(before, heard.instrument);
    return positionResponsePicture({ analysis: now, instrument: heard.instrument }, heard.position.key.value, {
      pots: potsFrom(params.pots),
      names,
      before: before && past && { analysis: before.analysis, instrument: past },
    });
  }
  const pickup = subject.kind === 'pickup' ? pickupNamed(now, subject.name) : undefined;
  if (pickup === undefined) return undefined;
  const past = before && pickupNamed(before.analysis, nameBefore(before, subject));
  return pickupResponsePicture(
    { analysis: now, pickup },
    before && past && { analysis: before.analysis, pickup: past },
    names,
  );
}

export function positionsView({ now }: ComparedStates, params: Heard & Pick<SectionParams, 'width'>): PlotView {
  const heard = heardAt(now, params);
  if (heard === undefined) return {};
  const live = heard.position.key.value;
  const picture = positionsPicture(now, heard.instrument, { pots: potsFrom(params.pots), live });
  if (picture === undefined) return {};
  return {
    svg: positionsSheet(picture, params.width >= WIDE_FROM ? 'wide' : 'narrow'),
    table: positionsTable(picture),
  };
}

function instrumentBefore(before: Before, now: InstrumentAnalysis): InstrumentAnalysis | undefined {
  const { name } = now.instrument;
  return instrumentNamed(before.analysis, nameBefore(before, { kind: 'instrument', name }));
}
