/** What aiming came to as plain data: the document, what the page is made of, and the lines of the table. */

import type { OfferedPipe } from '../../findings/answers/aim-steps.ts';
import { offersAnswer } from '../../findings/answers/aim-steps.ts';
import { bandDocument } from '../../findings/working-band.ts';
import { cautionsOf } from '../work/cautions.ts';
import { outlineOf } from '../work/run-sweep.ts';
import { BAND } from './objective.ts';
import type { AimedPipe, AimResult, SteppedPipe } from './result.ts';
import type { AimWish } from './wish.ts';

interface Told {
  readonly program: string;
  /** The case's name, with what was changed of it, and those changes. */
  readonly name: string;
  readonly changed: readonly string[];
  /** Files of the steps' pipes, in their order; null: nothing new is in it. */
  readonly files: readonly (string | null)[];
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

/** The file of the last pipe, or of the last step that changed anything. */
const newFileOf = ({ files }: Told): string => files.findLast((file) => file !== null) ?? '';

function scoreOfWish({ target }: AimWish) {
  return { name: `mean torque ${target - BAND} to ${target + BAND} rpm`, unit: 'Nm', higherIsBetter: true };
}

const offered = ({ id, rows, judged, build, dimensions, rules }: SteppedPipe): OfferedPipe => ({
  id,
  rows,
  mean: judged?.torque ?? null,
  build,
  dimensions,
  rules: rules.map(({ says }) => says),
});

/** What each step offers, against the given pipe. */
export function aimOffers({ target }: AimWish, { given, steps }: AimResult) {
  return offersAnswer({
    targetSpeed: target,
    halfBand: BAND,
    given: { rows: given.rows, mean: given.judged?.torque ?? null },
    offers: steps.map(offered),
  });
}

export function aimDocument(wish: AimWish, result: AimResult, told: Told) {
  const { subject, target, constraints, rules, mostDrafts, searchCell, seed } = wish;
  return {
    schemaVersion: 1 as const,
    kind: 'aim' as const,
    program: told.program,
    case: told.name,
    ...(told.changed.length === 0 ? {} : { changed: told.changed }),
    target,
    score: scoreOfWish(wish),
    search: { from: wish.from, vary: wish.vary, constraints, rules, mostDrafts, searchCell, seed },
    cell: subject.run.cell,
    startedFrom: result.startedFrom,
    gasTemperature: result.gasTemperature,
    given: result.given,
    start: result.start,
    first: aimOffers(wish, result).first,
    steps: stepDocuments(wish, result, told),
    after: result.after,
    changes: result.changes,
    sensitivities: result.sensitivities,
    limits: result.limits,
    cautions: aimCautions(wish, result),
    end: result.end,
    history: historyOf(result),
    newFile: newFileOf(told),
  };
}

/** What to mind before the last pipe is built. */
const aimCautions = ({ subject }: AimWish, { after }: AimResult): readonly string[] =>
  cautionsOf(subject, { ...subject, pipe: after.pipe }, { draft: 'the new pipe', base: 'the given one' });

function stepDocuments(wish: AimWish, result: AimResult, { files }: Told) {
  const { offers } = aimOffers(wish, result);
  return result.steps.map(({ drafts, end, ...step }, k) => {
    const offer = offers[k];
    return {
      id: step.id,
      drafts,
      end,
      file: files[k] ?? null,
      pipe: step.pipe,
      rows: step.rows,
      judged: step.judged,
      dimensions: step.dimensions,
      promises: {
        torque_nm: offer?.torque ?? null,
        at_rpm: wish.target,
        mean_torque_nm: offer?.mean ?? null,
        least_torque_nm: offer?.least?.torque ?? null,
        ...(offer === undefined ? {} : bandDocument(offer.band)),
        built_otherwise: step.build,
      },
      basis: 'run' as const,
      gain_nm: offer?.gain ?? null,
      robust: offer?.isRobust ?? false,
      rules: step.rules,
    };
  });
}

export function aimPageResult(wish: AimWish, result: AimResult, told: Told) {
  const { subject, target } = wish;
  // Before is the given pipe, unless the search was told to start from the handbook's.
  const before = wish.from === 'handbook' ? result.start : result.given;
  const offers = aimOffers(wish, result);
  return {
    program: told.program,
    caseName: told.name,
    targetSpeed: target,
    halfBand: BAND,
    cell: subject.run.cell,
    searchCell: wish.searchCell,
    score: scoreOfWish(wish),
    scoreBefore: before.judged?.torque ?? null,
    scoreAfter: result.after.judged?.torque ?? null,
    before: pagePipe(subject, before),
    after: pagePipe(subject, result.after),
    // The handbook's pipe that the search began with, where it is not the one before.
    start: result.start.pipe === before.pipe ? null : pagePipe(subject, result.start),
    given: offers.given,
    first: offers.first,
    offers: offers.offers.map((offer, k) => ({
      ...offer,
      file: told.files[k] ?? null,
      pipe: pagePipe(subject, result.steps[k]!),
    })),
    newFile: newFileOf(told),
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
    cautions: aimCautions(wish, result),
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
