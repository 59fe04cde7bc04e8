import type { SoundResult } from '../../server/src/lsp/protocol.ts';
import type { FromView } from '../src/features/bench-view/messages.ts';
import { createChoice } from './choice.ts';
import { element } from './element.ts';
import { createPlayer } from './player.ts';

export interface Listen {
  readonly section: HTMLElement;
  /** `before`: what the state compared with is called. */
  show(canHear: boolean, before: string | undefined, leftOut: readonly string[]): void;
  /** What is heard has changed: while a string rings, it goes on through the new one. */
  changed(): void;
  play(sound: SoundResult): void;
}

/** Open strings in the usual tuning; fundamentals in Hz on A4 = 440 Hz, equal temperament (ISO 16:1975). */
const STRINGS = [
  { name: '6, low E', hz: 82.41 },
  { name: '5, A', hz: 110 },
  { name: '4, D', hz: 146.83 },
  { name: '3, G', hz: 196 },
  { name: '2, B', hz: 246.94 },
  { name: '1, high E', hz: 329.63 },
] as const;

/** A plucked string through what is shown. Silent until the button is pressed. */
export function createListen(send: (message: FromView) => void): Listen {
  const player = createPlayer();
  let side: 'before' | 'now' = 'now';
  const pluck = element('button', { className: 'plain', type: 'button', textContent: 'Pluck' });
  const stop = element('button', { className: 'plain', type: 'button', textContent: 'Stop' });
  const string = element(
    'select',
    { ariaLabel: 'String' },
    STRINGS.map(({ name, hz }) => element('option', { value: String(hz), textContent: `string ${name}` })),
  );
  const sides = createChoice('hear', 'heard', (id) => {
    side = id === 'before' ? 'before' : 'now';
    player.hear(side);
  });
  const notes = element('div', { className: 'q' });
  const status = element('p', { role: 'status' });
  const section = element('section', { ariaLabel: 'Listen', hidden: true }, [
    element('h2', { textContent: 'Listen' }),
    element('div', { className: 'listen' }, [pluck, stop, string, sides.node]),
    status,
    notes,
  ]);
  const ask = (): void => send({ type: 'sound', frequencyHz: Number(string.value) });
  pluck.addEventListener('click', () => {
    // The press is what lets a page sound at all.
    player.open();
    player.stop();
    ask();
  });
  stop.addEventListener('click', () => player.stop());
  return {
    section,
    show: (canHear, before, leftOut) => {
      section.hidden = !canHear;
      const loud = before === undefined ? '' : ' Before and now are as loud as each other.';
      const how = `Silent until you pluck. A string through the computed response, position and pots where they are.${loud}`;
      notes.replaceChildren(...[how, ...leftOut].map((text) => element('p', { textContent: text })));
      if (!canHear) player.stop();
      sides.show(
        before === undefined
          ? []
          : [
              { id: 'before', label: 'A before' },
              { id: 'now', label: 'B now' },
            ],
        side,
      );
      if (before === undefined && side === 'before') {
        side = 'now';
        player.hear('now');
      }
    },
    changed: () => {
      if (player.isRinging()) ask();
    },
    play: (sound) => {
      status.textContent = sound.now === undefined ? 'Nothing can be heard: the response is unknown.' : '';
      player.play(sound, side);
    },
  };
}
