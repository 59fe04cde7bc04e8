/** The steps of the first lesson in their order; the walkthrough of the manifest names the same. */
export const LESSON_STEPS = ['open', 'look', 'mend', 'read', 'why', 'compare', 'print', 'keep'] as const;

export type LessonStep = (typeof LESSON_STEPS)[number];

/** The context key that is set when a step has happened. */
export const contextOf = (step: LessonStep): string => `pickup.lesson.${step}`;

/** As the card at the bench has them; the last one cannot be. */
export const LESSON_READINGS: readonly string[] = [
  'readings "on the bench" 2026-11-20 {',
  '  room 21 degC',
  '  screw 4.15 kohm',
  '  slug 4.12 kohm',
  '  hot to ground 4.15 kohm',
  '}',
];

/** What the lesson's file is like at a moment. */
export interface LessonState {
  readonly text: string;
  readonly codes: readonly string[];
  readonly hasErrors: boolean;
}

const MISTAKE = 'phase/coils-cancel';
const READINGS = [/^\s*screw\s+\d/m, /^\s*slug\s+\d/m, /^\s*hot to ground\s+\d/m];

/** What has happened by writing, by what the file was before and what it is now. */
export function stepsWritten(before: LessonState | undefined, now: LessonState): readonly LessonStep[] {
  const hadMistake = before?.codes.includes(MISTAKE) === true;
  const isMended = hadMistake && !now.hasErrors && ['coil screw', 'coil slug'].every((each) => now.text.includes(each));
  const isRead = !now.hasErrors && READINGS.every((reading) => reading.test(now.text));
  return [
    ...(now.codes.includes(MISTAKE) ? (['open'] as const) : []),
    ...(isMended ? (['mend'] as const) : []),
    ...(isRead ? (['read'] as const) : []),
  ];
}
