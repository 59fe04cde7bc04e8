import type { Finding } from '../checks/finding.ts';
import type { Subject } from './protocol-parts.ts';

/** True of a finding that is about the subject; what is about no pickup and no instrument is about the parts. */
export const isAbout = ({ subject }: Finding, { kind, name }: Subject): boolean =>
  kind === 'parts' ? subject.pickup === undefined && subject.instrument === undefined : subject[kind] === name;
