/**
 * What a lender sends back: the result of a piece with a checksum, who computed it and how long, or why it was refused.
 * The gatherer takes nothing on trust: version, checksum, and a row may hold the known columns only.
 */

import { crc32 } from 'node:zlib';
import { COLUMNS } from '../../findings/row.ts';
import { canonicalJson } from '../work/canonical-json.ts';
import type { Failure, Outcome } from '../work/outcome.ts';

/** Bytes of an answer at most; a draft of thirty speeds takes some hundred thousand. */
export const MOST_ANSWER = 4_000_000;

export interface Answer {
  readonly draft: string;
  readonly program: string;
  readonly arithmetic: string;
  readonly lender: string;
  readonly seconds: number;
  readonly finished: string;
  readonly crc: string;
  readonly outcome: Outcome<unknown>;
}

/** CRC-32 of an outcome's canonical JSON. */
export function checksumOf(outcome: Outcome<unknown>): string {
  return crc32(canonicalJson(plain(outcome)))
    .toString(16)
    .padStart(8, '0');
}

/** As it comes out of JSON: what is no number is null. */
export function plain<Value>(value: Value): Value {
  return JSON.parse(JSON.stringify(value));
}

/** A refusal as an outcome: a result of the piece, like a march that failed. */
export function refusal(words: string): Outcome<never> {
  const failure: Failure = {
    name: 'Refused',
    message: `refused by the lender: ${words}`,
    exitCode: 3,
    stack: '',
  };
  return { ok: false, failure };
}

/** Why an answer is not believed; null: it is. */
export function answerProblem(
  answer: unknown,
  of: { readonly program: string; readonly arithmetic: string; readonly draft: string },
): string | null {
  if (typeof answer !== 'object' || answer === null) return 'it is no answer';
  const { draft, program, arithmetic, crc, outcome } = answer as Partial<Answer>;
  if (draft !== of.draft) return 'it is of another piece';
  if (program !== of.program) return `it comes from ${String(program).slice(0, 60)}`;
  if (arithmetic !== of.arithmetic)
    return 'it comes from a machine that computes otherwise in the last digit';
  if (typeof outcome !== 'object' || outcome === null || crc !== checksumOf(outcome))
    return 'its checksum does not fit';
  if (!outcome.ok) return typeof outcome.failure?.message === 'string' ? null : 'it says no reason';
  return resultProblem(outcome.value);
}

const NAMES: ReadonlySet<string> = new Set(COLUMNS.map(({ name }) => name));

function resultProblem(value: unknown): string | null {
  const result = value as {
    rows?: unknown;
    records?: unknown;
    failures?: unknown;
    ok?: unknown;
    reason?: unknown;
  };
  if (result?.ok === false && typeof result.reason === 'string') return null;
  if (Array.isArray(value))
    return value.length <= 1000 && value.every(isObserved) ? null : 'it shows nothing';
  const rows = Array.isArray(result?.rows)
    ? result.rows
    : Array.isArray(result?.records)
      ? result.records.map((one) => one?.row)
      : null;
  if (rows === null || rows.length > 1000) return 'it has no rows';
  return rows.every(isRow) ? null : 'a row of it is none';
}

function isRow(row: unknown): boolean {
  if (typeof row !== 'object' || row === null) return false;
  return Object.entries(row).every(
    ([name, value]) =>
      NAMES.has(name) && (value === null || ['number', 'boolean', 'string'].includes(typeof value)),
  );
}

/** One speed of a piece that was observed, as plain data. */
function isObserved(value: unknown): boolean {
  if (typeof value !== 'object' || value === null) return false;
  const { row, reason, pressures, gas, walls, state, ...foreign } = value as Record<string, unknown>;
  const areNumbers = (list: unknown): boolean =>
    Array.isArray(list) && list.every((one) => one === null || typeof one === 'number');
  return (
    Object.keys(foreign).length === 0 &&
    (row === null || isRow(row)) &&
    typeof reason === 'string' &&
    Array.isArray(pressures) &&
    pressures.every(areNumbers) &&
    areNumbers(gas) &&
    areNumbers(walls) &&
    (state === null || typeof state === 'string')
  );
}
