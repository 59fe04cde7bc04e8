import type { FromView, ShownDrawing, ToView, ViewState } from '../src/features/preview/messages.ts';
import { adoptDrawing, type PlacedDrawing } from './drawing.ts';
import { element } from './element.ts';
import { findingsSection } from './findings.ts';
import { jointsTable } from './joints.ts';

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
const WIDE_FROM = 720;
const ZOOMS = [50, 75, 100, 125, 150, 200, 300] as const;

/** The page: heading, findings, drawing, table of joints. What has not changed stays where it is. */
export function createBench(root: HTMLElement, { send, remembered, remember }: Around): Bench {
  // The drawing carries its own title; up here stands which one it is.
  const title = element('h1', {});
  const about = element('p', { className: 'q' });
  const chooser = element('select', { ariaLabel: 'Pickup', hidden: true });
  const stale = element('p', { className: 'stale', role: 'status', hidden: true });
  const findings = element('section', { ariaLabel: 'Findings' });
  const frame = element('div', { className: 'sheet-frame' });
  const joints = element('div', {});
  const zoom = createZoom(frame, remembered?.zoom ?? 100, () => keep());
  const header = element('header', { className: 'top' }, [
    element('div', {}, [title, about]),
    element('div', { className: 'tools' }, [chooser, zoom.buttons]),
  ]);
  root.replaceChildren(header, stale, findings, element('figure', {}, [frame]), joints);

  let shown: ShownDrawing | undefined;
  let drawing: PlacedDrawing | undefined;
  let lastRender = 0;
  let wide = root.clientWidth >= WIDE_FROM;
  const keep = (): void => {
    if (shown === undefined) return;
    const { uri, name } = shown;
    const scrollTop = document.scrollingElement?.scrollTop ?? 0;
    remember({ uri, ...(name === undefined ? {} : { name }), scrollTop, zoom: zoom.percent() });
  };
  const warn = (text: string, line?: number): void => {
    const button = line === undefined ? [] : [lineButton(line, send)];
    stale.replaceChildren(text, ...button);
    stale.hidden = false;
  };
  const draw = (next: ShownDrawing, part: string | undefined): void => {
    const isFirst = shown === undefined;
    shown = next;
    title.textContent = next.name ?? next.file;
    about.textContent = next.name === undefined ? '' : next.file;
    fillChooser(chooser, next);
    if (next.broken) {
      warn(
        `Line ${next.broken.line + 1} does not read yet: ${next.broken.message} The drawing may be older than the text.`,
        next.broken.line,
      );
    } else stale.hidden = true;
    findings.replaceChildren(...findingsSection(next.findings, send));
    // The same drawing again is left alone, with its focus and its place.
    if (drawing === undefined || drawing.source !== next.svg) drawing = adoptDrawing(frame, next, drawing, send);
    joints.replaceChildren(...jointsTable(next.joints));
    drawing?.highlight(part);
    if (isFirst && remembered?.uri === next.uri && remembered.scrollTop !== undefined) {
      document.scrollingElement?.scrollTo({ top: remembered.scrollTop, behavior: 'instant' });
    }
    keep();
  };

  chooser.addEventListener('change', () => send({ type: 'choose', name: chooser.value }));
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
          try {
            draw(message.drawing, message.part);
          } catch (error) {
            warn(`The drawing could not be shown: ${error instanceof Error ? error.message : String(error)}`);
          }
          return;
        case 'highlight':
          drawing?.highlight(message.part);
          return;
        case 'failed':
          warn(message.message);
      }
    },
  };
}

export function lineButton(line: number, send: (message: FromView) => void): HTMLButtonElement {
  const button = element('button', { className: 'lk', type: 'button', textContent: `line ${line + 1}` });
  button.addEventListener('click', () => send({ type: 'reveal line', line }));
  return button;
}

function fillChooser(chooser: HTMLSelectElement, { pickups, name }: ShownDrawing): void {
  chooser.hidden = pickups.length < 2;
  chooser.replaceChildren(
    ...pickups.map((pickup) =>
      element('option', { value: pickup.name, textContent: pickup.title, selected: pickup.name === name }),
    ),
  );
}

function createZoom(frame: HTMLElement, start: number, changed: () => void) {
  let percent: number = ZOOMS.find((step) => step === start) ?? 100;
  const label = element('output', { ariaLabel: 'Zoom', textContent: `${percent} %` });
  const apply = (): void => {
    frame.style.setProperty('--zoom', String(percent / 100));
    label.textContent = `${percent} %`;
  };
  const step = (by: 1 | -1) => () => {
    const at = ZOOMS.findIndex((step) => step >= percent) + by;
    percent = ZOOMS[Math.min(Math.max(at, 0), ZOOMS.length - 1)] ?? 100;
    apply();
    changed();
  };
  const button = (text: string, name: string, by: 1 | -1): HTMLButtonElement => {
    const made = element('button', { className: 'zoom', type: 'button', textContent: text, ariaLabel: name });
    made.addEventListener('click', step(by));
    return made;
  };
  apply();
  return {
    buttons: element('div', { className: 'zooms', role: 'group', ariaLabel: 'Zoom' }, [
      button('−', 'Smaller', -1),
      label,
      button('+', 'Larger', 1),
    ]),
    percent: () => percent,
  };
}
