/** How a job ended: with a value, or with an error told as plain data, since classes do not cross threads. */

export interface Failure {
  readonly name: string;
  readonly message: string;
  /** Exit code that the error asks for; null: it is a defect of the program. */
  readonly exitCode: number | null;
  readonly stack: string;
}

export type Outcome<Value> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly failure: Failure };

/** An error as plain data. */
export function failureOf(error: unknown): Failure {
  if (!(error instanceof Error)) {
    return { name: 'Error', message: String(error), exitCode: null, stack: '' };
  }
  const exitCode = 'exitCode' in error && typeof error.exitCode === 'number' ? error.exitCode : null;
  return { name: error.name, message: error.message, exitCode, stack: error.stack ?? '' };
}

/** The value, or the failure thrown again with its exit code. */
export function valueOrThrow<Value>(outcome: Outcome<Value>): Value {
  if (outcome.ok) return outcome.value;
  const { name, message, exitCode, stack } = outcome.failure;
  throw Object.assign(new Error(message), { name, stack, ...(exitCode === null ? {} : { exitCode }) });
}
