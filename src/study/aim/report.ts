/** What aiming came to as plain data: the document, what the page is made of, and the lines of the table. */

import { outlineOf } from '../work/run-sweep.ts';
import { BAND } from './objective.ts';
import type { AimedPipe, AimResult, AimWish } from './result.ts';

interface Told {
  readonly program: string;
  readonly newFile: string;
}

export interface ChangeLine {
  readonly name: string;
  /** [mm] */
  readonly start: number;
  readonly after: number;
  readonly change: number;
  readonly limit: string;
}

const mm = (value: number): number => Number((1000 * value).toFixed(3));

export function changeLines({ changes }: AimResult): readonly ChangeLine[] {
  return changes.map(({ name, start, after, limit }) => ({
    name,
    start: mm(start),
    after: mm(after),
    change: mm(after - start),
    limit,
  }));
}

function scoreOfWish({ target }: AimWish) {
  return { name: `mean torque ${target - BAND} to ${target + BAND} rpm`, unit: 'Nm', higherIsBetter: true };
}

export function aimDocument(wish: AimWish, result: AimResult, { program, newFile }: Told) {
  const { subject, target, constraints, mostDrafts, searchCell, seed } = wish;
  return {
    schemaVersion: 1 as const,
    kind: 'aim' as const,
    program,
    case: subject.name,
    target,
    score: scoreOfWish(wish),
    search: { from: wish.from, vary: wish.vary, constraints, mostDrafts, searchCell, seed },
    startedFrom: result.startedFrom,
    gasTemperature: result.gasTemperature,
    given: result.given,
    start: result.start,
    after: result.after,
    changes: result.changes,
    sensitivities: result.sensitivities,
    limits: result.limits,
    end: result.end,
    history: historyOf(result),
    newFile,
  };
}

export function aimPageResult(wish: AimWish, result: AimResult, { program, newFile }: Told) {
  const { subject, target } = wish;
  // Before is the given pipe, unless the search was told to start from the handbook's.
  const before = wish.from === 'handbook' ? result.start : result.given;
  return {
    program,
    caseName: subject.name,
    targetSpeed: target,
    halfBand: BAND,
    score: scoreOfWish(wish),
    scoreBefore: before.judged?.torque ?? null,
    scoreAfter: result.after.judged?.torque ?? null,
    before: pagePipe(subject, before),
    after: pagePipe(subject, result.after),
    // The handbook's pipe that the search began with, where it is not the one before.
    start: result.start.pipe === before.pipe ? null : pagePipe(subject, result.start),
    newFile,
    changes: result.changes.map(({ name, before: was, after, limit }) => ({
      name,
      unit: 'mm',
      before: mm(was),
      after: mm(after),
      ...(limit === '' ? {} : { limit }),
    })),
    sensitivities: result.sensitivities,
    history: historyOf(result),
    startedFrom: result.startedFrom,
    end: result.end,
    limits: [...result.limits, ...whyNot(before, result)],
  };
}

/** What the search went by, the mean torque of each draft, and whether its wave landed in the window. */
function historyOf({ history }: AimResult) {
  return history.map(({ evaluation, judged }) => ({
    evaluation,
    score: judged?.score ?? null,
    value: judged?.torque ?? null,
    lands: judged?.lands ?? false,
  }));
}

/** Why nothing better was found, where that is so. */
export function whyNot(before: AimedPipe, result: AimResult): readonly string[] {
  const [was, is] = [before.judged?.torque ?? null, result.after.judged?.torque ?? null];
  return was !== null && is !== null && is > was
    ? []
    : [`the search found nothing better than where it started (${result.end})`];
}

function pagePipe(subject: AimWish['subject'], { pipe, rows }: AimedPipe) {
  return {
    name: pipe.name,
    outline: outlineOf({ ...subject, pipe }),
    rows,
  };
}
