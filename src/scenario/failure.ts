import { inOneLine } from './harmless.js';

/** What a shell learns from the program's end; as shells have it, 128 and the signal's number where one ended it. */
export const EXIT = { ok: 0, failed: 1, badInput: 2, interrupted: 130, terminated: 143 } as const;

export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

/** Something that the user can put right; shown as its message alone, a line or several, without a stack trace. */
export class Failure extends Error {
  override readonly name = 'Failure';

  constructor(
    message: string | readonly string[],
    readonly exitCode: ExitCode = EXIT.badInput,
  ) {
    super([message].flat().map(inOneLine).join('\n'));
  }
}

/** Somebody ended the program before it was through; shown as its message alone. */
export class StoppedByHand extends Failure {}

/** The code of a system error such as `ENOENT`, or undefined for anything else. */
export function systemCode(error: unknown): string | undefined {
  return error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : undefined;
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'no such file or folder',
  EACCES: 'permission denied',
  EPERM: 'permission denied',
  EISDIR: 'it is a folder',
  ENOTDIR: 'a part of the path is a file, not a folder',
  ENOSPC: 'no space left on the disk',
  EROFS: 'the disk is read-only',
  EBUSY: 'it is in use by the system, such as a mounted disk; name a folder in it',
  EDQUOT: 'your share of the disk is used up',
  EFBIG: 'a file would be larger than is allowed here',
  EMFILE: 'too many files are open',
  ENAMETOOLONG: 'the name is too long',
  ERR_INVALID_ARG_VALUE: 'the name holds a character that no name may have',
  ELOOP: 'too many symbolic links',
};

/** Why the system refused, in words; rethrows what is not a system's refusal, for that is a bug. */
export function systemReason(error: unknown): string {
  const code = systemCode(error);
  if (code === undefined) throw error;
  return REASONS[code] ?? code;
}
