/**
 * Transfer passages as ducts. Rings: exact solution (the column of gas between two volumes), identity (its slow limit is the lumped
 * passage), conservation, regression (both forms of the kernel). And what they are for: gas that was blown back returns first.
 */

import { describe, expect, test } from 'vitest';
import {
  CLOCK,
  fixedOpening,
  GasModel,
  hasTwoLanes,
  type Link,
  type MarchingDuct,
  Network,
  newClock,
  newDuct,
  newFlow,
  rigidDrive,
  Volume,
} from '../../solver/index.ts';
import { buildEngine, type EngineNetwork } from '../../src/engine/build.ts';
import { CHANNEL, CycleRecorder } from '../../src/engine/read/recorder.ts';
import { marchCycle } from '../../src/engine/run/cycle.ts';
import { startCold, startFrom, takeState } from '../../src/engine/run/state.ts';
import { meshPassages, passagesVolume } from '../../src/pipe/transfer-passages.ts';
import { draft, type FullRow, rowAt } from './demo.ts';

const AIR = GasModel.perfectGas(1.4, 287);
const PASSAGE = { ...draft('a').engine.transfers.passage, as: 'duct' } as const;

interface Rig {
  readonly network: Network;
  readonly first: Volume;
  readonly second: Volume;
}

/** Two volumes with the passages between them and an opening at the second; the first includes passages that are ducts. */
function rig(
  as: 'lumped' | 'duct',
  [one, other]: readonly [number, number],
  opening: number,
  gas = AIR,
): Rig {
  const held = as === 'duct' ? passagesVolume(PASSAGE) : 0;
  const first = new Volume('first', gas, rigidDrive(one - held));
  const second = new Volume('second', gas, rigidDrive(other));
  const ducts: MarchingDuct[] = [];
  const links: Link[] = [];
  if (as === 'duct') {
    const duct = newDuct('conservative', 'passages', gas, meshPassages(PASSAGE, 5, 10e-3));
    ducts.push(duct);
    const port = { kind: 'port', role: 'plain' } as const;
    const mouth = fixedOpening(duct.left.area);
    links.push(
      { ...port, end: duct.left, volume: first, opening: mouth, flow: newFlow() },
      { ...port, end: duct.right, volume: second, opening: fixedOpening(opening), flow: newFlow() },
    );
  } else
    links.push({
      kind: 'passage',
      from: first,
      to: second,
      toRole: 'plain',
      opening: fixedOpening(opening),
      inertance: PASSAGE.length / PASSAGE.area,
      column: new Float64Array(2),
      flow: newFlow(),
    });
  return { network: new Network(ducts, [first, second], links, 0.9), first, second };
}

function filled(it: Rig, pressure: number, beyond: number, burnt = 0): Rig {
  it.first.fill(0, pressure, 330, 0);
  it.second.fill(0, beyond, 330, burnt);
  for (const duct of it.network.ducts)
    for (let i = 0; i < duct.geometry.cells; i++) duct.setCell(i, pressure, 330, 0, 0);
  return it;
}

describe('the slow limit', () => {
  test('two volumes even out through a small opening as with the lumped passage, within 0.5 %', () => {
    const [lumped, duct] = (['lumped', 'duct'] as const).map((as) =>
      filled(rig(as, [400e-6, 150e-6], 20e-6), 1.3e5, 1e5),
    ) as [Rig, Rig];
    for (const time of [5e-3, 10e-3, 20e-3]) {
      const gained = [lumped, duct].map(({ network, second }) => {
        // Without ducts nothing bounds a step.
        while (network.time < time - 1e-9) network.step(Math.min(20e-6, time - network.time));
        return second.pressure - 1e5;
      });
      expect(Math.abs(gained[1]! / gained[0]! - 1)).toBeLessThan(0.005);
    }
  });

  test('the column swings between two large volumes as a mass on a spring, within 0.5 %', () => {
    // w^2 = a^2 A/L (1/V1 + 1/V2), Helmholtz; the gas in the passages is 1 % of either volume.
    const sizes = [12e-3, 12e-3] as const;
    const omega = Math.sqrt(1.4 * 287 * 330 * (PASSAGE.area / PASSAGE.length) * (2 / sizes[0]));
    const period = (2 * Math.PI) / omega;
    for (const as of ['lumped', 'duct'] as const) {
      const { network, first, second } = filled(rig(as, sizes, PASSAGE.exitArea), 1e5 + 0.5, 1e5 - 0.5);
      const crossings: number[] = [];
      let before = 1;
      while (network.time < 1.7 * period) {
        const dt = network.step(period / 200);
        const now = first.pressure - second.pressure;
        if (before * now < 0) crossings.push(network.time - (dt * now) / (now - before));
        before = now;
      }
      // A quarter, three quarters, five quarters of a period.
      expect(crossings.length).toBeGreaterThanOrEqual(3);
      expect(Math.abs((crossings[2]! - crossings[0]!) / period - 1), as).toBeLessThan(0.005);
    }
  });
});

