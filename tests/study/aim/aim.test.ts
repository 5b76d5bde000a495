/**
 * Ring: identity and exact solution. Aiming with a made-up engine of which the best pipe is known: the real search,
 * rounding, trimming, proof and reasons, but instead of the gas a formula.
 */

import { describe, expect, test } from 'vitest';
import { cellsFor } from '../../../solver/index.ts';
import { loadCase } from '../../../src/case/load.ts';
import { limitsOf } from '../../../src/case/study/flag-limits.ts';
import type { Case } from '../../../src/model/case.ts';
import type { Pipe } from '../../../src/model/pipe.ts';
import { exhaustSections } from '../../../src/pipe/exhaust.ts';
import { roundedPipe } from '../../../src/pipe/rounding.ts';
import { withBelly, withLength, withTail } from '../../../src/pipe/shape.ts';
import { aim } from '../../../src/study/aim/aim.ts';
import type { Asked, Evaluator } from '../../../src/study/aim/evaluator.ts';
import { cellCount, meshed } from '../../../src/study/aim/mesh.ts';
import { judge } from '../../../src/study/aim/objective.ts';
import { aimQuantities, pipeAt, pointOf } from '../../../src/study/aim/quantities.ts';
import type { AimWish } from '../../../src/study/aim/wish.ts';
import type { DraftResult } from '../../../src/study/work/draft.ts';

const subject = loadCase(new URL('../../../cases/saltmarsh-125/draft-c.yaml', import.meta.url).pathname);
const lengthOf = (pipe: Pipe): number => pipe.sections.reduce((sum, { length }) => sum + length, 0);
const section = (pipe: Pipe, role: string) =>
  pipe.sections.find((one) => one.role === role) as Pipe['sections'][number];

/** Torque is best, 20 Nm, with a header of 187.3 mm and a belly of 90 mm; 4 degrees of lead for each 10 mm less header. */
function madeUp({ pipe, run }: Case): DraftResult {
  const header = 1000 * section(pipe, 'header').length;
  const belly = 1000 * section(pipe, 'belly').diameter[0];
  const torque = 20 - ((header - 187.3) / 40) ** 2 - ((belly - 90) / 20) ** 2;
  return {
    ok: true,
    rows: run.speeds.map((speed) => ({
      speed_rpm: speed,
      settled: true,
      torque_nm: torque,
      power_kw: (torque * speed * Math.PI) / 30_000,
      plugback_lead_deg: 15 - 0.4 * (header - 187.3),
      plugback_centroid_deg: 262 + 0.4 * (header - 187.3),
      exhaust_closes_deg: 277,
      transfers_close_deg: 245,
      pipe_mean_temperature_k: 800,
    })) as unknown as (DraftResult & { ok: true })['rows'],
  };
}

const names: string[] = [];
const evaluator = (run: (subject: Case) => DraftResult): Evaluator => ({
  results: async (asked: readonly Asked[]) =>
    asked.map((one) => {
      names.push(one.name);
      return run(one.subject);
    }),
  done: 0,
  dropped: '',
  close: () => {},
});
const silent = { stage: () => {}, ran: () => {} };
const wish: AimWish = {
  subject,
  target: 11_000,
  from: 'draft',
  vary: ['header.length', 'belly.diameter'],
  constraints: limitsOf([]),
  rules: false,
  mostDrafts: 200,
  searchCell: 0.008,
  seed: 1,
};

