/** The keys of mixing, scavenging and burning, and what is taken where nothing is stated. Ring: identity. */

import { describe, expect, test } from 'vitest';
import { loadCase } from '../../src/case/load.ts';
import { DRAFTS, type Edit, edited, problems } from './files.ts';

const demoCase = `${DRAFTS}saltmarsh-125/draft-a.yaml`;

const stated = (keys: string): Edit => ['intake:', `${keys}\nintake:`];
const engineWith = (keys: string) => loadCase(edited({ engine: [stated(keys)] })).engine;
const refusal = (keys: string): string => problems(() => loadCase(edited({ engine: [stated(keys)] })));

describe('scavenging', () => {
  test('is two zones where nothing is stated, a stream of three parts where its shares stand alone', () => {
    expect(loadCase(demoCase).engine.scavenging).toEqual({
      by: 'twoZone',
      mixingVolume: 0.57,
      shortCircuit: 0.05,
    });
    expect(engineWith('scavenging: { displacement: 0.4, shortCircuit: 0.1 }').scavenging).toEqual({
      by: 'threeWay',
      displacement: 0.4,
      shortCircuit: 0.1,
    });
  });

  test('is a law by its name', () => {
    expect(engineWith('scavenging: twoZone').scavenging).toEqual({
      by: 'twoZone',
      mixingVolume: 0.57,
      shortCircuit: 0.05,
    });
    expect(engineWith('scavenging: { twoZone: { mixingVolume: 0.4 } }').scavenging).toMatchObject({
      mixingVolume: 0.4,
    });
    expect(engineWith('scavenging: { threeWay: { displacement: 0.3 } }').scavenging).toMatchObject({
      by: 'threeWay',
      displacement: 0.3,
    });
    expect(engineWith('scavenging: { table: [[0.5, 0.45], [1, 0.75]] }').scavenging).toEqual({
      by: 'table',
      points: [
        { scavengeRatio: 0.5, efficiency: 0.45 },
        { scavengeRatio: 1, efficiency: 0.75 },
      ],
    });
  });

  test.each([
    ['table: [[0.5, 0.6]]', 'more would stay in the cylinder than came in'],
    ['table: [[0.5, 0.4], [0.4, 0.5]]', 'have to grow from point to point'],
    ['table: [[2, 1]]', 'the efficiency stays below 1'],
    ['displacement: 0.8, shortCircuit: 0.3', 'together at most 1'],
    ['twozone: {}', 'did you mean "twoZone"'],
  ])('{ %s } is refused: %s', (keys, why) => {
    expect(refusal(`scavenging: { ${keys} }`)).toContain(why);
  });
});

test('ignition is one angle or a curve over ascending speeds', () => {
  expect(loadCase(demoCase).engine.combustion.start).toHaveLength(1);
  expect(
    engineWith(
      'combustion: { start: [{ speed: 8000 rpm, angle: -16 deg }, { speed: 12000 rpm, angle: -8 deg }] }',
    ).combustion.start,
  ).toEqual([
    { rpm: 8000, deg: expect.closeTo(-16, 9) },
    { rpm: 12_000, deg: expect.closeTo(-8, 9) },
  ]);
  expect(
    refusal(
      'combustion: { start: [{ speed: 9000 rpm, angle: -16 deg }, { speed: 8000 rpm, angle: -8 deg }] }',
    ),
  ).toContain('speeds have to ascend');
});

test('mixing along the ducts is that of the published coefficient, assumed with its range', () => {
  const { run, assumed } = loadCase(demoCase);
  expect(run.mixing).toBe(1);
  const said = assumed.find(({ path }) => path === 'run.mixing');
  expect(said?.sort).toBe('quantity');
  expect(said?.reason).toContain('0.5 to 3');
  expect(loadCase(demoCase, { set: ['run.mixing=0'] }).run.mixing).toBe(0);
});

test('residual gas slows the burn unless that is switched off by a word', () => {
  expect(loadCase(demoCase).engine.combustion.residualAtDuration).toBe(0.1);
  const off = engineWith('combustion: { residualAtDuration: none }');
  expect(off.combustion.residualAtDuration).toBeNull();
  expect(refusal('combustion: { residualAtDuration: 0.4 }')).toContain('residualAtDuration');
});
