/** Every command, in the order in which help lists them. */
import { check } from './check.ts';
import type { Command } from './command.ts';

export const commands: readonly Command[] = [check];
