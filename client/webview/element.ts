/** A new element with its properties and children. Text is text: nothing that is passed in is read as markup. */
export function element<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  properties: Partial<HTMLElementTagNameMap[K]>,
  children: readonly (Node | string)[] = [],
): HTMLElementTagNameMap[K] {
  const made = document.createElement(tag);
  Object.assign(made, properties);
  made.append(...children);
  return made;
}

/** Pressed by mouse, key or assistant alike. */
export function button(textContent: string, press: () => void, className = 'plain'): HTMLButtonElement {
  const made = element('button', { className, type: 'button', textContent });
  made.addEventListener('click', press);
  return made;
}
