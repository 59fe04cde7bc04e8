import type { ShownPhoto } from '../../server/src/lsp/protocol.ts';
import { element } from './element.ts';
import { lineButton } from './line-button.ts';
import type { Send } from './page-parts.ts';
import { t } from './words.ts';

/** Each photograph with what it shows; pressed, it takes the whole width, and once more its own place again. */
export function photosSection(photos: readonly ShownPhoto[], send: Send): readonly Node[] {
  if (photos.length === 0) return [];
  return [
    element('h2', { textContent: t('Photographs') }),
    element(
      'ul',
      { className: 'photos' },
      photos.map((photo) => {
        const { caption, of, range } = photo;
        const item = element('li', {});
        item.append(
          picture(photo, item),
          element('p', {}, [
            element('bdi', { textContent: caption }),
            ...(of === undefined ? [] : [', ', element('bdi', { textContent: of })]),
            ' ',
            ...(range === undefined ? [] : [lineButton(range.start.line, send)]),
          ]),
        );
        return item;
      }),
    ),
  ];
}

function picture({ caption, uri, width, height, why, foreign }: ShownPhoto, item: HTMLElement): HTMLElement {
  if (uri === undefined)
    return element('p', { className: 'q', textContent: why ?? '', ...(foreign && { lang: foreign }) });
  const image = element('img', { alt: caption, src: uri, loading: 'lazy' });
  if (width !== undefined && height !== undefined) Object.assign(image, { width, height });
  const button = element('button', { type: 'button', title: t('Larger or smaller'), ariaPressed: 'false' }, [image]);
  button.addEventListener('click', () => {
    button.ariaPressed = String(item.classList.toggle('whole'));
  });
  image.addEventListener('error', () => {
    button.replaceWith(element('p', { className: 'q', textContent: t('The picture could not be loaded.') }));
  });
  return button;
}
