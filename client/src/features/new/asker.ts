import { type Disposable, type QuickInput, QuickInputButtons, type QuickPickItem, window } from 'vscode';

/** Questions one after the other, each with a way back to the one before; `undefined` as soon as somebody leaves. */
export interface Asker {
  pick<T extends QuickPickItem>(title: string, items: readonly T[]): Promise<T | undefined>;
  pickMany<T extends QuickPickItem>(title: string, items: readonly T[]): Promise<readonly T[] | undefined>;
  type(title: string, typing: Typing): Promise<string | undefined>;
}

interface Typing {
  readonly prompt: string;
  readonly value?: string;
  /** Why it cannot be taken. */
  readonly refused: (text: string) => string | undefined;
}

/** Nothing is answered; whoever goes back is asked the question before. */
const BACK = Symbol('back');

/**
 * Asks what `questions` ask. Whoever goes back starts them anew, with the answers before the last one given as they were: what is asked
 * may depend on any of them.
 */
export async function inTurn<T>(questions: (asker: Asker) => Promise<T | undefined>): Promise<T | undefined> {
  const answers: unknown[] = [];
  for (;;) {
    let at = 0;
    let wentBack = false;
    const next = async <A>(show: (step: number) => Promise<A | typeof BACK | undefined>): Promise<A | undefined> => {
      at += 1;
      // The same questions are asked in the same order, so what was answered is of their kind.
      if (at <= answers.length) return answers[at - 1] as A;
      const answer = await show(at);
      wentBack = answer === BACK;
      if (answer === BACK || answer === undefined) return undefined;
      answers.push(answer);
      return answer;
    };
    const result = await questions({
      pick: (title, items) => next(async (step) => firstOf(await picked(title, items, step, false))),
      pickMany: (title, items) => next((step) => picked(title, items, step, true)),
      type: (title, typing) => next((step) => typed(title, typing, step)),
    });
    if (!wentBack) return result;
    answers.pop();
  }
}

const firstOf = <T>(chosen: readonly T[] | typeof BACK | undefined): T | typeof BACK | undefined =>
  typeof chosen === 'symbol' ? chosen : chosen?.[0];

function picked<T extends QuickPickItem>(
  title: string,
  items: readonly T[],
  step: number,
  isMany: boolean,
): Promise<readonly T[] | typeof BACK | undefined> {
  const input = window.createQuickPick<T>();
  Object.assign(input, { title, step, canSelectMany: isMany, matchOnDescription: true });
  input.items = items;
  if (isMany) input.selectedItems = items.filter((each) => each.picked);
  return answerOf(input, (answer) => {
    const chosen = isMany ? input.selectedItems : input.activeItems;
    // Of one thing out of several, one is to be taken.
    if (isMany || chosen.length > 0) answer(chosen);
  });
}

function typed(title: string, { prompt, value = '', refused }: Typing, step: number) {
  const input = window.createInputBox();
  Object.assign(input, { title, step, prompt, value, valueSelection: [0, value.length] });
  input.onDidChangeValue((text) => {
    input.validationMessage = refused(text);
  });
  return answerOf<string>(input, (answer) => {
    input.validationMessage = refused(input.value);
    if (input.validationMessage === undefined) answer(input.value);
  });
}

/** Shows a question until it is answered, left, or gone back from. */
function answerOf<T>(
  input: QuickInput & {
    buttons: readonly unknown[];
    onDidAccept(heard: () => void): Disposable;
    onDidTriggerButton(heard: () => void): Disposable;
  },
  accept: (answer: (value: T) => void) => void,
): Promise<T | typeof BACK | undefined> {
  // A click beside it, to look something up, loses no answer.
  input.ignoreFocusOut = true;
  if ((input.step ?? 1) > 1) input.buttons = [QuickInputButtons.Back];
  return new Promise<T | typeof BACK | undefined>((resolve) => {
    input.onDidAccept(() => accept(resolve));
    input.onDidTriggerButton(() => resolve(BACK));
    input.onDidHide(() => resolve(undefined));
    input.show();
  }).finally(() => input.dispose());
}
