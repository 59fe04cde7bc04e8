import type { Event, Uri } from 'vscode';
import type { Section, SectionName } from '../../../../server/src/lsp/protocol.ts';
import type { DrawingMessage, ShownSubject } from './bench-view-panel.ts';
import type { BaseChoice, FromView, ShownDrawing } from './messages.ts';

/** For tests: what the bench view shows, and what a click in it does. */
export interface BenchViewInterface {
  /** The last drawing that was sent to the open bench view. */
  shown(): DrawingMessage | undefined;
  /** The last of the sections that follow it. */
  section<N extends SectionName>(name: N): Section<N> | undefined;
  /** As if the view had sent it. */
  receive(message: FromView): Promise<void>;
}

/** For other features: the one bench view. */
export interface BenchViewControl extends BenchViewInterface {
  readonly onDidDraw: Event<ShownDrawing>;
  /** Compares the file shown, or `target` where it is named; opens the view where it is not open. */
  compare(choice: BaseChoice, target: Uri | undefined): Promise<void>;
  endComparison(): Promise<void>;
  subject(): ShownSubject | undefined;
  /** Lets the view paint its drawing; the picture is then saved. */
  paint(): void;
}
