import { describe, expect, it } from 'vitest';
import { bordaCarnot, lossFreeDiffuser } from '../../../src/verify/exact/area-change.ts';
import { fannoFlow, machBeforeChoking } from '../../../src/verify/exact/fanno.ts';
import { isentropicFlow, machOfArea, machOfPressure } from '../../../src/verify/exact/isentropic.ts';
import { nozzleLimits, solveNozzle } from '../../../src/verify/exact/nozzle.ts';
import { machOfTotalTemperature, rayleighFlow } from '../../../src/verify/exact/rayleigh.ts';
import { normalShock } from '../../../src/verify/exact/shock-relations.ts';
import { expectPrinted, expectRow } from './digits.ts';

describe('normal shock', () => {
  // NACA Report 1135 (1953), from memory, recomputed to more digits: p2/p1, rho2/rho1, T2/T1, M2, p02/p01, p1/p02.
  it.each([
    [1.05, '1.119583 1.083982 1.032843 0.953125 0.999853 0.49795'],
    [1.1, '1.245000 1.169082 1.064938 0.911770 0.998928 0.46886'],
    [1.2, '1.513333 1.341615 1.127994 0.842170 0.992798 0.41537'],
    [1.3, '1.805000 1.515695 1.190873 0.785957 0.979374 0.36852'],
    [1.5, '2.458333 1.862069 1.320216 0.701089 0.929787 0.29297'],
    [2, '4.500000 2.666667 1.687500 0.577350 0.720874 0.17729'],
  ] as const)('Mach %s, gamma 1.4', (mach, row) => {
    const s = normalShock(mach, 1.4);
    expectRow([s.pressure, s.density, s.temperature, s.mach, s.totalPressure, s.upstreamOverTotal], row);
  });

  it.each([
    [1.5, '2.427039 1.911577 1.269653 0.696397 0.927246'],
    [2, '4.424893 2.807229 1.576249 0.567466 0.706992'],
  ] as const)('Mach %s, gamma 1.33', (mach, row) => {
    const s = normalShock(mach, 1.33);
    expectRow([s.pressure, s.density, s.temperature, s.mach, s.totalPressure], row);
  });

  it('keeps mass, momentum and energy', () => {
    for (const gamma of [1.25, 1.4]) {
      for (const mach of [1.01, 1.7, 4]) {
        const s = normalShock(mach, gamma);
        const momentum = (p: number, m: number) => p * (1 + gamma * m * m);
        expect((s.pressure * s.mach) / Math.sqrt(s.temperature)).toBeCloseTo(mach, 12);
        expect(momentum(s.pressure, s.mach) / momentum(1, mach)).toBeCloseTo(1, 12);
        const total = (t: number, m: number) => t * (1 + ((gamma - 1) / 2) * m * m);
        expect(total(s.temperature, s.mach) / total(1, mach)).toBeCloseTo(1, 12);
      }
    }
  });
});

describe('isentropic flow', () => {
  // NACA Report 1135 (1953), from memory, recomputed: p/p0, rho/rho0, T/T0, A/A_star; the same at 1.33 without the density.
  it.each([
    [0.2, '0.972497 0.980277 0.992063 2.963520', '0.973836 0.993443 2.984731'],
    [0.5, '0.843019 0.885170 0.952381 1.339844', '0.849665 0.960384 1.345408'],
    [0.8, '0.656022 0.739992 0.886525 1.038230', '0.667247 0.904486 1.039139'],
    [1, '0.528282 0.633938 0.833333 1', '0.540364 0.858369 1'],
    [1.5, '0.272403 0.394984 0.689655 1.176167', '0.280142 0.729262 1.185281'],
    [2, '0.127805 0.230048 0.555556 1.687500', '0.129687 0.602410 1.745290'],
  ] as const)('Mach %s', (mach, air, burnt) => {
    const a = isentropicFlow(mach, 1.4);
    expectRow([a.pressure, a.density, a.temperature, a.area], air);
    const b = isentropicFlow(mach, 1.33);
    expectRow([b.pressure, b.temperature, b.area], burnt);
    expect(machOfPressure(a.pressure, 1.4)).toBeCloseTo(mach, 12);
    if (mach !== 1)
      expect(machOfArea(a.area, 1.4, mach < 1 ? 'subsonic' : 'supersonic')).toBeCloseTo(mach, 12);
  });

  it('passes nothing through less than the sonic area', () => {
    expect(() => machOfArea(0.99, 1.4, 'subsonic')).toThrow(RangeError);
  });
});

