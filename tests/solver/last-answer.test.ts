/** An opening begins its search where it last ended; what it finds does not depend on that. Ring: identity. */

import { describe, expect, test } from 'vitest';
import { completeArrival } from '../../solver/duct/arrival.ts';
import { answerOrifice } from '../../solver/ends/orifice.ts';
import { ANSWER, ARRIVE, type DuctEnd, GasModel, newReservoir, setReservoir } from '../../solver/index.ts';
import { unconverged } from '../../solver/march/unconverged.ts';
import { straight } from './constant-gamma.ts';

const GAMMA = 1.4;
const UNIT = GasModel.perfectGas(GAMMA, 1 / GAMMA);

/** Gas at rest with p = 1, a = 1, and a wave of pressure ratio P running out of the duct upon it. */
function waveAt(P: number): DuctEnd {
  const end = straight('duct', 1, 1, 6, UNIT).right;
  const X = P ** ((GAMMA - 1) / (2 * GAMMA));
  const s = end.arrive;
  s[ARRIVE.pressure] = P;
  s[ARRIVE.temperature] = X * X;
  s[ARRIVE.density] = (GAMMA * P) / (X * X);
  s[ARRIVE.velocity] = (2 / (GAMMA - 1)) * (X - 1);
  s[ARRIVE.gamma] = GAMMA;
  s[ARRIVE.soundSpeed] = X;
  completeArrival(end);
  return end;
}

function atmosphere() {
  const reservoir = newReservoir();
  setReservoir(reservoir, UNIT, 1, 1, 0);
  return reservoir;
}

describe('an opening answers the same, whatever it answered before', () => {
  const answerAfter = (P: number, phi: number, before: number): readonly number[] => {
    const end = waveAt(P);
    end.opening = phi;
    end.answer[ANSWER.pressure] = before;
    end.answer[ANSWER.soundSpeed] = before ** ((GAMMA - 1) / (2 * GAMMA));
    unconverged[0] = 0;
    answerOrifice(end, atmosphere());
    expect(unconverged[0]).toBe(0);
    return [end.answer[ANSWER.pressure]!, end.answer[ANSWER.velocity]!];
  };
  // At rest the speed out of the reservoir has an endless slope, which a search that starts there takes for its root.
  const BEFORE = [1, 1 - 1.2e-16, 1 - 1e-14, 1 - 1e-11, 0.999, 0.8, 0.2, 1.5, 0];
  test.each([0.3, 0.6, 0.9, 0.99, 0.9999, 1.0001, 1.2, 2, 5])('a wave of %s', (P) => {
    for (const phi of [1e-4, 0.1, 0.7, 1]) {
      const [pressure, velocity] = answerAfter(P, phi, Number.NaN) as [number, number];
      for (const before of BEFORE) {
        const [p, u] = answerAfter(P, phi, before) as [number, number];
        expect(Math.abs(p / pressure - 1), `pressure at ${phi} after ${before}`).toBeLessThan(1e-12);
        expect(Math.abs(u - velocity), `velocity at ${phi} after ${before}`).toBeLessThan(1e-11);
      }
    }
  });
});