describe('aiming', () => {
  test('finds the best pipe in whole millimetres, and proves it', async () => {
    const result = await aim(wish, evaluator(madeUp), silent);
    const { pipe, judged } = result.after;
    expect(section(pipe, 'header').length).toBe(0.187);
    expect(section(pipe, 'belly').diameter).toEqual([0.09, 0.09]);
    expect(judged?.torque).toBeCloseTo(20 - (0.3 / 40) ** 2, 9);
    expect(result.startedFrom).toBe('draft');
    expect(result.given.judged?.torque).toBeLessThan(14);
    expect(result.limits).toEqual([]);
    // What was not to be moved is as it was, but for whole millimetres.
    for (const [k, one] of pipe.sections.entries())
      if (one.role !== 'header') expect(one.length).toBe(subject.pipe.sections[k]?.length);
  });

  test('tells sensitivities by central differences', async () => {
    const { sensitivities, after } = await aim(wish, evaluator(madeUp), silent);
    const header = sensitivities.find(({ name }) => name === 'header');
    expect(header?.leadDeg).toBeCloseTo(-4, 9);
    // The slope of the parabola at 187 mm, times 10 mm.
    expect(header?.torqueNm).toBeCloseTo((-2 * (187 - 187.3) * 10) / 1600, 9);
    expect(header?.powerKw).toBeCloseTo(((header?.torqueNm ?? 0) * 11_000 * Math.PI) / 30_000, 9);
    expect(header?.step).toBe('10 mm');
    // Either side as it is, not their mean.
    expect(header?.torqueMoreNm).toBeCloseTo(-((9.7 / 40) ** 2) + (0.3 / 40) ** 2, 9);
    expect(header?.torqueLessNm).toBeCloseTo(-((10.3 / 40) ** 2) + (0.3 / 40) ** 2, 9);
    expect([header?.leadLessDeg, header?.leadMoreDeg].map((lead) => Number(lead?.toFixed(9)))).toEqual([
      4, -4,
    ]);
    expect(header?.powerLessKw).toBeCloseTo(((header?.torqueLessNm ?? 0) * 11_000 * Math.PI) / 30_000, 9);
    expect(sensitivities.map(({ name }) => name)).toEqual([
      ...after.pipe.sections.map(({ name }) => name),
      'wall',
    ]);
    expect(sensitivities.find(({ name }) => name === 'wall')?.torqueNm).toBe(0);
  });

  test('stays within constraints and names the one that holds it', async () => {
    const free =
      lengthOf(subject.pipe) - section(subject.pipe, 'stinger').length + subject.engine.passage.length;
    // A header of 220 mm at least.
    const least = Math.round(1000 * (free - section(subject.pipe, 'header').length + 0.22));
    const result = await aim(
      { ...wish, constraints: limitsOf([`lengthToBaffleEnd.atLeast=${least} mm`]) },
      evaluator(madeUp),
      silent,
    );
    // Rounding may leave a millimetre between the pipe and the limit that it rests on.
    const header = Math.round(1000 * section(result.after.pipe, 'header').length);
    expect([220, 221]).toContain(header);
    expect(result.limits).toEqual([
      `length to the baffle's end ${least + header - 220} mm, allowed at least ${least} mm`,
    ]);
  });

  test('goes no further than the window lets the plug-back', async () => {
    // More torque the shorter the header, without end, but the lead grows past transfer closing.
    const greedy = (one: Case): DraftResult => {
      const result = madeUp(one);
      if (!result.ok) return result;
      const torque = 25 - 20 * section(one.pipe, 'header').length;
      return { ok: true, rows: result.rows.map((row) => ({ ...row, torque_nm: torque })) };
    };
    const result = await aim({ ...wish, vary: ['header.length'] }, evaluator(greedy), silent);
    // The window is 32 deg wide: 42.5 mm less than 187.3 mm, in whole millimetres, is inside; the search may not go below.
    expect(section(result.after.pipe, 'header').length).toBe(
      Math.max(0.145, 0.4 * section(subject.pipe, 'header').length),
    );
  });

  test('believes the fine mesh where the coarse one hides an edge', async () => {
    const edge = (one: Case): DraftResult => {
      const result = madeUp(one);
      const beyond = one.run.cell < 0.006 && section(one.pipe, 'header').length < 0.19;
      return result.ok && beyond
        ? { ok: true, rows: result.rows.map((row) => ({ ...row, torque_nm: 10 })) }
        : result;
    };
    const result = await aim(wish, evaluator(edge), silent);
    expect(section(result.after.pipe, 'header').length).toBeGreaterThanOrEqual(0.19);
    expect(section(result.after.pipe, 'header').length).toBeLessThan(0.2);
    const { torqueLessNm } = result.sensitivities.find(({ name }) => name === 'header') ?? {};
    expect(torqueLessNm).toBeLessThan(-9);
  });

  test('takes the better of the draft and the handbook, or what it is told', async () => {
    const longWins = (one: Case): DraftResult => {
      const result = madeUp(one);
      const torque = 10 + lengthOf(one.pipe);
      return result.ok
        ? {
            ok: true,
            rows: result.rows.map((row) => ({ ...row, torque_nm: torque, plugback_centroid_deg: 267 })),
          }
        : result;
    };
    const from = async (start: AimWish['from'], run: (subject: Case) => DraftResult) =>
      (await aim({ ...wish, from: start, vary: ['belly.length'], mostDrafts: 8 }, evaluator(run), silent))
        .startedFrom;
    expect(await from('better', longWins)).toBe('draft');
    expect(
      await from('better', (one) =>
        longWins({ ...one, pipe: withLength(one.pipe, 0, 3 - lengthOf(one.pipe)) }),
      ),
    ).toBe('handbook');
    expect(await from('handbook', longWins)).toBe('handbook');
  });

  test('says why where nothing can be run', async () => {
    const fails = (): DraftResult => ({ ok: false, reason: 'the march broke down' });
    await expect(aim(wish, evaluator(fails), silent)).rejects.toThrow(
      /No pipe to start from could be run at 11000 rpm: the march broke down/,
    );
  });

  test('refuses a quantity that is none', async () => {
    await expect(aim({ ...wish, vary: ['hedder.length'] }, evaluator(madeUp), silent)).rejects.toThrow(
      /"hedder.length" is no quantity that can be moved[\s\S]*the sections are header, diffuser 1/,
    );
  });
});