describe('built', () => {
  const subject = draft('a');
  const [lumped, duct] = (['lumped', 'duct'] as const).map((as) =>
    buildEngine(draft('a', [`engine.transfers.passage.as=${as}`]), 9500, 10e-3),
  ) as [EngineNetwork, EngineNetwork];

  test('the mesh holds the passages: areas at both ends, volume, and the diameter of one', () => {
    const { faceArea, volume, diameter } = meshPassages(PASSAGE, 5, 10e-3);
    expect(faceArea[0]).toBeCloseTo(PASSAGE.entryArea, 12);
    expect(faceArea.at(-1)).toBeCloseTo(PASSAGE.exitArea, 12);
    expect(volume.reduce((sum, one) => sum + one, 0) / passagesVolume(PASSAGE)).toBeCloseTo(1, 12);
    expect(diameter.at(-1)).toBeLessThan(1.1 * Math.sqrt((4 * PASSAGE.exitArea) / (5 * Math.PI)));
  });

  test('crankcase and passages hold together what the crankcase held', () => {
    const volumes = [lumped, duct].map(
      ({ crankcase, transfers }) =>
        crankcase.volume.volumeAt(0.002) +
        transfers.ducts.reduce((sum, { geometry }) => sum + geometry.volume.reduce((a, b) => a + b, 0), 0),
    );
    expect(volumes[1]! / volumes[0]!).toBeCloseTo(1, 12);
  });

  test('the windows discharge alike, each way by its own coefficient', () => {
    const clock = newClock(0);
    // Bottom dead centre.
    clock[CLOCK.stage] = 180 / (6 * 9500);
    const [both, port] = [lumped, duct].map(({ transfers }) => {
      const link = transfers.links.at(-1)!;
      if (link.kind !== 'passage' && link.kind !== 'port') throw new Error(link.kind);
      link.opening.set(clock);
      return link.opening;
    });
    const { inFull, outFull } = subject.engine.transfers.discharge;
    expect(inFull).not.toBe(outFull);
    // A passage counts out of the crankcase, a port out of the cylinder.
    expect(port!.areaIn).toBe(both!.areaOut);
    expect(port!.areaOut).toBe(both!.areaIn);
    expect(port!.areaOut / port!.areaIn).toBeCloseTo(outFull / inFull, 2);
  });
});

test('mass, burnt mass and energy are kept over 10 000 steps', () => {
  const gas = GasModel.charge(1.85, 1.1);
  const { network } = filled(rig('duct', [400e-6, 150e-6], 900e-6, gas), 1.1e5, 3e5, 1);
  const held = (): number[] => [network.mass(), network.burntMass(), network.energyContent()];
  const start = held();
  const scale = [start[0]!, start[0]!, start[0]! * 800 * 600];
  for (let step = 0; step < 10_000; step++) network.step(1);
  held().forEach((value, k) => void expect(Math.abs(value - start[k]!) / scale[k]!).toBeLessThan(1e-12));
});

describe('the demo on 20 mm cells', () => {
  const asDuct = 'engine.transfers.passage.as=duct';
  const by = (...set: string[]): FullRow => rowAt(draft('a', ['run.cell=20mm', ...set]), 9500);
  const kernels = hasTwoLanes() ? ['plain', 'two-lane'] : ['plain'];
  const rows = kernels.map((kernel) => by(asDuct, `run.kernel=${kernel}`));

  test('keeps its books and differs from lumped passages by less than a tenth', () => {
    const lumped = by();
    for (const row of [...rows, by(asDuct, 'run.scheme=finite-volume')]) {
      expect(row.settled).toBe(true);
      expect(row.mass_balance_error).toBeLessThan(1e-9);
      expect(row.energy_balance_error).toBeLessThan(1e-9);
      expect(row.torque_nm).not.toBe(lumped.torque_nm);
      expect(Math.abs(row.torque_nm / lumped.torque_nm - 1)).toBeLessThan(0.1);
      expect(Math.abs(row.plugback_centroid_deg - lumped.plugback_centroid_deg)).toBeLessThan(3);
    }
    for (const row of rows) expect(Math.abs(row.torque_nm / rows[0]!.torque_nm - 1)).toBeLessThan(1e-3);
  });

  test('what was blown back comes back first, and a state put back still holds it', () => {
    const [lumped, duct] = (['lumped', 'duct'] as const).map((as) => {
      const engine = buildEngine(draft('a', [`engine.transfers.passage.as=${as}`]), 10_000, 10e-3);
      startCold(engine);
      for (let cycle = 0; cycle < 4; cycle++) marchCycle(engine, null);
      const recorder = new CycleRecorder(engine);
      marchCycle(engine, recorder);
      const [flow, burnt] = [CHANNEL.transferFlow, CHANNEL.transferBurnt].map((c) => recorder.channels[c]!);
      const back = flow!.subarray(0, recorder.steps).findIndex((value) => value < -5e-3);
      const turns = flow!.findIndex((value, k) => k > back && value > 5e-3);
      expect(back).toBeGreaterThan(0);
      expect(turns).toBeGreaterThan(back);
      const middle = recorder.channels[CHANNEL.midDeg]!.findIndex(
        (deg) => deg > 180 - engine.cylinder.opensDeg,
      );
      const shareAt = (k: number): number => burnt![k]! / flow![k]!;
      return { engine, first: shareAt(turns), later: shareAt(middle) };
    }) as [Came, Came];
    expect(duct.first).toBeGreaterThan(0.1);
    expect(duct.first).toBeGreaterThan(5 * lumped.first);
    // Then it has gone, where a lumped passage has mixed it into the crankcase.
    expect(duct.later).toBeLessThan(0.5 * lumped.later);
    const again = buildEngine(duct.engine.subject, 10_000, 10e-3);
    startFrom(again, takeState(duct.engine));
    const [kept, put] = [duct.engine, again].map(({ transfers }) => transfers.ducts[0]!.burntMass());
    expect(kept).toBeGreaterThan(0);
    expect(put! / kept!).toBeCloseTo(1, 12);
  });
});

/** An engine after a cycle, and the burnt share of what enters through its transfers first and at bottom dead centre [-]. */
interface Came {
  readonly engine: EngineNetwork;
  readonly first: number;
  readonly later: number;
}
