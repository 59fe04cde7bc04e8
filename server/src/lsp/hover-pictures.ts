import type { RichText, Section } from '../features/rich-text.ts';
import { cleanPhoto, dataUri } from '../photos/photo-file.ts';
import type { ClientAbilities } from './client-abilities.ts';
import type { Files } from './files.ts';

/** Pictures as an editor can show them: files of the disk where they lie, those of virtual file systems inside the text, if small. */
export async function withPictures(
  text: RichText,
  files: Files,
  { isOurs }: Pick<ClientAbilities, 'isOurs'>,
): Promise<RichText> {
  return Promise.all(
    text.map((section) => (section.kind === 'picture' ? shown(sized(section, isOurs), files, isOurs) : section)),
  );
}

type Picture = Extract<Section, { kind: 'picture' }>;

/** A width behind the address is our editor's own way to say it. */
const sized = ({ shownWidth, ...picture }: Picture, isOurs: boolean): Picture =>
  isOurs && shownWidth !== undefined ? { ...picture, shownWidth } : picture;

async function shown(section: Picture, files: Files, isOurs: boolean): Promise<Section> {
  if (section.uri.startsWith('file:')) return section;
  const file = await files.photoBytes(section.uri);
  const photo = file.kind === 'bytes' ? cleanPhoto(file.bytes) : undefined;
  if (photo === undefined || photo.bytes.length > MOST_INSIDE)
    return { kind: 'paragraph', text: `It is too large for a hover${isOurs ? ': the bench view shows it' : ''}.` };
  return { ...section, uri: dataUri(photo) };
}

/** Editors cut texts of a hover beyond 100,000 characters, as common practice goes; base64 makes 4 of 3 bytes. */
const MOST_INSIDE = 60_000;
