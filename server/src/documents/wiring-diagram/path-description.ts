import { opposite } from '../../model/coil.ts';
import type { Language } from '../../words/languages/language.ts';
import type { CoilPicture, EndPicture, VerdictPicture } from './picture.ts';

/** The path from ground to hot in one breath, and what it means: for those who hear the drawing instead of seeing it. */
export function describePath(coils: readonly CoilPicture[], verdict: VerdictPicture | undefined, t: Language): string {
  const steps = coils.flatMap((coil) => (coil.entered === undefined ? [] : [stepThrough(coil, coil.entered, t)]));
  const idle = coils.filter(({ entered }) => entered === undefined).map(({ caption }) => caption.name);
  const inSeries = coils.every((coil, index) => {
    const next = coils[index + 1];
    return next === undefined || netOf(coil, 'out') === netOf(next, 'in');
  });
  const path =
    steps.length === 0
      ? t('No path leads from ground to hot.')
      : t('From ground: {0}, hot.', steps.join(t(inSeries ? ', then ' : '; beside it: ')));
  const unused = idle.length === 0 || steps.length === 0 ? [] : [t('Not in the path: {0}.', idle.join(', '))];
  const poles = coils.map(({ description }) => `${description}.`);
  const sound = verdict === undefined ? [] : [`${verdict.signal.heading}.`, `${verdict.hum.heading}.`];
  return [path, ...unused, ...poles, ...sound].join(' ');
}

function stepThrough(coil: CoilPicture, entered: 'start' | 'finish', t: Language): string {
  const [into, out] = entered === 'start' ? [coil.start, coil.finish] : [coil.finish, coil.start];
  const left = opposite(entered);
  const turn = t(coil.pathTurns ?? 'round it');
  return [
    ...(into.conductor === undefined ? [] : [into.conductor.name]),
    coil.endsTraced
      ? t(
          'to the {0} of the {1}, {2} to its {3}',
          `${t(entered)}${ownLead(into)}`,
          coil.caption.name,
          turn,
          `${t(left)}${ownLead(out)}`,
        )
      : t('through the {0}, {1}', coil.caption.name, turn),
    ...(out.conductor === undefined ? [] : [out.conductor.name]),
  ].join(', ');
}

function ownLead({ own }: EndPicture): string {
  return own === undefined ? '' : ` (${own.name})`;
}

function netOf(coil: CoilPicture, way: 'in' | 'out'): string | undefined {
  const startIn = (coil.entered ?? 'start') === 'start';
  return (way === 'in') === startIn ? coil.start.net : coil.finish.net;
}
