/**
 * How the program ends. Errors that are the user's to mend carry an `exitCode` and a message fit to be shown as it
 * is; whatever carries none is a defect of the program. Any room may throw such an error: the property is the
 * contract, not a class, so `src/case` and `src/study` need not know the command line.
 */

export const exitCodes = {
  done: 0,
  /** A defect of the program. */
  defect: 1,
  /** Wrong use of the command line. */
  usage: 2,
  /** A case file is wrong. */
  caseFile: 3,
  /** A speed failed or would not settle; what finished is kept and marked. */
  unsettled: 4,
  /** A thread died, memory ran out or the program failed, twice at the same work; what finished is kept. */
  fault: 5,
  /** A file could not be read or written. */
  file: 6,
  /** Interrupted. */
  interrupted: 130,
} as const;

export type ExitCode = (typeof exitCodes)[keyof typeof exitCodes];

const known: ReadonlySet<unknown> = new Set(Object.values(exitCodes));

/** The command line asks for something that cannot be done. */
export class UsageError extends Error {
  override readonly name = 'UsageError';
  readonly exitCode = exitCodes.usage;
}

/** A file or folder could not be read or written. */
export class FileError extends Error {
  override readonly name = 'FileError';
  readonly exitCode = exitCodes.file;
}

/** Exit code of an error that ended a command. */
export function exitCodeOf(error: unknown): ExitCode {
  if (typeof error !== 'object' || error === null) return exitCodes.defect;
  if ('exitCode' in error && known.has(error.exitCode)) return error.exitCode as ExitCode;
  if ('name' in error && error.name === 'AbortError') return exitCodes.interrupted;
  if (isSystemError(error)) return exitCodes.file;
  return exitCodes.defect;
}

/** What stderr shows for an error: its message; the stack as well when it is a defect. */
export function errorText(error: unknown): string {
  if (exitCodeOf(error) !== exitCodes.defect) {
    return isSystemError(error) ? systemErrorText(error) : (error as Error).message;
  }
  const stack = error instanceof Error ? (error.stack ?? error.message) : String(error);
  return `This is a defect of echocone, not of your files. Please report it with the command and this text:\n${stack}`;
}

/** An error that Node's file functions throw. */
export interface SystemError {
  readonly code: string;
  readonly syscall: string;
  readonly path?: string;
}

export function isSystemError(error: unknown): error is SystemError {
  if (!(error instanceof Error)) return false;
  return 'syscall' in error && 'code' in error && typeof error.code === 'string';
}

const systemReasons: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file or folder',
  EACCES: 'access is not permitted',
  EPERM: 'access is not permitted',
  EROFS: 'the file system is read-only',
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk quota is used up',
  EISDIR: 'it is a folder, not a file',
  ENOTDIR: 'a part of the path is a file, not a folder',
  EEXIST: 'it exists already',
  ENAMETOOLONG: 'the name is too long',
  EMFILE: 'too many files are open',
  EIO: 'the disk reports an error',
};

/** A file system error in words. */
export function systemErrorText(error: SystemError): string {
  const reason = systemReasons[error.code] ?? error.code;
  return error.path === undefined ? `A file could not be used: ${reason}.` : `${error.path}: ${reason}.`;
}
