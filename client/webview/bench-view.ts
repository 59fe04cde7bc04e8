import type { ComparisonView, Pots, Section } from '../../server/src/lsp/protocol.ts';
import type { FromView, ShownDrawing, Side, ToView, ViewState } from '../src/features/bench-view/messages.ts';
import { changesSection, settledItems } from './changes.ts';
import { createChoice } from './choice.ts';
import { element } from './element.ts';
import { findingsSection } from './findings.ts';
import { commandButton, createHeader } from './header.ts';
import { lineButton } from './line-button.ts';
import { createListen } from './listen.ts';
import { missingSection } from './missing.ts';
import { numbersSection } from './numbers.ts';
import { createPlot } from './plot.ts';
import { pngOf } from './png.ts';
import { createPots } from './pots.ts';
import { table } from './table.ts';
import { createFigure } from './wiring-figure.ts';
import { createZoom } from './zoom.ts';

export interface Bench {
  show(message: ToView): void;
  /** Width that a drawing has on screen, in px. */
  width(): number;
}

interface Around {
  readonly send: (message: FromView) => void;
  readonly remembered: ViewState | undefined;
  readonly remember: (state: ViewState) => void;
}

/** Below this the narrow sheet is drawn. */
const WIDE_FROM = 880;
const FULL_UP: Pots = { volume: 10, tone: 10 };

