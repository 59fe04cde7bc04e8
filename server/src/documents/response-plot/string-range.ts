/** The strings under the frequency axis: from the open ones to the highest note. */

import type { TunedString } from '../../estimates/tuning.ts';
import type { Language } from '../../words/languages/language.ts';
import { type Block, part } from '../drawing-sheet.ts';
import { wordsAt } from '../labels.ts';
import { d, path } from '../svg.ts';
import { textWidth } from '../text-width.ts';
import type { Axes } from './axes.ts';

const HIGHEST_FRET = 24;

export function stringRange(axes: Axes, strings: readonly TunedString[], top: number, t: Language): Block {
  const tones = strings.map(({ fundamentalHz }) => fundamentalHz);
  if (tones.length === 0) return { nodes: [], bottom: axes.bottom + 26 };
  const [lowest, highest] = [Math.min(...tones), Math.max(...tones)];
  const end = axes.x(highest * 2 ** (HIGHEST_FRET / 12));
  const fret = String(HIGHEST_FRET);
  const wordings = [t('to fret {0}; harmonics go on to the right', fret), t('to fret {0}', fret)];
  const words = wordings.find((text) => end + 10 + textWidth(text, { size: 12 }) <= axes.right + 8) ?? '';
  const nodes = [
    wordsAt(t('strings'), axes.area.x - 10, top + 4, { quiet: true, anchor: 'end' }),
    path('now', d`M${axes.x(lowest)} ${top}H${end}`),
    path('w2', tones.map((hz) => d`M${axes.x(hz)} ${top - 5}v10`).join('')),
    ...strings.map(({ note, fundamentalHz }) =>
      wordsAt(note, axes.x(fundamentalHz), top + 20, { quiet: true, anchor: 'middle' }),
    ),
    wordsAt(words, end + 10, top + 4, { quiet: true }),
  ];
  const spoken = t(
    'Open strings from {0} to {1} hertz, to fret {2}',
    String(Math.round(lowest)),
    String(Math.round(highest)),
    fret,
  );
  return { nodes: [part('strings', spoken, ...nodes)], bottom: top + 26 };
}
