/** Photographs: which files their lines name, and what is wrong with those. */
import { nearest } from '../../../grammar/src/nearest.ts';
import { onceFor } from '../../../grammar/values/remember.ts';
import type { Finding, Remedy } from '../checks/finding.ts';
import type { Code } from '../checks/pages.ts';
import { say } from '../checks/say.ts';
import { type Telling, told } from '../checks/telling.ts';
import type { FileModel } from '../model/model.ts';
import { type PhotoLine, photographsOf } from '../model/photographs.ts';
import type { Host, PhotoAt } from './analysis-types.ts';
import { resolveUse } from './use-graph.ts';

export interface NamedPhoto {
  readonly line: PhotoLine;
  readonly at: PhotoAt;
}

/** Those that a file itself declares. A line that `like` brings is told of where it is written. */
export const photoLines = onceFor(({ pickups, instruments }: FileModel): readonly PhotoLine[] => {
  const lines = new Set<PhotoLine>();
  for (const things of [pickups, instruments])
    for (const thing of things) for (const { line } of photographsOf(thing)) lines.add(line);
  return [...lines];
});

/** The same, each with its file. */
export const photosIn = (model: FileModel, fileUri: string, host: Host): readonly NamedPhoto[] =>
  photoLines(model).map((line) => ({ line, at: photoAt(fileUri, line, host) }));

export function photoAt(fileUri: string, { value }: PhotoLine, host: Host): PhotoAt {
  const uri = resolveUse(fileUri, value.file.value);
  return uri === undefined || !host.isInside(uri)
    ? { kind: 'outside' }
    : { kind: 'inside', uri, file: host.photo?.(uri) };
}

export const unreadPhotos = (photos: readonly NamedPhoto[], host: Host): readonly string[] =>
  host.photo === undefined
    ? []
    : photos.flatMap(({ at }) => (at.kind === 'inside' && at.file === undefined ? [at.uri] : []));

export const photoFindings = (photos: readonly NamedPhoto[], host: Host): readonly Finding[] =>
  photos.flatMap((photo) => photoFinding(photo, host));

function photoFinding({ line, at }: NamedPhoto, host: Host): readonly Finding[] {
  const written = line.value.file.value;
  const finding = (
    code: Code,
    severity: Finding['severity'],
    telling: Telling,
    remedies: () => readonly Remedy[] = () => [],
  ): readonly Finding[] => [
    { ...told(telling), code, severity, place: line.place, related: [], remedies, subject: {} },
  ];
  if (at.kind === 'outside')
    return finding('photo/outside', 'error', {
      what: say`${written} leaves the workspace, or is no path relative to this file; it is not opened.`,
      action: say`Copy the photograph into the workspace and name it by its path from here.`,
    });
  switch (at.file?.kind) {
    case 'missing':
      return finding(
        'photo/missing',
        'warning',
        {
          what: say`There is no photograph ${written}.`,
          action: say`Correct the path, add the file, or take the line out.`,
        },
        () => nearestPhoto(line, host.photosNear?.(at.uri) ?? []),
      );
    case 'too large':
      return finding('photo/too-large', 'warning', {
        what: say`${written} ${at.file.reason}; it is not shown.`,
        action: say`Save a smaller copy of it, and keep the large one elsewhere.`,
      });
    case 'unreadable':
      return finding('photo/unreadable', 'warning', {
        what: say`${written} ${at.file.reason}.`,
        action: say`Copy it from the camera once more, or save it as JPEG, PNG or WebP.`,
      });
    default:
      return [];
  }
}

/** The photograph beside it that is spelled almost alike. */
function nearestPhoto({ value: { file } }: PhotoLine, near: readonly string[]): readonly Remedy[] {
  const folder = file.value.slice(0, file.value.lastIndexOf('/') + 1);
  const names = near.filter((path) => !path.includes('/'));
  const right = nearest(file.value.slice(folder.length), names);
  if (right === undefined) return [];
  const newText = `"${(folder + right).replace(/[\\"]/g, '\\$&')}"`;
  return [{ title: say`Change to ${newText}`, edits: [{ place: file.place, newText }], kind: 'text', preferred: true }];
}