describe('Fanno and Rayleigh flow, gamma 1.4', () => {
  // Shapiro vol. I, chs 6-7, from memory, recomputed: 4fL/D with Fanning's f, p/p_star, T/T_star, p0/p0_star;
  // T0/T0_star, T/T_star, p/p_star, p0/p0_star.
  it.each([
    [0.1, '66.921560 10.943513 1.197605 5.821829', '0.046777 0.056020 2.366864 1.259146'],
    [0.2, '14.533266 5.455447 1.190476 2.963520', '0.173554 0.206612 2.272727 1.234596'],
    [0.3, '5.299253 3.619057 1.178782 2.035065', '0.346860 0.408873 2.131439 1.198549'],
    [0.5, '1.069060 2.138090 1.142857 1.339844', '0.691358 0.790123 1.777778 1.114053'],
    [0.7, '0.208139 1.493452 1.092896 1.094373', '0.908499 0.992895 1.423488 1.043104'],
    [0.8, '0.072290 1.289277 1.063830 1.038230', '0.963948 1.025477 1.265823 1.019343'],
    [1.5, '0.136050 0.606478 0.827586 1.176167', '0.909276 0.752504 0.578313 1.121545'],
    [2, '0.304997 0.408248 0.666667 1.687500', '0.793388 0.528926 0.363636 1.503096'],
  ] as const)('Mach %s', (mach, fanno, rayleigh) => {
    const f = fannoFlow(mach, 1.4);
    expectRow([f.lengthToChoking, f.pressure, f.temperature, f.totalPressure], fanno);
    const r = rayleighFlow(mach, 1.4);
    expectRow([r.totalTemperature, r.temperature, r.pressure, r.totalPressure], rayleigh);
    if (mach < 1) {
      expect(machBeforeChoking(f.lengthToChoking, 1.4)).toBeCloseTo(mach, 11);
      expect(machOfTotalTemperature(r.totalTemperature, 1.4)).toBeCloseTo(mach, 11);
    }
  });

  it('Fanno at gamma 1.33, and the Fanning factor meant', () => {
    expectRow(
      [0.2, 0.5, 0.8].map((m) => fannoFlow(m, 1.33).lengthToChoking),
      '15.353583 1.139696 0.077852',
    );
    expectPrinted(fannoFlow(0.5, 1.4).lengthToChoking, '1.0690603');
  });

  it('Fanno loses momentum to the wall as the friction factor says', () => {
    // d(p (1 + g M^2)) = -(g/2) p M^2 d(4fx/D) along the pipe.
    for (const mach of [0.3, 0.7]) {
      const at = (m: number) => ({
        ...fannoFlow(m, 1.4),
        thrust: fannoFlow(m, 1.4).pressure * (1 + 1.4 * m * m),
      });
      const [a, b] = [at(mach - 1e-5), at(mach + 1e-5)];
      const drop = (b.thrust - a.thrust) / (a.lengthToChoking - b.lengthToChoking);
      expect(drop / (-0.7 * at(mach).pressure * mach * mach)).toBeCloseTo(1, 6);
    }
  });
});

