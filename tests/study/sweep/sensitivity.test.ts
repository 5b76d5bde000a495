/** What an input that nobody measured moves: every assumed quantity has its change, and the moves are differences of runs. */

import { afterAll, describe, expect, test } from 'vitest';
import { movesAt as builtMovesAt } from '../../../dist/src/study/sweep/sensitivity.js';
import { openPool } from '../../../dist/src/study/work/pool.js';
import { caseOf, openFile } from '../../../src/case/load.ts';
import { inputsWithMoves, movesText } from '../../../src/commands/words/moves-text.ts';
import {
  assumedVariants,
  changedValue,
  changeText,
  hotterWall,
} from '../../../src/study/sweep/sensitivity.ts';
import { runGroup } from '../../../src/study/work/run-sweep.ts';
import { CASES } from '../../case/files.ts';

const demo = `${CASES}saltmarsh-125/draft-a.yaml`;

describe('a change', () => {
  test('is added in the unit of the file or taken as a share', () => {
    expect(changedValue('340 K', { add: 30 })).toBe('370 K');
    expect(changedValue('-14 deg', { add: 3 })).toBe('-11 deg');
    expect(changedValue('0.7', { add: 0.1 }, -1)).toBe('0.6');
    expect(changedValue('150 Pa/(m rpm)', { share: 0.2 })).toBe('180 Pa/(m rpm)');
    expect(changedValue('450 degC at the flange', { add: 1 })).toBe('451 degC at the flange');
    expect(changedValue('none', { add: 1 })).toBeNull();
  });

  test('is written with sign and unit, a difference of temperature in kelvin', () => {
    expect(changeText({ add: 10 }, 'degC')).toBe('+10 K');
    expect(changeText({ share: -0.03 }, 'bar')).toBe('-3 %');
    expect(changeText({ add: 0.1 }, '', -1)).toBe('-0.1');
  });
});

describe('variants of a case', () => {
  test.each(['saltmarsh-125/draft-a.yaml', 'bench-50/case.yaml', 'bench-250/case.yaml'])(
    '%s: every assumed quantity has one, and it differs in that alone',
    (name) => {
      const opened = openFile(`${CASES}${name}`);
      const subject = caseOf(opened, []);
      const variants = assumedVariants(opened, []);
      const quantities = subject.assumed.filter(
        ({ sort, path }) => sort === 'quantity' && path !== 'pipe.wall',
      );
      expect(variants.map(({ path }) => path)).toEqual(quantities.map(({ path }) => path));
      for (const { path, subject: varied } of variants) {
        const differing = varied.inputs.filter(
          ({ path: at, value }) => subject.inputs.find((one) => one.path === at)?.value !== value,
        );
        expect(differing.map((one) => one.path)).toEqual([path]);
      }
    },
  );

  test('overrides stay in force; a value at the end of its range goes the other way', () => {
    const variants = assumedVariants(openFile(demo), ['pipe.endCorrection=0.5']);
    expect(variants.some(({ path }) => path === 'pipe.endCorrection')).toBe(false);
    for (const { subject } of variants) expect(subject.pipe.endCorrection).toBe(0.5);
  });

  test('a change that leads out of what is allowed goes the other way', () => {
    const opened = openFile(demo);
    const changeOf = (set: string[], end: string): string | undefined =>
      assumedVariants(opened, set).find(({ path }) => path.endsWith(end))?.change;
    expect(changeOf([], 'shortCircuit')).toBe('+0.05');
    // All that does not cross straight displaces: more may not cross.
    expect(changeOf(['engine.scavenging.displacement=0.95'], 'shortCircuit')).toBe('-0.05');
  });

  test('the wall rises by 50 K wherever it was given', () => {
    const subject = caseOf(openFile(demo), []);
    const { wall } = subject.pipe;
    const hotter = hotterWall(subject, { positions: [], gasTemperature: [], wallTemperature: [] }).subject
      .pipe.wall;
    if (wall.by !== 'given' || hotter.by !== 'given') throw new Error('the demo gives its wall');
    expect(hotter.at.map((p) => p.temperature)).toEqual(wall.at.map((p) => p.temperature + 50));
    expect(hotter.at.map((p) => p.position)).toEqual(wall.at.map((p) => p.position));
  });

  test('a wall found by a balance is taken as it came out, from the flange on', () => {
    const given = caseOf(openFile(demo), []);
    const wall = { by: 'balance', emissivity: 0.8, outsideCoefficient: 60 } as const;
    const subject = { ...given, pipe: { ...given.pipe, wall } };
    const { length } = subject.engine.passage;
    const along = {
      positions: [0, length, length + 0.2],
      gasTemperature: [],
      wallTemperature: [500, 610, 590],
    };
    const hotter = hotterWall(subject, along).subject.pipe.wall;
    if (hotter.by !== 'given') throw new Error('it is given');
    expect(hotter.at.map((p) => p.temperature)).toEqual([660, 640]);
    expect(hotter.at[1]?.position).toBeCloseTo(0.2, 12);
  });
});

