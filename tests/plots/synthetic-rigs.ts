/** SYNTHETIC: invented inputs of the pulse and verify pages, for their tests only. No number here is a result. */

import type { PulsePageResult } from '../../plots/pages/pulse-page.ts';
import type { VerifyPageResult } from '../../plots/pages/verify-page.ts';
import { evenly, namer, nasty, program } from './synthetic-names.ts';

export function syntheticPulse(hostile = false): PulsePageResult {
  const name = namer(hostile);
  const time = evenly(600, 0, 0.006);
  const bump = (t: number): number => 40_000 * Math.exp(-(((t - 0.0004) / 0.00025) ** 2));
  const speedOfSound = 347;
  const probe = (position: number, title: string) => {
    const forward = time.map((t) => 1e5 + bump(t - position / speedOfSound));
    const backward = time.map((t) => 1e5 - 0.7 * bump(t - (1.6 - position) / speedOfSound));
    return {
      name: title,
      position,
      time,
      forward,
      backward,
      pressure: forward.map((value, i) => value + (backward[i] ?? 0) - 1e5),
    };
  };
  const positions = evenly(160, 0, 0.8);
  return {
    program,
    name: name('synthetic burst'),
    sections: [
      { name: name('driver'), start: 0, end: 0.2, diameters: [0.04, 0.04] },
      { name: name('cone'), start: 0.2, end: 0.5, diameters: [0.04, 0.1] },
      { name: name('tail'), start: 0.5, end: 0.8, diameters: [0.1, 0.1] },
    ],
    ambientPressure: 1e5,
    until: 0.006,
    cell: 0.002,
    scheme: 'conservative',
    probes: [probe(0.05, name('p1')), probe(0.6, name('p2'))],
    profiles: [0.001, 0.002, 0.003, 0.004].map((t) => ({
      time: t,
      positions,
      pressure: positions.map(
        (x) => 1e5 + bump(t - x / speedOfSound) - 0.7 * bump(t - (1.6 - x) / speedOfSound),
      ),
      velocity: positions.map(
        (x) => (bump(t - x / speedOfSound) + 0.7 * bump(t - (1.6 - x) / speedOfSound)) / 405,
      ),
    })),
    massError: 2e-14,
    energyError: 3e-14,
    notes: hostile ? [nasty] : [],
  };
}

export function syntheticVerify(hostile = false): VerifyPageResult {
  const name = namer(hostile);
  const x = evenly(200, 0, 1);
  const step = (at: number, width: number): number => 1 - 0.7 / (1 + Math.exp(-(at - 0.6) / width));
  return {
    program,
    seconds: 71,
    checks: [
      {
        name: name('shock tube, star pressure'),
        ring: 'exact solution',
        source: 'Toro 2009, table 4.2',
        quantity: 'pressure [–]',
        errors: [3.1e-3, 1.6e-3, 8.2e-4],
        cells: [100, 200, 400],
        order: 0.96,
        bound: '≤ 0.3 % at 200 cells',
        pass: true,
      },
      {
        name: name('closed tube, smooth wave'),
        ring: 'observed order',
        source: 'derived here',
        quantity: 'density [–]',
        errors: [2.2e-4, 5.6e-5, 1.4e-5],
        cells: [50, 100, 200],
        order: 1.98,
        bound: 'order ≥ 1.9',
        pass: true,
      },
      {
        name: name('mass of a closed network'),
        ring: 'conservation',
        source: 'identity',
        quantity: 'mass [–]',
        errors: [4e-13],
        cells: [400],
        order: null,
        bound: '≤ 1e-12',
        pass: !hostile,
      },
    ],
    overlays: [
      {
        title: name('Shock tube at 200 cells'),
        read: 'Density along the tube; the shock should stand within two cells.',
        xName: name('Position [m]'),
        yName: name('Density [kg/m³]'),
        exact: { x, y: x.map((at) => step(at, 0.0005)) },
        computed: { x, y: x.map((at) => step(at, 0.004)) },
      },
      {
        title: name('Closed tube, smooth wave'),
        read: 'Velocity after one passage.',
        xName: name('Position [m]'),
        yName: name('Velocity [m/s]'),
        exact: { x, y: x.map((at) => Math.sin(7 * at)) },
        computed: { x: evenly(50, 0, 1), y: evenly(50, 0, 1).map((at) => 0.995 * Math.sin(7 * at)) },
      },
    ],
  };
}
