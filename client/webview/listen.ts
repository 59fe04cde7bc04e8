import type { ResponseView, SoundResult } from '../../server/src/lsp/protocol.ts';
import { BOTH_SIDES, createChoice } from './choice.ts';
import { button, element } from './element.ts';
import type { Send } from './page-parts.ts';
import { createPlayer } from './player.ts';

export interface Listen {
  readonly section: HTMLElement;
  /** `before`: what the state compared with is called. */
  show(response: ResponseView, before: string | undefined): void;
  hide(): void;
  /** What is heard has changed: while a string rings, it goes on through the new one. */
  changed(): void;
  play(sound: SoundResult): void;
}

/** A plucked string through what is shown. Silent until the button is pressed. */
export function createListen(send: Send): Listen {
  const player = createPlayer();
  let side: 'before' | 'now' = 'now';
  const ask = (): void => send({ type: 'sound', frequencyHz: Number(string.value) });
  const pluck = button('Pluck', () => {
    // The press is what lets a page sound at all.
    player.open();
    player.stop();
    ask();
  });
  const string = element('select', { ariaLabel: 'String' });
  const sides = createChoice('hear', 'heard', (id) => {
    side = id === 'before' ? 'before' : 'now';
    player.hear(side);
  });
  const notes = element('div', { className: 'q' });
  const status = element('p', { role: 'status' });
  const section = element('section', { ariaLabel: 'Listen', hidden: true }, [
    element('h2', { textContent: 'Listen' }),
    element('div', { className: 'listen' }, [pluck, button('Stop', () => player.stop()), string, sides.node]),
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
    show: ({ svg, leftOut, strings }, before) => {
      if (svg === undefined) return hide();
      section.hidden = false;
      fillStrings(string, strings);
      const loud = before === undefined ? '' : ' Before and now are as loud as each other.';
      const how = `Silent until you pluck. A string through the computed response, position and pots where they are.${loud}`;
      notes.replaceChildren(...[how, ...leftOut].map((text) => element('p', { textContent: text })));
      sides.show(before === undefined ? [] : BOTH_SIDES, side);
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
          ? 'Nothing can be heard: the response is unknown.'
          : sound.isSilent
            ? 'Silent: nothing reaches the jack.'
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
      element('option', { value: String(hz), textContent: `string ${name}`, selected: String(hz) === chosen }),
    ),
  );
}
