/** What the index shows of a run: its title, the answer in one line, outlines and a curve, from what its page was given. */

import { sweepAnswer } from '../../src/findings/answers/sweep.ts';
import { middleLead } from '../../src/findings/landing.ts';
import type { ThumbCurve } from '../figures/thumbnail.ts';
import { fixed, newtonMetres, rpm, speed, THIN } from '../theme/numbers.ts';
import type { AimPageResult } from './aim-page.ts';
import type { ComparePageResult } from './compare-page.ts';
import type { IndexedRun } from './index-entry.ts';
import { keptExtremes } from './kept-extremes.ts';
import type { MapPageResult } from './map-page.ts';
import type { OvernightPageResult } from './overnight-page.ts';
import { type PulsePageResult, pulseHeadline } from './pulse-page.ts';
import type { ReconcilePageResult } from './reconcile-page.ts';
import { reconcileHeadline } from './reconcile-words.ts';
import type { SweepPageResult } from './sweep-data.ts';
import { sweepText } from './sweep-words.ts';
import type { VerifyPageResult } from './verify-page.ts';

export type RunCard = Pick<IndexedRun, 'title' | 'kind' | 'of' | 'line' | 'outlines' | 'curves' | 'sweep'>;

/** The case of a what-if: its name without what was changed. */
const baseOf = (name: string): string => name.split(' · ')[0] ?? name;

/** Points a curve keeps at most: a thumb is 160 wide. */
const MOST = 160;

function curve(
  kind: ThumbCurve['kind'],
  x: readonly number[],
  y: readonly (number | null | undefined)[],
): ThumbCurve {
  const kept = keptExtremes([y.map((value) => value ?? Number.NaN)], MOST);
  return { kind, x: kept.map((i) => shortOf(x[i]) ?? 0), y: kept.map((i) => shortOf(y[i])) };
}

const shortOf = (value: number | null | undefined): number | null =>
  typeof value === 'number' && Number.isFinite(value) ? Number(value.toPrecision(5)) : null;

interface CurveRow {
  readonly speed_rpm: number;
  readonly torque_nm: number | null;
  readonly power_kw: number | null;
}

const speeds = (rows: readonly CurveRow[]): number[] => rows.map((row) => row.speed_rpm);
const torqueCurve = (rows: readonly CurveRow[], kind: 'torque' | 'draft' = 'torque'): ThumbCurve =>
  curve(
    kind,
    speeds(rows),
    rows.map((row) => row.torque_nm),
  );

export function sweepCard({ case: subject, rows, outline }: SweepPageResult): RunCard {
  const { headline, lines } = sweepText(sweepAnswer(rows, subject.run.targetSpeed));
  const torque = lines.find(({ label }) => label.startsWith('Best torque'));
  const power = curve(
    'power',
    speeds(rows),
    rows.map((row) => row.power_kw),
  );
  return {
    title: subject.name,
    kind: 'sweep',
    of: baseOf(subject.name),
    line: torque === undefined ? headline : `${headline} ${torque.label} ${torque.text.split(';')[0]}.`,
    outlines: [outline],
    curves: [torqueCurve(rows), power],
    sweep: {
      speeds: speeds(rows),
      torque: rows.map((row) => shortOf(row.torque_nm)),
      lead: rows.map((row) => shortOf(middleLead(row))),
    },
  };
}

export function mapCard({ name, points, outline, ownDuration, best }: MapPageResult): RunCard {
  const durations = [...new Set(points.map(({ durationDeg }) => durationDeg))];
  const span = `${points.length} points at ${durations.length} exhaust durations`;
  const drawn = ownDuration === null ? '' : `, drawn with ${fixed(ownDuration, 1)}°`;
  const atBest = points.filter(({ durationDeg }) => durationDeg === best?.durationDeg).map(({ row }) => row);
  return {
    title: name,
    kind: 'map',
    of: baseOf(name),
    line:
      best === null
        ? `${span}; none finished.`
        : `${span}${drawn}. Most torque ${newtonMetres(best.value)} at ${rpm(best.speedRpm)} with ${fixed(best.durationDeg, 1)}°.`,
    outlines: [outline],
    curves: [torqueCurve(atBest)],
  };
}

