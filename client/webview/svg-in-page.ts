/** Drawings of the server in the page. They are read as SVG, never as HTML; their style sheets are adopted, since the page admits none inside. */

const sheets = new Map<string, { readonly sheet: CSSStyleSheet; readonly rules: string }>();

/**
 * Puts a drawing into a frame. What is drawn as before stays the element that it was, so that little is laid out and painted anew as one
 * types; `prepare` makes what is new ready first. `place` is where in the page the drawing stands: one a place, and no two share an id.
 */
export function putSvg(
  frame: Element,
  source: string,
  place: string,
  prepare: (drawn: SVGSVGElement) => void = () => undefined,
): SVGSVGElement {
  const next = readSvg(source, place);
  prepare(next);
  const before = frame.firstElementChild;
  if (before instanceof SVGSVGElement) {
    become(before, next);
    return before;
  }
  frame.replaceChildren(next);
  return next;
}

function readSvg(source: string, place: string): SVGSVGElement {
  const { documentElement: drawn } = new DOMParser().parseFromString(source, 'image/svg+xml');
  if (!(drawn instanceof SVGSVGElement)) throw new Error('the server sent no drawing');
  const rules = [...drawn.querySelectorAll('style')].map((style) => {
    style.remove();
    return style.textContent ?? '';
  });
  adoptSheet(place, rules.join('\n'));
  for (const foreign of drawn.querySelectorAll('script, foreignObject, a, image, use')) foreign.remove();
  ownIds(drawn, place);
  return drawn;
}

/** The attributes and children of `next`, by their order; only what differs is touched. */
function become(now: Element, next: Element): void {
  for (const { name } of [...now.attributes]) if (!next.hasAttribute(name)) now.removeAttribute(name);
  for (const { name, value } of next.attributes) if (now.getAttribute(name) !== value) now.setAttribute(name, value);
  const [old, wanted] = [[...now.childNodes], [...next.childNodes]];
  for (const [index, child] of wanted.entries()) {
    const there = old[index];
    if (there === undefined) now.append(child);
    else if (there instanceof Element && child instanceof Element && there.nodeName === child.nodeName)
      become(there, child);
    else if (there instanceof Text && child instanceof Text) {
      if (there.data !== child.data) there.data = child.data;
    } else there.replaceWith(child);
  }
  for (const more of old.slice(wanted.length)) more.remove();
}

/** All of the page is looked at again by a style sheet that changes: the same again is left alone. */
function adoptSheet(place: string, rules: string): void {
  const adopted = sheets.get(place);
  if (adopted?.rules === rules) return;
  const sheet = adopted?.sheet ?? new CSSStyleSheet();
  sheet.replaceSync(rules);
  sheets.set(place, { sheet, rules });
  if (adopted === undefined) document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
}

/** Two drawings of one pickup, before and now, name their parts alike. */
function ownIds(drawn: SVGSVGElement, place: string): void {
  const own = (id: string): string => `${place}-${id}`;
  for (const each of [drawn, ...drawn.querySelectorAll('*')]) {
    for (const { name, value } of [...each.attributes]) {
      if (name === 'id') each.setAttribute(name, own(value));
      else if (name === 'aria-labelledby' || name === 'aria-describedby') {
        each.setAttribute(name, value.split(/\s+/).map(own).join(' '));
      } else if (value.includes('url(#')) {
        each.setAttribute(
          name,
          value.replace(/url\(#([^)]+)\)/g, (_, id: string) => `url(#${own(id)})`),
        );
      }
    }
  }
}
