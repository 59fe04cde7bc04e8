/** Drawings of the server in the page. They are read as SVG, never as HTML; their style sheets are adopted, since the page admits none inside. */

const sheets = new Map<string, CSSStyleSheet>();

/** `place` is where in the page the drawing stands: one drawing a place, and no two share an id. */
export function readSvg(source: string, place: string): SVGSVGElement {
  const { documentElement } = new DOMParser().parseFromString(source, 'image/svg+xml');
  if (!(documentElement instanceof SVGSVGElement)) throw new Error('the server sent no drawing');
  const drawn = document.importNode(documentElement, true);
  const rules = [...drawn.querySelectorAll('style')].map((style) => {
    style.remove();
    return style.textContent ?? '';
  });
  adoptSheet(place, rules.join('\n'));
  for (const foreign of drawn.querySelectorAll('script, foreignObject, a, image, use')) foreign.remove();
  ownIds(drawn, place);
  return drawn;
}

function adoptSheet(place: string, rules: string): void {
  const sheet = sheets.get(place) ?? new CSSStyleSheet();
  sheet.replaceSync(rules);
  sheets.set(place, sheet);
  document.adoptedStyleSheets = [...sheets.values()];
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