describe('nozzle', () => {
  const anderson = { area: (x: number) => 1 + 2.2 * (x - 1.5) ** 2, from: 0, throat: 1.5, to: 3 };

  // Anderson, Computational Fluid Dynamics, ch. 7 (shape from memory), recomputed: A, M, p/p0, rho/rho0, T/T0.
  it.each([
    [0, '5.950 0.09782 0.99333 0.99523 0.99809'],
    [0.6, '2.782 0.21377 0.96866 0.97751 0.99094'],
    [1.2, '1.198 0.59187 0.78898 0.84426 0.93453'],
    [1.5, '1.000 1 0.52828 0.63394 0.83333'],
    [1.8, '1.198 1.53136 0.26026 0.38233 0.68073'],
    [2.1, '1.792 2.07116 0.11439 0.21253 0.53823'],
    [2.4, '2.782 2.55730 0.05354 0.12358 0.43328'],
    [3, '5.950 3.35897 0.01605 0.05225 0.30708'],
  ] as const)('supersonic to the exit, x = %s', (x, row) => {
    const flow = solveNozzle(anderson, 0.01, 1.4);
    const s = flow.at(x);
    expectRow([anderson.area(x), s.mach, s.pressure, s.density, s.temperature], row);
    expectPrinted(flow.massFlow, '0.578704');
    expect(flow.regime).toBe('supersonic');
  });

  it('with a shock', () => {
    const flow = solveNozzle(anderson, 0.6784, 1.4);
    expect(flow.regime).toBe('shock');
    const at = flow.shockAt ?? 0;
    const before = flow.at(at - 1e-12);
    const behind = flow.at(at + 1e-12);
    expectRow([at, anderson.area(at), before.mach, behind.mach], '2.099331 1.790234 2.070006 0.565889');
    expectRow(
      [behind.pressure / before.pressure, flow.totalPressureRatio, flow.at(3).mach],
      '4.832411 0.688171 0.143076',
    );
    const rows = [2.4, 2.7, 3].flatMap((x) => [flow.at(x).mach, flow.at(x).pressure]);
    expectRow(rows, '.32140 .64064 .20699 .66792 .14308 .67840');
  });

  it('subsonic throughout', () => {
    const shape = { ...anderson, area: (x: number) => 1 + (x < 1.5 ? 2.2 : 0.2223) * (x - 1.5) ** 2 };
    const flow = solveNozzle(shape, 0.93, 1.4);
    expect(flow.regime).toBe('subsonic');
    expectRow(
      [flow.at(3).mach, flow.sonicArea, flow.at(1.5).mach, flow.at(1.5).pressure, flow.massFlow],
      '0.32366 0.78842 0.54125 0.81932 0.45626',
    );
    expectRow(
      [flow.at(0).mach, flow.at(1).mach, flow.at(1).pressure, flow.at(2).mach, flow.at(2).pressure],
      '.07696 .31188 .93479 .50052 .84273',
    );
  });

  it('changes regime at the limits', () => {
    expectRow(nozzleLimits(5.95, 1.4), '0.99333 0.20854 0.01605');
    expect(solveNozzle(anderson, 0.9934, 1.4).regime).toBe('subsonic');
    expect(solveNozzle(anderson, 0.2085, 1.4).regime).toBe('supersonic');
  });

  it('does not care for the unit of its area', () => {
    const small = { ...anderson, area: (x: number) => 3e-4 * anderson.area(x) };
    for (const exit of [0.995, 0.6784, 0.01]) {
      const [a, b] = [solveNozzle(anderson, exit, 1.4), solveNozzle(small, exit, 1.4)];
      expect(b.massFlow).toBeCloseTo(a.massFlow, 12);
      for (const x of [0.5, 1.5, 1.7, 2.5]) expect(b.at(x).mach).toBeCloseTo(a.at(x).mach, 6);
    }
  });

  it('keeps its mass flow everywhere', () => {
    for (const exit of [0.995, 0.6784, 0.3, 0.01]) {
      const flow = solveNozzle(anderson, exit, 1.4);
      for (const x of [0.1, 1.1, 1.5, 1.9, 2.6, 3]) {
        const s = flow.at(x);
        expect(
          (s.density * Math.sqrt(s.temperature) * s.mach * anderson.area(x)) / flow.massFlow,
        ).toBeCloseTo(1, 9);
      }
    }
  });
});

describe('change of area', () => {
  const m = (110 / 38) ** 2;
  it.each([
    [0.3, 1.4, '.033959 1.063571'],
    [0.5, 1.4, '.051627 1.184002'],
    [0.3, 1.33, '.034009 1.060394'],
    [0.5, 1.33, '.051815 1.174835'],
  ] as const)('diffuser 38 to 110 mm without loss: Mach %s, gamma %s', (mach, gamma, row) => {
    const change = lossFreeDiffuser(mach, m, gamma);
    expectRow([change.mach, change.pressure], row);
  });

  // Balances of mass, momentum and energy; derived here: M2, p2/p1, p02/p01.
  it.each([
    [0.5, 2, '.233377 1.091753 .955939'],
    [0.5, 4, '.119982 1.066016 .907760'],
    [0.3, 2, '.146329 1.032062 .984201'],
    [0.3, 4, '.073881 1.023677 .965393'],
  ] as const)('sudden expansion of Mach %s by %s', (mach, ratio, row) => {
    const change = bordaCarnot(mach, ratio, 1.4);
    expectRow([change.mach, change.pressure, change.totalPressure], row);
  });

  it('sudden expansion loses the incompressible (1 - F1/F2)^2 when slow, and nothing without a step', () => {
    const mach = 1e-3;
    const loss = (1 - bordaCarnot(mach, 3, 1.4).totalPressure) / (0.7 * mach * mach);
    expect(loss).toBeCloseTo((1 - 1 / 3) ** 2, 5);
    const none = bordaCarnot(0.6, 1, 1.4);
    expectRow([none.mach, none.pressure, none.totalPressure], '0.600000000 1.000000000 1.000000000');
  });
});