describe('moves', () => {
  const pool = openPool(2);
  afterAll(() => pool.close());

  test('are the differences of runs made one by one', async () => {
    const opened = openFile(demo);
    const set = ['run.cell=14 mm', 'run.maxCycles=9'];
    const subject = caseOf(opened, set);
    const variants = assumedVariants(opened, set).filter(({ path }) => /perSpeed|endCorrection/.test(path));
    const { of, speedRpm, cell } = await builtMovesAt(9000, { subject, variants }, { pool });
    expect([speedRpm, cell]).toEqual([9000, 0.014]);
    expect(of.map(({ path }) => path)).toEqual(['pipe.wall', ...variants.map(({ path }) => path)]);
    const at = (one: typeof subject) => {
      const alone = { ...one, run: { ...one.run, speeds: [9000] } };
      return runGroup({ subject: alone, speeds: [9000], brief: true }).records[0]?.row;
    };
    const base = at(subject);
    for (const { path, subject: varied } of variants) {
      const row = at(varied);
      const move = of.find((one) => one.path === path);
      expect(move?.torqueNm).toBe((row?.torque_nm ?? 0) - (base?.torque_nm ?? 0));
      expect(move?.leadDeg).toBe((base?.plugback_centroid_deg ?? 0) - (row?.plugback_centroid_deg ?? 0));
    }
    // Friction is added to what the gas did: 20 % of 150 Pa/(m rpm) over the displacement, and the wave not at all.
    const friction = of.find(({ path }) => path.endsWith('perSpeed'));
    const fmep = 0.2 * 150 * subject.engine.stroke * 9000;
    const displacement = (Math.PI / 4) * subject.engine.bore ** 2 * subject.engine.stroke;
    expect(friction?.leadDeg).toBe(0);
    expect(friction?.torqueNm).toBeCloseTo((-fmep * displacement) / (2 * Math.PI), 9);
    // A hotter wall heats the gas: the wave is back sooner.
    expect(of[0]?.leadDeg).toBeGreaterThan(0);
  });

  test('stand beside their inputs, those of the wall beside its first', () => {
    const move = { change: '+50 K', leadDeg: 1, torqueNm: null };
    const inputs = [
      { path: 'pipe.wall.given.0.temperature' },
      { path: 'pipe.wall.given.1.temperature' },
      { path: 'pipe.walls' },
    ];
    expect(inputsWithMoves(inputs, [{ path: 'pipe.wall', ...move }])).toEqual([
      { ...inputs[0], moves: move },
      inputs[1],
      inputs[2],
    ]);
    const text = movesText({ speedRpm: 9000, cell: 8e-3, of: [{ path: 'pipe.wall', ...move }] });
    expect(text).toContain('pipe.wall  +50 K          +1.0       -');
    expect(text.split('\n').every((line) => line.length <= 80)).toBe(true);
  });
});