describe('a pipe that is moved', () => {
  const quantities = aimQuantities(subject.pipe, []);

  test('comes back from its point', () => {
    const point = pointOf(subject.pipe, quantities);
    const again = pipeAt(subject.pipe, quantities, point);
    for (const [k, one] of again.sections.entries()) {
      expect(one.length).toBeCloseTo(subject.pipe.sections[k]?.length ?? 0, 12);
      expect(one.diameter[1]).toBeCloseTo(subject.pipe.sections[k]?.diameter[1] ?? 0, 12);
    }
    const moved = pipeAt(
      subject.pipe,
      quantities,
      quantities.map(() => 0.3),
    );
    expect(pointOf(moved, quantities).map((x) => Number(x.toFixed(9)))).toEqual(quantities.map(() => 0.3));
  });

  test.each([
    ['belly', (pipe: Pipe) => withBelly(pipe, 0.11)],
    ['tail', (pipe: Pipe) => withTail(pipe, 0.026)],
    ['rounding', (pipe: Pipe) => roundedPipe(withBelly(pipe, 0.0973), 'nearest')],
  ])('stays joined: %s', (_, change) => {
    const { sections } = change(subject.pipe);
    for (const [k, one] of sections.entries())
      if (k > 0) expect(one.diameter[0]).toBeCloseTo(sections[k - 1]?.diameter[1] ?? 0, 12);
    expect(sections[0]?.diameter[0]).toBe(subject.pipe.sections[0]?.diameter[0]);
  });

  test('keeps its cones in proportion', () => {
    const [, first, second] = withBelly(subject.pipe, 0.12).sections;
    const [, was, last] = subject.pipe.sections;
    const share = (d: number, low: number, high: number): number => (d - low) / (high - low);
    expect(share(first?.diameter[1] ?? 0, first?.diameter[0] ?? 0, second?.diameter[1] ?? 0)).toBeCloseTo(
      share(was?.diameter[1] ?? 0, was?.diameter[0] ?? 0, last?.diameter[1] ?? 0),
      12,
    );
  });

  test('takes its wall along', () => {
    const longer = withLength(subject.pipe, 0, 0.5).wall;
    expect(longer.by === 'given' && longer.at.at(-1)?.position).toBeCloseTo(
      lengthOf(withLength(subject.pipe, 0, 0.5)),
      9,
    );
  });

  test('lies on as many cells whatever its length', () => {
    const cells = cellCount(subject, 0.008);
    for (const by of [-0.1, -0.0031, 0, 0.0007, 0.2]) {
      const one = meshed(subject, withLength(subject.pipe, 0, 0.33 + by), {
        cells,
        speeds: [9000],
        quick: true,
      });
      const tail = 0.5 * one.pipe.endCorrection * (one.pipe.sections.at(-1)?.diameter[1] ?? 0);
      const length = exhaustSections(one).reduce((sum, part) => sum + part.length, tail);
      expect(cellsFor(length, one.run.cell)).toBe(cells);
    }
  });
});

test('a degree outside the window costs a fiftieth of the torque', () => {
  const late = (lead: number | null): DraftResult => {
    const result = madeUp(
      meshed(subject, subject.pipe, { cells: 50, speeds: [10_500, 11_000, 11_500], quick: true }),
    );
    return result.ok
      ? {
          ok: true,
          rows: result.rows.map((row) => ({
            ...row,
            torque_nm: 10,
            plugback_centroid_deg: lead === null ? null : 277 - lead,
          })),
        }
      : result;
  };
  expect(judge(late(1), { target: 11_000, unit: 20 })?.score).toBe(10);
  expect(judge(late(-5), { target: 11_000, unit: 20 })).toMatchObject({
    score: 8,
    torque: 10,
    outsideDeg: 5,
  });
  expect(judge(late(33), { target: 11_000, unit: 20 })?.score).toBeCloseTo(10 - 0.4, 12);
  expect(judge(late(null), { target: 11_000, unit: 20 })).toMatchObject({
    middleLeadDeg: null,
    outsideDeg: 40,
  });
});
