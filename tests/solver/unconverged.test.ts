/**
 * Iterations in a step that end without meeting their tolerance are counted, and those of steps that stand are booked.
 * Ring: identity.
 */

import { describe, expect, test } from 'vitest';
import { completeArrival } from '../../solver/duct/arrival.ts';
import { answerJunction } from '../../solver/ends/junction.ts';
import { answerNonReflecting } from '../../solver/ends/non-reflecting.ts';
import { answerOrifice } from '../../solver/ends/orifice.ts';
import { answerStep } from '../../solver/ends/step.ts';
import { blendReservoir } from '../../solver/gas/reservoir.ts';
import {
  ARRIVE,
  type ConservativeDuct,
  type DuctEnd,
  type Link,
  Network,
  newFlow,
  newReservoir,
  RESERVOIR,
  setReservoir,
} from '../../solver/index.ts';
import { unconverged } from '../../solver/march/unconverged.ts';
import { meet } from '../../solver/scheme/conservative/meet.ts';
import { AIR, fill, straight } from './constant-gamma.ts';

/** Air at a pressure. */
function airAt(pressure: number) {
  const reservoir = newReservoir();
  setReservoir(reservoir, AIR, pressure, 300, 0);
  return reservoir;
}

/** An end where gas at 300 K arrives at rest. */
function endAt(pressure: number, diameter = 0.04): DuctEnd {
  const end = straight('duct', 1, diameter, 6).right;
  const s = end.arrive;
  s[ARRIVE.pressure] = pressure;
  s[ARRIVE.temperature] = 300;
  s[ARRIVE.density] = pressure / (287 * 300);
  s[ARRIVE.gamma] = 1.4;
  s[ARRIVE.soundSpeed] = Math.sqrt(1.4 * 287 * 300);
  completeArrival(end);
  return end;
}

/** The same, but its characteristic brings no number: no face state can meet it. */
function lost(end: DuctEnd): DuctEnd {
  end.arrive[ARRIVE.lambda] = Number.NaN;
  return end;
}

function orifice(end: DuctEnd): void {
  end.opening = 0.5;
  answerOrifice(end, airAt(1e5));
}

function junction(third: (end: DuctEnd) => DuctEnd): void {
  const [one, other, hot] = [endAt(2e5), endAt(1e5), third(endAt(1.5e5))];
  answerJunction([one, other, hot]);
}

/** A pressure ratio of 4 on a face. */
function meeting(gamma: number): void {
  const duct = straight('duct', 1, 0.04, 6);
  for (let j = 0; j <= 6; j++) {
    duct.rLeft[j] = duct.rRight[j] = 1;
    duct.pLeft[j] = j === 3 ? 4e5 : 1e5;
    duct.pRight[j] = 1e5;
  }
  duct.gamma.fill(gamma);
  meet(duct);
}

describe('an iteration that cannot end is counted, one that can is not', () => {
  const pass = (end: DuctEnd): DuctEnd => end;
  test.each<readonly [string, (alter: (end: DuctEnd) => DuctEnd) => void]>([
    ['orifice', (alter) => orifice(alter(endAt(1.2e5)))],
    ['non-reflecting end', (alter) => answerNonReflecting(alter(endAt(1.2e5)), airAt(1e5), 1e5)],
    ['step', (alter) => answerStep(endAt(1.2e5), alter(endAt(1e5, 0.05)), 1)],
    ['junction', (alter) => junction(alter)],
  ])('%s', (_, answer) => {
    unconverged[0] = 0;
    answer(pass);
    expect(unconverged[0]).toBe(0);
    answer(lost);
    expect(unconverged[0]).toBeGreaterThan(0);
  });

  test('two waves that meet on a face; for gamma 1 the expansion has no such form', () => {
    unconverged[0] = 0;
    meeting(1.4);
    expect(unconverged[0]).toBe(0);
    meeting(1);
    expect(unconverged[0]).toBe(1);
  });

  test('a stream mixed from two gases', () => {
    const other = Float64Array.of(900, 0, 287, 717, 0, 9e5);
    unconverged[0] = 0;
    const mixed = airAt(1e5);
    mixed[RESERVOIR.admixed] = 0.3;
    blendReservoir(mixed, AIR, other);
    expect(unconverged[0]).toBe(0);
    other[5] = Number.NaN;
    blendReservoir(mixed, AIR, other);
    expect(unconverged[0]).toBe(1);
  });
});

describe('the ledger of a network', () => {
  /** A tube of air at 1 bar, some wave in it, and beyond its end a pipe of still air. */
  function tubeTo(pressure: number, incident: number): Network {
    const tube: ConservativeDuct = straight('tube', 1, 0.04, 20);
    fill(tube, (x) => ({ pressure: x < 0.5 ? 1.2e5 : 1e5, temperature: 400 }));
    const links: readonly Link[] = [
      { kind: 'closed', end: tube.left },
      {
        kind: 'nonreflecting',
        end: tube.right,
        reservoir: airAt(pressure),
        incident: () => incident,
        flow: newFlow(),
      },
    ];
    return new Network([tube], [], links, 0.8);
  }

  test('has none for gas that the tolerances are made for', () => {
    const network = tubeTo(1e5, 1.5e5);
    network.marchTo(4e-3);
    expect(network.ledger.unconverged).toBe(0);
  });

  test('counts them where the tolerance, a share of the pressure beyond, is finer than the numbers', () => {
    const network = tubeTo(10, 1e3);
    for (let step = 0; step < 40; step++) network.step(1);
    expect(network.ledger.unconverged).toBeGreaterThan(0);
    expect(network.ledger.unconverged).toBeLessThanOrEqual(network.ledger.steps);
  });
});
