import { SECTION_NAMES, SECTIONS, SLIM_BELOW, WIDE_FROM } from '../../server/src/lsp/protocol.ts';
import type { ShownDrawing, ToView } from '../src/features/bench-view/messages.ts';
import { settledItems } from './changes.ts';
import { createChoice } from './choice.ts';
import { createDrawings } from './drawings.ts';
import { button, element } from './element.ts';
import { cautionsSection, findingsSection } from './findings.ts';
import { commandButton, createHeader } from './header.ts';
import { invitationSection } from './invitation.ts';
import { createListen, heardAsShown } from './listen.ts';
import { createNotice } from './notice.ts';
import type { Around, PageState, Send } from './page-parts.ts';
import { pngOf } from './png.ts';
import { createPots } from './pots.ts';
import { createScrollPlace } from './scroll-place.ts';
import { createSections } from './sections.ts';
import { foldedTable } from './table.ts';
import { createWhatIf } from './what-if.ts';
import { t } from './words.ts';

/** The page: heading, findings, drawing, numbers, response, positions, readings. What has not changed stays where it is. */
export class BenchView {
  private readonly root: HTMLElement;
  private readonly around: Around;
  private readonly state: PageState = { drawing: undefined, comparison: undefined };
  private readonly findings = element('section', { ariaLabel: t('Findings') });
  private readonly columns = element('div', { className: 'cols' });
  private readonly invitation = element('section', { ariaLabel: t('To begin with'), hidden: true });
  private readonly joints = element('details', { hidden: true });
  private readonly notice;
  private readonly scroll;
  private readonly drawings;
  private readonly header;
  private readonly choice;
  private readonly pots;
  private readonly listen;
  private readonly whatIf;
  private readonly sections;
  private readonly exports;
  private lastRender = 0;

  constructor(root: HTMLElement, around: Around) {
    const { state } = this;
    const { send, remembered } = around;
    this.root = root;
    this.around = around;
    this.notice = createNotice(send);
    this.scroll = createScrollPlace(remembered?.places);
    this.drawings = createDrawings({
      state,
      send,
      start: { side: remembered?.side, zoom: remembered?.zoom },
      zoomed: () => this.keep(),
    });
    this.header = createHeader({
      send,
      sideChosen: (side) => {
        this.drawings.choose(side);
        this.keep();
      },
      tools: [this.drawings.zoom.buttons],
    });
    this.choice = createChoice(t('position'), 'position', (id) =>
      send({ type: 'position', position: id || undefined }),
    );
    this.pots = createPots((pots) => send({ type: 'pots', pots }));
    this.listen = createListen(
      heardAsShown((frequencyHz) => send({ type: 'sound', frequencyHz, settings: undefined })),
    );
    this.whatIf = createWhatIf(send);
    this.sections = createSections({
      state,
      send,
      listen: this.listen,
      whatIf: this.whatIf,
      comparisonChanged: () => {
        this.drawings.before.show(state.comparison?.svg, []);
        this.showFindings();
        this.drawings.place();
      },
    });
    this.exports = exportButtons(send, () => this.paint());
    this.layOut();
    document.addEventListener('scroll', () => this.keep(), { passive: true });
    this.tellWidth();
  }

  /** Width that a drawing has on screen, in px. */
  width(): number {
    return this.root.clientWidth;
  }

  show(message: ToView): void {
    switch (message.type) {
      case 'drawing':
        if (message.render < this.lastRender) return;
        this.lastRender = message.render;
        this.guarded(t('The drawing could not be shown:'), () => this.draw(message.drawing, message.part));
        return;
      case 'section':
        // Of an older drawing: a newer one is on its way.
        if (message.render === this.lastRender)
          this.guarded(t('A part of the page could not be shown:'), () => this.sections.show(message.content));
        return;
      case 'highlight':
        this.drawings.now.highlight(message.part);
        return;
      case 'sound':
        (message.isWhatIf ? this.whatIf.listen : this.listen).play(message.sound);
        return;
      case 'what if':
        this.whatIf.settle(message.asked, message.state);
        return;
      case 'paint':
        this.paint();
        return;
      case 'failed':
        this.notice.warn(message.message);
    }
  }

  private layOut(): void {
    const { sections, choice, pots } = this;
    this.columns.replaceChildren(element('div', {}, sections.at('left')), element('div', {}, sections.at('right')));
    this.root.replaceChildren(
      this.header.node,
      // In sight wherever the page is scrolled to: the drawing, the response and the numbers all follow it.
      element('div', { className: 'ctl' }, [choice.node, pots.node]),
      this.notice.node,
      this.findings,
      ...sections.at('above the drawing'),
      this.invitation,
      this.drawings.node,
      this.joints,
      this.columns,
      ...sections.at('below'),
      this.listen.section,
      ...sections.at('last'),
      this.exports,
    );
  }

