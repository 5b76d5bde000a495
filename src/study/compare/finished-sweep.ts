/**
 * A finished sweep read back: the `sweep.json` of a run folder, or the file itself. What it holds is another run's word, so
 * everything that a comparison reads is looked at before it is believed.
 */

import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { SweepResult } from '../../engine/read/result.ts';
import { COLUMNS } from '../../findings/row.ts';

/** A file that is no finished sweep; the message says why. */
export class NoSweep extends Error {
  override readonly name = 'NoSweep';
  readonly exitCode = 6;
}

const FILE = 'sweep.json';
/** No sweep of ours is larger: five hundred speeds with their traces [bytes]. */
const LARGEST = 400e6;

/** The path of a sweep's document where an operand is a run folder or a JSON file; null: it is neither. */
export function sweepFileOf(operand: string): string | null {
  if (isFolder(operand)) return join(operand, FILE);
  return operand.endsWith('.json') ? operand : null;
}

function isFolder(path: string): boolean {
  try {
    return statSync(path).isDirectory();
  } catch {
    return false;
  }
}

/** @throws NoSweep */
export function finishedSweep(path: string): SweepResult {
  const value = documentAt(path);
  const why = whyNone(value);
  if (why !== null) throw new NoSweep(`${path} is no finished sweep: ${why}.`);
  return value as SweepResult;
}

function documentAt(path: string): unknown {
  try {
    if (statSync(path).size > LARGEST) throw new NoSweep(`${path} is larger than any sweep.`);
    return JSON.parse(readFileSync(path, 'utf8'));
  } catch (error) {
    if (error instanceof NoSweep) throw error;
    if (error instanceof SyntaxError) throw new NoSweep(`${path} is no finished sweep: it is no JSON.`);
    throw new NoSweep(
      `${path} could not be read. Compare takes case files, finished sweep.json files and folders that hold one; ` +
        'a sweep that was broken off is finished by the same command with the same --out.',
    );
  }
}

type Bag = Readonly<Record<string, unknown>>;
const isBag = (value: unknown): value is Bag =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isNumber = (value: unknown): value is number => typeof value === 'number' && Number.isFinite(value);
const isReading = (value: unknown): boolean => value === null || isNumber(value);
const areAll = (value: unknown, fits: (one: unknown) => boolean): boolean =>
  Array.isArray(value) && value.every(fits);

/** Columns that every row of ours has a number in. */
const ALWAYS = ['exhaust_opens_deg', 'transfers_open_deg', 'transfers_close_deg', 'exhaust_closes_deg'];
const TRACES = ['angleDeg', 'portPressure', 'returningPressure'];

function isRow(value: unknown): boolean {
  if (!isBag(value) || !isNumber(value.speed_rpm) || typeof value.settled !== 'boolean') return false;
  const readings = COLUMNS.filter(({ name }) => name !== 'settled').every(
    ({ name }) => value[name] === undefined || isReading(value[name]),
  );
  return readings && ALWAYS.every((name) => isNumber(value[name]));
}

function isRecord(value: unknown): boolean {
  if (!isBag(value) || !isRow(value.row) || !isBag(value.traces)) return false;
  const { traces } = value;
  return TRACES.every((name) => areAll(traces[name], isReading));
}

function isStretch(value: unknown): boolean {
  if (!isBag(value)) return false;
  const texts = typeof value.name === 'string' && typeof value.role === 'string';
  return texts && isNumber(value.start) && isNumber(value.end) && areAll(value.diameters, isNumber);
}

function isCase(value: unknown): boolean {
  if (!isBag(value) || typeof value.name !== 'string') return false;
  const { engine, pipe, run } = value;
  if (!isBag(engine) || !isBag(pipe) || !isBag(run)) return false;
  const { ambient, fuel } = engine;
  return (
    typeof engine.name === 'string' &&
    isBag(ambient) &&
    isNumber(ambient.pressure) &&
    isBag(fuel) &&
    isNumber(fuel.equivalenceRatio) &&
    areAll(pipe.sections, (one) => isBag(one) && areAll(one.diameter, isNumber)) &&
    isNumber(run.cell) &&
    areAll(run.speeds, isNumber) &&
    isReading(run.targetSpeed)
  );
}

const isFailure = (value: unknown): boolean =>
  isBag(value) && isNumber(value.speedRpm) && typeof value.reason === 'string';

/** Null: it is one. */
function whyNone(value: unknown): string | null {
  if (!isBag(value) || value.kind !== 'sweep') return 'its kind is not sweep';
  if (value.schemaVersion !== 1) return 'it is of another version of the program';
  if (!isCase(value.case)) return 'its case cannot be read';
  if (!areAll(value.rows, isRow)) return 'its rows cannot be read';
  if (!areAll(value.speeds, isRecord)) return 'its traces cannot be read';
  if (!areAll(value.outline, isStretch)) return 'its outline cannot be read';
  return areAll(value.failures, isFailure) ? null : 'its failures cannot be read';
}
