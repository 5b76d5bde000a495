/** A file of measurements in, with the tables that it names: everything in SI, each value with its line. */

import { basename, extname, isAbsolute, join } from 'node:path';
import type { DynoCurve, Measured, PressureTrace, SpotTemperature, Stand } from '../../model/measured.ts';
import { ofKind } from '../keys/kinds.ts';
import { checked, type Judge, type Schema } from '../keys/schema.ts';
import { readAlone } from '../load.ts';
import { addProblem, FileProblem, type Problem } from '../text/problem.ts';
import { positionAt, type Source } from '../text/source.ts';
import { type Node, spotOf } from '../text/tree.ts';
import { readCurve } from './dyno-curve.ts';
import { type MeasuredKeys, measuredKeys, type StatedTrace } from './measured-schema.ts';
import { errorOf } from './measuring-error.ts';
import { correctionFactor } from './power-correction.ts';
import { readTrace, STEP_DEG } from './pressure-trace.ts';
import { openTable } from './table-file.ts';

/** Reads the keys of the kind; the tables that they name are left alone. */
export const measuredSchema = ofKind('measured', measuredKeys);

/** @throws CaseProblems, FileProblem */
export function loadMeasured(file: string): Measured {
  const name = basename(file, extname(file));
  const schema: Schema<Measured> = checked(measuredSchema, (stated, judge, node) =>
    withTables(stated, name, judge, node),
  );
  return readAlone(file, {}, schema);
}

function withTables(stated: MeasuredKeys, fallback: string, judge: Judge, node: Node): Measured | undefined {
  if ([stated.dyno, stated.trace, stated.exhaustTemperature, stated.wall].every((one) => one === null))
    return judge.refuse(
      [],
      'nothing is measured in this file',
      'it needs one of dyno, trace, exhaustTemperature, wall',
    );
  const warnings: string[] = [];
  const dyno = stated.dyno === null ? null : curveOf(stated.dyno, stated, { judge, node, warnings });
  const traces = (stated.trace ?? []).map((one, index) =>
    traceOf(one, index, stated, { judge, node, warnings }),
  );
  if (dyno === undefined || traces.includes(undefined)) return undefined;
  const spots = (key: 'exhaustTemperature' | 'wall'): readonly SpotTemperature[] =>
    (stated[key] ?? []).map(({ at, speed, value, error }, index) => ({
      at,
      rpm: speed,
      value,
      error: errorOf(error, value),
      stand: standOf(node, [key, index]),
    }));
  return {
    name: stated.name ?? fallback,
    note: stated.note ?? '',
    engine: stated.engine ?? '',
    ambient: stated.ambient,
    dyno,
    traces: traces as readonly PressureTrace[],
    gasTemperatures: spots('exhaustTemperature'),
    walls: spots('wall'),
    warnings,
  };
}

interface Reading {
  readonly judge: Judge;
  readonly node: Node;
  readonly warnings: string[];
}

function curveOf(
  stated: NonNullable<MeasuredKeys['dyno']>,
  { ambient }: MeasuredKeys,
  { judge, node, warnings }: Reading,
): DynoCurve | undefined {
  const { correctedTo, factor, error, speed } = stated;
  if (correctedTo !== 'none' && ambient === null)
    return judge.refuse(
      ['dyno', 'correctedTo'],
      'values can be corrected back only where the air of the day is known',
      'state ambient: { pressure, temperature }, as the dynamometer noted it',
    );
  const output = stated.torque ?? stated.power!;
  const correction = ambient === null ? 1 : correctionFactor(correctedTo, ambient);
  const source = opened(stated.file, ['dyno', 'file'], judge, node);
  if (source === null) return undefined;
  const report = (problem: Problem): void => addProblem(judge.at.ledger.problems, problem);
  const read = readCurve(source, { speed, output, error, correction }, report);
  if (read === null) return undefined;
  warnings.push(...read.warnings);
  return { points: read.points, factor, correctedTo, correction };
}

/** Pressure in a pipe or a case is at least this much in the mean [Pa]: below it, the sensor reads that above the air. */
const LEAST_MEAN = 0.4e5;

function traceOf(
  stated: StatedTrace,
  index: number,
  { ambient }: MeasuredKeys,
  { judge, node, warnings }: Reading,
): PressureTrace | undefined {
  const { at, speed, angle, pressure, reads, error, offset } = stated;
  const source = opened(stated.file, ['trace', index, 'file'], judge, node);
  if (source === null) return undefined;
  if (reads === 'gauge' && ambient === null)
    return judge.refuse(
      ['trace', index, 'reads'],
      'the air of the day is not stated',
      'state ambient: { pressure, temperature }',
    );
  const report = (problem: Problem): void => addProblem(judge.at.ledger.problems, problem);
  const read = readTrace(source, { angle, pressure }, report);
  if (read === null) return undefined;
  const above = reads === 'gauge' ? ambient!.pressure : 0;
  const absolute = read.pressure.map((value) => value + above);
  const mean = absolute.reduce((sum, value) => sum + value, 0) / absolute.length;
  if (mean < LEAST_MEAN)
    return judge.refuse(
      ['trace', index, 'pressure'],
      `the mean of the trace is ${(mean / 1e5).toFixed(2)} bar, which no open pipe or case has`,
      'a sensor that reads the pressure above the air is told by reads: gauge; or is it another unit?',
    );
  warnings.push(...read.warnings);
  return {
    at,
    rpm: speed,
    pressure: absolute,
    stepDeg: STEP_DEG,
    error: errorOf(error, Math.max(...absolute) - Math.min(...absolute)),
    offset,
    stand: { file: source.name, line: read.line },
  };
}

/** A table that is named at a path; null, and told there, where it cannot be read. */
function opened(name: string, path: readonly (string | number)[], judge: Judge, node: Node): Source | null {
  const file = isAbsolute(name) ? name : join(node.place.source.folder, name);
  try {
    return openTable(file);
  } catch (error) {
    if (!(error instanceof FileProblem)) throw error;
    const { place, labels } = spotOf(node, path);
    judge.at.ledger.problems.push({
      place,
      message: `${labels.join('.')}: ${error.message}`,
      hint: '',
      unreadable: file,
    });
    return null;
  }
}

function standOf(node: Node, path: readonly (string | number)[]): Stand {
  const { place } = spotOf(node, path);
  return { file: place.source.name, line: positionAt(place.source, place.start).line };
}
