/** SYNTHETIC: an invented reconciliation, for tests of its page and words only. No number here is a result. */

import type { ReconcilePageResult } from '../../plots/pages/reconcile-page.ts';
import {
  type InputMembers,
  type MeasuredGroup,
  reconcileAnswer,
} from '../../src/findings/answers/reconcile.ts';
import { percentilesOf } from '../../src/findings/percentile.ts';
import { namer, program } from './synthetic-names.ts';

const MEMBERS = 64;
const spread = (middle: number, width: number, turn = 0): number[] =>
  Array.from({ length: MEMBERS }, (_, k) => middle + width * Math.sin(2.4 * k + turn));

/** @param raised what the measured torque is multiplied by */
export function syntheticReconcile(hostile = false, raised = 1): ReconcilePageResult {
  const name = namer(hostile);
  const input = (
    path: string,
    before: readonly number[],
    after: readonly number[],
    more: Partial<InputMembers> = {},
  ) => ({
    path,
    unit: '',
    reason: 'common practice, no source',
    loose: false,
    together: null,
    before,
    after,
    middle: percentilesOf(after).p50 ?? 0,
    ...more,
  });
  const torque = spread(18, 0.3, 0.4);
  const inputs: InputMembers[] = [
    input(name('pipe.wall.given.flange'), spread(450, 90), spread(520, 30), { unit: 'degC' }),
    input(
      name('engine.combustion.completeness'),
      spread(0.9, 0.05),
      torque.map((value) => 0.8 + (value - 18) / 20),
    ),
    input(
      name('engine.friction.constant'),
      spread(0.12, 0.05, 1.57),
      torque.map((value) => 0.12 + (value - 18) / 10),
    ),
    input(name('engine.passage.wallTemperature'), spread(430, 40), spread(430, 39.5), { unit: 'K' }),
    input('factor of torque', spread(0.95, 0.08), spread(0.94, 0.02), { loose: true }),
  ];
  const point = (
    x: number,
    value: number,
    error: number,
    width: number,
  ): MeasuredGroup['points'][number] => ({
    x,
    value: value * 1.01,
    error,
    allowed: 1.3 * error,
    before: percentilesOf(spread(value * 0.93, 3 * width)),
    after: percentilesOf(spread(value, width)),
    base: value * 0.9,
    central: value,
  });
  const speeds = [8000, 9000, 10_000, 11_000, 12_000];
  const curve = speeds.map((rpm) => {
    const one = point(rpm, 20 - ((rpm - 10_000) / 1400) ** 2, 0.4, 0.5);
    return { ...one, value: raised * one.value };
  });
  const turn = Array.from({ length: 90 }, (_, k) =>
    point(4 * k, 1.2e5 + 4e4 * Math.exp(-(((4 * k - 240) / 30) ** 2)), 4000, 3000),
  );
  const groups: MeasuredGroup[] = [
    { kind: 'torque', name: name('torque'), rpm: null, scale: 1, points: curve },
    {
      kind: 'pressure',
      name: name('pressure, 60 mm from the flange, 10500 rpm'),
      rpm: 10_500,
      scale: 1.5,
      points: turn,
    },
    {
      kind: 'gas',
      name: name('gas temperature'),
      rpm: null,
      scale: 1,
      points: [point(0.15, 900, 20, 15), point(0.4, 850, 20, 15)],
    },
  ];
  return {
    program,
    name: name('Saltmarsh 125, draft A'),
    set: [name('engine.ambient.pressure=1003 mbar')],
    files: [name('club dynamometer')],
    cell: 0.01,
    members: { asked: 64, whole: 62, unsettled: 20 },
    groups,
    answer: reconcileAnswer(inputs, groups, torque),
  };
}