export function compareCard({ drafts }: ComparePageResult): RunCard {
  const best = drafts.map(({ name, sweep }) => {
    const torque = Math.max(...sweep.rows.map((row) => row.torque_nm ?? 0));
    return `${name} ${newtonMetres(torque)}`;
  });
  return {
    title: drafts.map(({ name }) => name).join(' against '),
    kind: 'compare',
    of: baseOf(drafts[0]?.sweep.case.name ?? ''),
    line: `Best torque: ${best.join(', ')}.`,
    outlines: drafts.map(({ sweep }) => sweep.outline),
    curves: drafts.map(({ sweep }) => torqueCurve(sweep.rows, 'draft')),
  };
}

export function overnightCard({ study, drafts, total, score, best }: OvernightPageResult): RunCard {
  const scored = drafts.filter((one) => one.score !== null);
  const winner = scored[0];
  const count = `${scored.length} of ${total} drafts scored`;
  return {
    title: study,
    kind: 'overnight',
    line:
      winner === undefined
        ? `${count}.`
        : `${count}. The best is ${winner.name} with ${fixed(winner.score, 1)}${score.unit === '' ? '' : `${THIN}${score.unit}`} (${score.name}).`,
    outlines: best.slice(0, 3).map(({ outline }) => outline),
    curves: best.slice(0, 1).map(({ rows }) => torqueCurve(rows)),
  };
}

export function aimCard({ caseName, targetSpeed, halfBand, ...aimed }: AimPageResult): RunCard {
  const { scoreBefore, scoreAfter, before, after } = aimed;
  return {
    title: `${caseName} for ${rpm(targetSpeed)}`,
    kind: 'aim',
    of: baseOf(caseName),
    line: `Mean torque ${newtonMetres(scoreBefore)} before, ${newtonMetres(scoreAfter)} after, from ${speed(targetSpeed - halfBand)} to ${rpm(targetSpeed + halfBand)}.`,
    outlines: [before.outline, after.outline],
    curves: [torqueCurve(before.rows, 'draft'), torqueCurve(after.rows, 'draft')],
  };
}

export function pulseCard(result: PulsePageResult): RunCard {
  const { name, sections, probes } = result;
  const probe = probes[0];
  return {
    title: name,
    kind: 'pulse',
    line: pulseHeadline(result),
    outlines: [sections.map((section) => ({ ...section, role: 'section' }))],
    curves:
      probe === undefined
        ? []
        : [curve('outgoing', probe.time, probe.forward), curve('returning', probe.time, probe.backward)],
  };
}

export function verifyCard({ checks, seconds }: VerifyPageResult): RunCard {
  const missed = checks.filter(({ pass }) => !pass).map(({ name }) => name);
  return {
    title: 'Problems with known answers',
    kind: 'verify',
    line:
      missed.length === 0
        ? `All ${checks.length} checks are within their bounds, in ${fixed(seconds, 0)} s.`
        : `${missed.length} of ${checks.length} checks missed: ${missed.join('; ')}.`,
    outlines: [],
    curves: [],
  };
}

export function reconcileCard({ name, groups, answer }: ReconcilePageResult): RunCard {
  const torque = groups.find(({ kind }) => kind === 'torque')?.points ?? [];
  const x = torque.map((point) => point.x);
  const curves = [
    curve(
      'draft',
      x,
      torque.map(({ base }) => base),
    ),
    curve(
      'torque',
      x,
      torque.map(({ central }) => central),
    ),
  ];
  return {
    title: name,
    kind: 'reconcile',
    of: name,
    line: reconcileHeadline(answer),
    outlines: [],
    curves: torque.length > 1 ? curves : [],
  };
}
