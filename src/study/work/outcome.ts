/**
 * How a job ended: with a value, or with an error told as plain data, since classes do not cross threads. An error that
 * carries an exit code is what the case itself did, and a result like another. Any other is a fault of the program or the
 * machine, want of memory or a thread that died: it says nothing of the case and must never stand for a result.
 */

export interface Failure {
  readonly name: string;
  readonly message: string;
  /** Exit code that the error asks for; null: it is a fault. */
  readonly exitCode: number | null;
  readonly stack: string;
}

export type Outcome<Value> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly failure: Failure };

/** Exit code of a study that a fault ended; what is finished is kept. */
export const FAULT = 5;

/** An error as plain data. */
export function failureOf(error: unknown): Failure {
  if (!(error instanceof Error)) {
    return { name: 'Error', message: String(error), exitCode: null, stack: '' };
  }
  const exitCode = 'exitCode' in error && typeof error.exitCode === 'number' ? error.exitCode : null;
  return { name: error.name, message: error.message, exitCode, stack: error.stack ?? '' };
}

/** Whether a job has to be done again before it says anything. */
export function isFault<Value>(outcome: Outcome<Value>): boolean {
  return !outcome.ok && outcome.failure.exitCode === null;
}

/** A fault that came twice, as what ends a study. */
export function repeated({ name, message, stack }: Failure): Failure {
  const place =
    /^\s+at .*$/m
      .exec(stack)?.[0]
      .trim()
      .replace(/\(?file:\/\/\S*\//, '(') ?? '';
  const where = place === '' ? '' : ` (${place})`;
  return {
    name,
    message:
      `A piece of the work could not be done, twice, the second time on a fresh thread: ${message}${where}. ` +
      'That is a fault of the program or the machine, not a result.',
    exitCode: FAULT,
    stack,
  };
}

/** The value, or the failure thrown again with its exit code. */
export function valueOrThrow<Value>(outcome: Outcome<Value>): Value {
  if (outcome.ok) return outcome.value;
  const { name, message, exitCode, stack } = outcome.failure;
  throw Object.assign(new Error(message), { name, stack, ...(exitCode === null ? {} : { exitCode }) });
}

/** The value, or in its place what the case did; a fault is thrown. */
export function resultOrThrow<Value>(
  outcome: Outcome<Value>,
): Value | { readonly ok: false; readonly reason: string } {
  if (outcome.ok) return outcome.value;
  const { exitCode, message } = outcome.failure;
  if (exitCode === null || exitCode === FAULT) valueOrThrow(outcome);
  return { ok: false, reason: message };
}
