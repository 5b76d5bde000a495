/**
 * The steps of an aim, one after the other. Each searches on the coarse mesh from what the one before came to; the leaders are
 * rounded and run on the fine one beside it, so that no step ends worse than the one before. The last may begin with the
 * handbook's pipe where that is better, and is trimmed.
 */

import type { Pipe } from '../../model/pipe.ts';
import type { Constraint } from '../work/constraints.ts';
import type { DraftResult } from '../work/draft.ts';
import type { Evaluator } from './evaluator.ts';
import { bestFinalist } from './finalists.ts';
import { meshed } from './mesh.ts';
import { judgedSpeeds } from './objective.ts';
import type { AimQuantity } from './quantities.ts';
import { search, type Tried } from './search.ts';
import type { Openings } from './start.ts';
import { type AimStep, stepsOf } from './steps.ts';
import { trimmed } from './trim.ts';
import type { AimWish, StepId } from './wish.ts';

export interface AimWatcher {
  /** A stage begins, of so many runs at most. */
  stage(name: StepId | 'start' | 'proof', runs: number): void;
  ran(runs: number, best: number | null): void;
}

/** What stays the same over all steps. */
export interface Course {
  readonly wish: AimWish;
  readonly opened: Openings;
  readonly constraints: readonly Constraint[];
  /** Cells of the search, and of what is offered. */
  readonly coarse: number;
  readonly fine: number;
  readonly evaluator: Evaluator;
  readonly watcher: AimWatcher;
}

export interface Stepped {
  readonly id: StepId;
  readonly pipe: Pipe;
  readonly quantities: readonly AimQuantity[];
  readonly history: readonly Tried[];
  readonly end: string;
  readonly startedFrom: 'handbook' | 'draft';
}

export async function walked(course: Course): Promise<readonly Stepped[]> {
  const { wish, opened } = course;
  const given = wish.from === 'handbook' ? null : opened.given;
  const steps = stepsOf(given === null ? { ...wish, from: 'handbook' } : wish);
  const stepped: Stepped[] = [];
  let carried = given?.pipe ?? null;
  for (const step of steps) {
    const one = await walk(course, { step, carried, isLast: step === steps.at(-1) });
    stepped.push(one);
    carried = one.pipe;
  }
  return stepped;
}

interface Walk {
  readonly step: AimStep;
  /** What the steps before came to; null: there is nothing but the handbook's pipe. */
  readonly carried: Pipe | null;
  readonly isLast: boolean;
}

async function walk(course: Course, { step, carried, isLast }: Walk): Promise<Stepped> {
  const { wish, opened, constraints, coarse, fine, evaluator, watcher } = course;
  const { judge } = opened;
  const { subject, target, seed } = wish;
  const { id, mostDrafts } = step;
  watcher.stage(id, mostDrafts);
  const { start, score, startedFrom } = await begin(course, carried, isLast);
  const quantities = step.quantities(start);
  const shared = { name: id, start, quantities, constraints, judge };
  const { history, outcome } = await search(
    { ...shared, subject, target, cells: coarse, unit: opened.unit, startScore: score, mostDrafts, seed },
    evaluator,
    watcher.ran,
  );
  const chosen = await bestFinalist(wish, { ...shared, carried, history, cells: fine }, evaluator);
  const pipe = isLast ? await trimmed(wish, { ...shared, pipe: chosen, cells: fine }, evaluator) : chosen;
  return {
    id,
    pipe: pipe === carried ? pipe : { ...pipe, name: nameOf(wish, id) },
    quantities,
    history,
    end: outcome.end,
    startedFrom,
  };
}

interface Begin {
  readonly start: Pipe;
  readonly score: number;
  readonly startedFrom: Stepped['startedFrom'];
}

async function begin(course: Course, carried: Pipe | null, isLast: boolean): Promise<Begin> {
  const { handbook } = course.opened;
  const own = carried === null ? null : await coarseScore(course, carried);
  if (handbook !== null && (carried === null || own === null || (isLast && handbook.judged.score > own)))
    return { start: handbook.pipe, score: handbook.judged.score, startedFrom: 'handbook' };
  return { start: carried as Pipe, score: own ?? Number.NEGATIVE_INFINITY, startedFrom: 'draft' };
}

async function coarseScore(
  { wish: { subject, target }, coarse: cells, opened: { judge }, evaluator }: Course,
  pipe: Pipe,
): Promise<number | null> {
  const speeds = judgedSpeeds(target);
  const [result] = await evaluator.results([
    { name: 'carried', subject: meshed(subject, pipe, { cells, speeds, quick: true }) },
  ]);
  return judge(result as DraftResult, pipe)?.score ?? null;
}

const LABELS = { header: 'header for', 'header and baffle': 'header and baffle for' } as const;

function nameOf({ subject, target }: AimWish, id: StepId): string {
  const label = id === 'header' || id === 'header and baffle' ? LABELS[id] : 'aimed at';
  return `${subject.pipe.name}, ${label} ${target} rpm`;
}
