import type { ResponseView, SoundResult } from '../../server/src/lsp/protocol.ts';
import { bothSides, createChoice, type Option } from './choice.ts';
import { button, element } from './element.ts';
import { createPlayer } from './player.ts';
import { t } from './words.ts';

export interface Listen {
  readonly section: HTMLElement;
  /** `before`: what the state compared with is called. */
  show(response: ResponseView, before: string | undefined): void;
  hide(): void;
  /** What is heard has changed: while a string rings, it goes on through the new one. */
  changed(): void;
  play(sound: SoundResult): void;
}

/** What is listened to: the two states as they are called, and what a pluck asks for. */
interface Heard {
  readonly title: string;
  /** Told apart from other choices of the page. */
  readonly name: string;
  readonly sides: readonly Option[];
  readonly loud: string;
  ask(frequencyHz: number): void;
}

/** The state that is shown, and the one compared with. */
export const heardAsShown = (ask: Heard['ask']): Heard => ({
  title: t('Listen'),
  name: 'heard',
  sides: bothSides(),
  loud: t('Before and now are as loud as each other.'),
  ask,
});

/** A plucked string through what is shown. Silent until the button is pressed. */
export function createListen({ title, name, sides: options, loud: asLoud, ask: askFor }: Heard): Listen {
  const player = createPlayer();
  let side: 'before' | 'now' = 'now';
  const ask = (): void => askFor(Number(string.value));
  const pluck = button(t('Pluck'), () => {
    // The press is what lets a page sound at all.
    player.open();
    player.stop();
    ask();
  });
  const string = element('select', { ariaLabel: t('String') });
  const sides = createChoice(t('hear'), name, (id) => {
    side = id === 'before' ? 'before' : 'now';
    player.hear(side);
  });
  const notes = element('div', { className: 'q' });
  const status = element('p', { role: 'status' });
  const section = element('section', { ariaLabel: title, hidden: true }, [
    element('h2', { textContent: title }),
    element('div', { className: 'listen' }, [pluck, button(t('Stop'), () => player.stop()), string, sides.node]),
    status,
    notes,
  ]);
  const hide = (): void => {
    section.hidden = true;
    player.stop();
  };
  return {
    section,
    hide,
    show: ({ svg, leftOut, strings, isMeasured }, before) => {
      if (svg === undefined) return hide();
      section.hidden = false;
      fillStrings(string, strings);
      const loud = before === undefined ? [] : [asLoud];
      const plucked = isMeasured
        ? t('Silent until you pluck. A string through the response as measured, position and pots where they are.')
        : t('Silent until you pluck. A string through the computed response, position and pots where they are.');
      const how = [plucked, ...loud].join(' ');
      notes.replaceChildren(...[how, ...leftOut].map((text) => element('p', { textContent: text })));
      sides.show(before === undefined ? [] : options, side);
      if (before === undefined && side === 'before') {
        side = 'now';
        player.hear('now');
      }
    },
    changed: () => {
      if (player.isRinging()) ask();
    },
    play: (sound) => {
      status.textContent =
        sound.now === undefined
          ? t('Nothing can be heard: the response is unknown.')
          : sound.isSilent
            ? t('Silent: nothing reaches the jack.')
            : '';
      player.play(sound, side);
    },
  };
}

/** The strings that the spec says; the chosen one stays chosen where it is still there. */
function fillStrings(select: HTMLSelectElement, strings: ResponseView['strings']): void {
  const chosen = select.value;
  select.replaceChildren(
    ...strings.map(({ name, hz }) =>
      element('option', { value: String(hz), textContent: t('string {0}', name), selected: String(hz) === chosen }),
    ),
  );
}