  private draw(next: ShownDrawing, part: string | undefined): void {
    const { state, drawings, joints } = this;
    const before = state.drawing;
    const isOther = before?.uri !== next.uri || !isSame(before.subject, next.subject);
    for (const name of SECTION_NAMES) {
      const isGone = SECTIONS[name].needs === 'base' && next.comparedWith === undefined;
      if (isOther || isGone) this.sections.clear(name);
    }
    state.drawing = next;
    this.scroll.turnTo(`${next.uri} ${next.subject?.kind} ${next.subject?.name}`);
    this.header.show(next, drawings.side());
    this.notice.clear();
    if (next.broken) {
      // What is wrong with it stands among the findings below.
      const { line } = next.broken;
      this.notice.warn(t('Line {0} does not read yet. The drawing may be older than the text.', line + 1), line);
    }
    this.showFindings();
    this.invite(next);
    drawings.now.show(next.svg, next.parts);
    drawings.place();
    joints.hidden = next.table === undefined;
    if (next.table) joints.replaceChildren(...foldedTable(t('The same as a table'), next.table, 'lt'));
    this.choice.show(positionOptions(next), next.position ?? '');
    this.pots.show(next.knobs, next.pots);
    drawings.now.highlight(part);
    this.keep();
  }

  /** A file with nothing to draw says so; nothing of another file is left standing. */
  private invite({ svg, invitation, findings }: ShownDrawing): void {
    this.invitation.hidden = invitation === undefined;
    this.invitation.replaceChildren(...(invitation ? invitationSection(invitation, this.around.send) : []));
    this.findings.hidden = invitation !== undefined && findings.length === 0;
    this.exports.hidden = svg === undefined;
    this.drawings.zoom.buttons.hidden = svg === undefined;
    this.columns.hidden = this.state.drawing?.subject === undefined || this.state.drawing.subject.kind === 'parts';
  }

  private showFindings(): void {
    const { drawing, comparison } = this.state;
    if (drawing === undefined) return;
    const settled =
      comparison && drawing.comparedWith !== undefined ? settledItems(comparison, drawing.comparedWith) : [];
    this.findings.replaceChildren(
      findingsSection(drawing.findings, settled, comparison?.come ?? [], this.around.send),
      ...(drawing.cautions.length === 0 ? [] : [cautionsSection(drawing.cautions)]),
    );
  }

  private keep(): void {
    const { drawing } = this.state;
    if (drawing === undefined) return;
    const { uri, subject, position, base, pots } = drawing;
    const { zoom, chosen } = this.drawings;
    const places = this.scroll.places();
    this.around.remember({ uri, pots, zoom: zoom.percent(), places, side: chosen(), subject, position, base });
  }

  private guarded(what: string, act: () => void): void {
    try {
      act();
      this.scroll.hold();
    } catch (error) {
      this.notice.warn(`${what} ${wordsOf(error)}`);
    }
  }

  private paint(): void {
    const source = this.drawings.now.source();
    if (source === undefined) return;
    pngOf(source).then(
      (picture) => this.around.send({ type: 'picture', png: picture }),
      (error: unknown) => this.notice.warn(`${t('No picture could be made:')} ${wordsOf(error)}`),
    );
  }

  /** The drawings have two widths and plots three; going from one to another, they are asked for anew. */
  private tellWidth(): void {
    const step = (): number => [SLIM_BELOW, WIDE_FROM].filter((from) => this.width() >= from).length;
    let told = step();
    new ResizeObserver(() => {
      if (step() === told) return;
      told = step();
      this.around.send({ type: 'resized', width: this.width() });
    }).observe(this.root);
  }
}

const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

const isSame = (a: ShownDrawing['subject'], b: ShownDrawing['subject']): boolean =>
  a?.kind === b?.kind && a?.name === b?.name;

function exportButtons(send: Send, paint: () => void): HTMLElement {
  return element('div', { className: 'exports', role: 'group', ariaLabel: t('Save the drawing') }, [
    element('span', { className: 'q', textContent: t('save as') }),
    commandButton('SVG', 'exportSvg', send),
    button('PNG', paint),
    commandButton('HTML', 'exportHtml', send),
  ]);
}

function positionOptions({ positions, subject }: ShownDrawing) {
  const options = positions.map(({ id, label }) => ({ id, label }));
  return subject?.kind === 'pickup' && options.length > 0 ? [{ id: '', label: t('by itself') }, ...options] : options;
}
