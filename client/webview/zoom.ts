import { button, element } from './element.ts';

const ZOOMS = [50, 75, 100, 125, 150, 200, 300] as const;

export type Zoom = ReturnType<typeof createZoom>;

/** Enlarges what stands in the frames; the page around it keeps its size. */
export function createZoom(frames: readonly HTMLElement[], start: number, changed: () => void) {
  let percent: number = ZOOMS.find((step) => step === start) ?? 100;
  const label = element('output', { ariaLabel: 'Zoom', textContent: `${percent} %` });
  const apply = (): void => {
    for (const frame of frames) frame.style.setProperty('--zoom', String(percent / 100));
    label.textContent = `${percent} %`;
  };
  const stepper = (text: string, ariaLabel: string, by: 1 | -1): HTMLButtonElement => {
    const step = (): void => {
      const at = ZOOMS.findIndex((each) => each >= percent) + by;
      percent = ZOOMS[Math.min(Math.max(at, 0), ZOOMS.length - 1)] ?? 100;
      apply();
      changed();
    };
    return Object.assign(button(text, step, 'plain zoom'), { ariaLabel });
  };
  apply();
  return {
    buttons: element('div', { className: 'zooms', role: 'group', ariaLabel: 'Zoom' }, [
      stepper('−', 'Smaller', -1),
      label,
      stepper('+', 'Larger', 1),
    ]),
    percent: (): number => percent,
  };
}