/** The page: heading, findings, drawing, numbers, response, positions, readings. What has not changed stays where it is. */
export function createBench(root: HTMLElement, { send, remembered, remember }: Around): Bench {
  let shown: ShownDrawing | undefined;
  let comparison: ComparisonView | undefined;
  let side: Side = remembered?.side ?? 'both';
  let lastRender = 0;
  let wide = root.clientWidth >= WIDE_FROM;

  const stale = element('p', { className: 'stale', role: 'status', hidden: true });
  const findings = element('section', { ariaLabel: 'Findings' });
  const changes = element('section', { ariaLabel: 'Changed facts', hidden: true });
  const past = createFigure('A before', 'before', send);
  const now = createFigure('B now', 'now', send);
  const joints = element('details', { hidden: true });
  const numbers = element('section', { ariaLabel: 'Numbers' });
  const response = createPlot('Response', 'response');
  const positions = createPlot('Positions', 'positions');
  const missing = element('section', { ariaLabel: 'Readings', hidden: true });
  const choice = createChoice('position', 'position', (id) => send({ type: 'position', position: id || undefined }));
  const pots = createPots(remembered?.pots ?? FULL_UP, (turned) => send({ type: 'pots', pots: turned }));
  const listen = createListen(send);
  const zoom = createZoom([past.frame, now.frame], remembered?.zoom ?? 100, () => keep());
  const header = createHeader({
    send,
    sideChosen: (chosen) => {
      side = chosen;
      place();
      keep();
    },
    tools: [zoom.buttons],
  });
  const png = element('button', { className: 'plain', type: 'button', textContent: 'PNG' });
  const exports = element('div', { className: 'exports', role: 'group', ariaLabel: 'Save the drawing' }, [
    element('span', { className: 'q', textContent: 'save as' }),
    commandButton('SVG', 'exportSvg', send),
    png,
    commandButton('HTML', 'exportHtml', send),
  ]);
  root.replaceChildren(
    header.node,
    stale,
    findings,
    changes,
    element('div', { className: 'drawings' }, [past.figure, now.figure]),
    joints,
    element('div', { className: 'cols' }, [
      numbers,
      element('div', {}, [response.section, element('div', { className: 'ctl' }, [choice.node, pots.node])]),
    ]),
    positions.section,
    listen.section,
    missing,
    exports,
  );

  // The page grows as the numbers come; until the reader moves, it is held where it was before the reload.
  let wantedTop = remembered?.scrollTop;
  const backToPlace = (): void => {
    if (wantedTop !== undefined) document.scrollingElement?.scrollTo({ top: wantedTop, behavior: 'instant' });
  };
  for (const kind of ['wheel', 'keydown', 'pointerdown'] as const) {
    document.addEventListener(
      kind,
      () => {
        wantedTop = undefined;
      },
      { passive: true },
    );
  }
  const keep = (): void => {
    if (shown === undefined) return;
    const { uri, subject, position, base } = shown;
    remember({
      uri,
      side,
      pots: shown.pots,
      zoom: zoom.percent(),
      scrollTop: wantedTop ?? document.scrollingElement?.scrollTop ?? 0,
      ...(subject === undefined ? {} : { subject }),
      ...(position === undefined ? {} : { position }),
      ...(base === undefined ? {} : { base }),
    });
  };
  const warn = (text: string, line?: number): void => {
    stale.replaceChildren(text, ...(line === undefined ? [] : [lineButton(line, send)]));
    stale.hidden = false;
  };
  /** Which of the two drawings is in sight, and what is marked in them. */
  const place = (): void => {
    const compared = shown?.comparedWith !== undefined && comparison?.svg !== undefined;
    past.figure.hidden = !compared || side === 'now';
    now.figure.hidden = compared && side === 'before';
    past.caption(compared);
    now.caption(compared);
    past.mark(compared ? (comparison?.changedBefore ?? []) : []);
    now.mark(compared ? (comparison?.changedNow ?? []) : []);
  };
  const showFindings = (drawing: ShownDrawing): void => {
    const settled =
      comparison && drawing.comparedWith !== undefined ? settledItems(comparison, drawing.comparedWith) : [];
    findings.replaceChildren(...findingsSection(drawing.findings, settled, comparison?.come ?? [], send));
  };
  const draw = (next: ShownDrawing, part: string | undefined): void => {
    const isFirst = shown === undefined;
    const isOther =
      shown?.uri !== next.uri ||
      shown.subject?.kind !== next.subject?.kind ||
      shown.subject?.name !== next.subject?.name;
    if (next.comparedWith === undefined) {
      comparison = undefined;
      changes.hidden = true;
    }
    if (isOther) clearFollowing();
    shown = next;
    header.show(next, side);
    if (next.broken) {
      warn(
        `Line ${next.broken.line + 1} does not read yet: ${next.broken.message} The drawing may be older than the text.`,
        next.broken.line,
      );
    } else stale.hidden = true;
    showFindings(next);
    now.show(next.svg, next.parts);
    place();
    joints.hidden = next.table === undefined;
    if (next.table)
      joints.replaceChildren(element('summary', { textContent: 'The same as a table' }), table(next.table, 'lt'));
    choice.show(positionOptions(next), next.position ?? '');
    pots.node.hidden = !next.hasPots;
    pots.show(next.pots);
    now.highlight(part);
    if (isFirst && remembered?.uri !== next.uri) wantedTop = undefined;
    keep();
  };
  /** Another pickup: the numbers of the one before are none of its own. */
  const clearFollowing = (): void => {
    numbers.replaceChildren();
    response.show({});
    listen.show(false, undefined, []);
    positions.show({});
    missing.hidden = true;
  };
  const showSection = (content: Section): void => {
    switch (content.section) {
      case 'comparison':
        comparison = content;
        past.show(content.svg, []);
        changes.hidden = false;
        changes.replaceChildren(...changesSection(content, shown?.comparedWith ?? '', send));
        if (shown) showFindings(shown);
        place();
        return;
      case 'missing':
        missing.hidden = false;
        missing.replaceChildren(...missingSection(content.readings, send));
        return;
      case 'numbers':
        numbers.replaceChildren(...numbersSection(content, { before: shown?.comparedWith }));
        return;
      case 'response': {
        const isOther = content.svg !== response.source();
        response.show(content);
        listen.show(
          content.svg !== undefined,
          comparison === undefined ? undefined : shown?.comparedWith,
          content.leftOut,
        );
        if (isOther) listen.changed();
        return;
      }
      case 'positions':
        positions.show(content);
    }
  };
  const guarded = (what: string, act: () => void): void => {
    try {
      act();
      backToPlace();
    } catch (error) {
      warn(`${what} could not be shown: ${error instanceof Error ? error.message : String(error)}`);
    }
  };

  const paint = (): void => {
    const source = now.source();
    if (source === undefined) return;
    pngOf(source).then(
      (picture) => send({ type: 'picture', png: picture }),
      (error: unknown) => warn(`No picture could be made: ${error instanceof Error ? error.message : String(error)}`),
    );
  };
  png.addEventListener('click', paint);
  document.addEventListener('scroll', keep, { passive: true });
  new ResizeObserver(() => {
    const isWide = root.clientWidth >= WIDE_FROM;
    if (isWide === wide) return;
    wide = isWide;
    send({ type: 'resized', width: root.clientWidth });
  }).observe(root);
  return {
    width: () => root.clientWidth,
    show: (message) => {
      switch (message.type) {
        case 'drawing':
          if (message.render < lastRender) return;
          lastRender = message.render;
          guarded('The drawing', () => draw(message.drawing, message.part));
          return;
        case 'section':
          // Of an older drawing: a newer one is on its way.
          if (message.render === lastRender)
            guarded(`The ${message.content.section}`, () => showSection(message.content));
          return;
        case 'highlight':
          now.highlight(message.part);
          return;
        case 'sound':
          listen.play(message.sound);
          return;
        case 'paint':
          paint();
          return;
        case 'failed':
          warn(message.message);
      }
    },
  };
}

function positionOptions({ positions, subject }: ShownDrawing) {
  const options = positions.map(({ id, label }) => ({ id, label }));
  return subject?.kind === 'pickup' && options.length > 0 ? [{ id: '', label: 'by itself' }, ...options] : options;
}
