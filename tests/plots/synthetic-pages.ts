/** SYNTHETIC: invented inputs of the other pages, for their tests only. No number here is a result. */

import type { AimPageResult } from '../../plots/pages/aim-page.ts';
import type { ComparePageResult } from '../../plots/pages/compare-page.ts';
import type { IndexPageResult } from '../../plots/pages/index-page.ts';
import type { MapPageResult } from '../../plots/pages/map-page.ts';
import type { OvernightPageResult } from '../../plots/pages/overnight-page.ts';
import type { SweepPageResult } from '../../plots/pages/sweep-data.ts';
import { compareAnswer } from '../../src/findings/answers/compare.ts';
import type { SweepRow } from '../../src/findings/row.ts';
import { workingBand } from '../../src/findings/working-band.ts';
import { evenly, namer, nasty, program } from './synthetic-names.ts';
import { syntheticOutline, syntheticSweep } from './synthetic-sweep.ts';

export { syntheticPulse, syntheticVerify } from './synthetic-rigs.ts';

/** A sweep whose speeds are relabelled by a factor, as if its pipe were shorter. */
function shifted(factor: number, hostile: boolean): SweepPageResult {
  const sweep = syntheticSweep({ hostile, step: 500 });
  const bend = (row: SweepRow): SweepRow => ({
    ...row,
    plugback_lead_deg: (row.plugback_lead_deg ?? 0) + 90 * (factor - 1),
    plugback_peak_deg: (row.plugback_peak_deg ?? 0) - 90 * (factor - 1),
    torque_nm: (row.torque_nm ?? 0) * (1 + 0.4 * (factor - 1) * ((row.speed_rpm - 9000) / 1000)),
    power_kw: (row.power_kw ?? 0) * (1 + 0.4 * (factor - 1) * ((row.speed_rpm - 9000) / 1000)),
  });
  return {
    ...sweep,
    outline: sweep.outline.map((part) => ({ ...part, start: part.start / factor, end: part.end / factor })),
    rows: sweep.rows.map(bend),
    speeds: sweep.speeds.map((speed) => ({ ...speed, row: bend(speed.row) })),
  };
}

export function syntheticMap(hostile = false): MapPageResult {
  const name = namer(hostile);
  const base = syntheticSweep({ from: 7000, to: 12_000, step: 500 });
  const durations = evenly(9, 180, 204);
  return {
    program,
    name: name('Synthetic case'),
    note: name('Synthetic data of a test.'),
    engine: name('Saltmarsh 125'),
    pipe: name('synthetic draft'),
    outline: base.outline.map((part) => ({ ...part, name: name(part.name) })),
    ownDuration: 194,
    failures: hostile ? [{ speedRpm: 12_000, durationDeg: 204, reason: nasty }] : [],
    best: {
      speedRpm: 9500,
      durationDeg: 194,
      value: 20.5,
      atEdge: false,
      alike: { from: 192, to: 196, lowest: 20.3 },
    },
    findings: [{ label: 'Target 9500 rpm', text: 'Synthetic words.' }],
    points: durations.flatMap((durationDeg) =>
      base.rows.map((row) => {
        const more = durationDeg - 194;
        return {
          durationDeg,
          row: {
            ...row,
            exhaust_opens_deg: row.exhaust_opens_deg - more / 2,
            exhaust_closes_deg: row.exhaust_closes_deg + more / 2,
            plugback_peak_deg: (row.plugback_peak_deg ?? 0) - more / 2,
            plugback_lead_deg: (row.plugback_lead_deg ?? 0) + more,
            plugback_share_before_closing: 1 / (1 + Math.exp(-((row.plugback_lead_deg ?? 0) + more) / 14)),
            echo_return_deg: 443 + (row.speed_rpm - 9500) / 60 + more,
            echo_gain: 1.1 + 0.1 * Math.exp(-((more / 8) ** 2)),
            torque_nm: (row.torque_nm ?? 0) - ((more - (row.speed_rpm - 9500) / 300) / 9) ** 2,
            transfer_opening_cylinder_bar: (row.transfer_opening_cylinder_bar ?? 0) - more * 0.02,
          },
        };
      }),
    ),
  };
}

export function syntheticCompare(hostile = false): ComparePageResult {
  const name = namer(hostile);
  const drafts = [
    { name: name('draft A, broad'), sweep: shifted(1, hostile) },
    { name: name('draft B, peaky'), sweep: shifted(1.08, hostile) },
    { name: name('draft C, too long'), sweep: shifted(0.93, hostile) },
  ];
  const rows = drafts.map((draft) => ({ name: draft.name, rows: draft.sweep.rows }));
  const answer = compareAnswer(rows, 9500, { from: 8000, to: 10_500 });
  const notes = hostile ? [nasty] : ['Not on the same cells (A 5 mm, B 10 mm).'];
  return { program, targetSpeed: 9500, answer, drafts, notes };
}

export function syntheticOvernight(hostile = false, count = 240): OvernightPageResult {
  const name = namer(hostile);
  const drafts = Array.from({ length: count }, (_, i) => {
    const header = 200 + ((i * 37) % 120);
    const belly = 100 + ((i * 53) % 40);
    const baffle = 150 + ((i * 71) % 90);
    const stinger = 21 + ((i * 29) % 60) / 10;
    const score =
      20 - ((header - 255) / 45) ** 2 - 0.3 * ((belly - 122) / 12) ** 2 - 0.2 * (stinger - 24) ** 2;
    return {
      name: hostile ? nasty : `draft ${String(i + 1).padStart(3, '0')}`,
      score: i % 60 === 59 ? null : score,
      values: [header, belly, baffle, stinger],
      met: [header + baffle < 480, belly < 135],
      readings: [score + 2, score * 1.1],
      ...(i % 60 === 59 ? { failure: hostile ? nasty : 'negative pressure at 12 000 rpm' } : {}),
    };
  }).sort((a, b) => (b.score ?? Number.NEGATIVE_INFINITY) - (a.score ?? Number.NEGATIVE_INFINITY));
  return {
    program,
    study: name('synthetic study'),
    caseName: name('Synthetic case'),
    score: { name: name('mean torque 8 500 to 10 500 rpm'), unit: 'Nm', higherIsBetter: true },
    varied: [
      { name: name('header length'), unit: 'mm' },
      { name: name('belly diameter'), unit: 'mm' },
      { name: name('baffle length'), unit: 'mm' },
      { name: name('stinger diameter'), unit: 'mm' },
    ],
    constraints: [name('length to the baffle’s end'), name('largest diameter')],
    readings: [
      { name: 'best torque', unit: 'Nm', decimals: 1 },
      { name: 'best power', unit: 'kW', decimals: 1 },
    ],
    drafts,
    total: count + 60,
    cell: 0.01,
    best: [1, 1.03, 0.98, 1.06].map((factor, i) => {
      const sweep = shifted(factor, hostile);
      return { name: name(`draft 01${i}`), outline: sweep.outline, rows: sweep.rows };
    }),
    importance: [
      { name: name('header length'), share: 0.61 },
      { name: name('belly diameter'), share: 0.22 },
      { name: name('baffle length'), share: 0.03 },
      { name: name('stinger diameter'), share: 0.09 },
    ],
    notes: hostile ? [nasty] : [],
  };
}

export function syntheticAim(hostile = false): AimPageResult {
  const name = namer(hostile);
  const pipe = (factor: number, title: string) => {
    const sweep = shifted(factor, hostile);
    return { name: name(title), outline: sweep.outline, rows: sweep.rows };
  };
  const moved = (title: string, step: string, lead: number, torque: readonly [number, number]) => ({
    name: name(title),
    step,
    leadLessDeg: -lead,
    leadMoreDeg: lead,
    torqueLessNm: torque[0],
    torqueMoreNm: torque[1],
    powerLessKw: 1.15 * torque[0],
    powerMoreKw: 1.15 * torque[1],
  });
  const before = pipe(0.95, 'draft C');
  const offered = (id: string, factor: number, gain: number) => {
    const one = pipe(factor, `draft C, ${id}`);
    return {
      id,
      pipe: one,
      file: name(`draft-c-${id}.yaml`),
      torque: 14.2 + gain,
      middle: 21,
      mean: 14 + gain,
      least: { speedRpm: 11_500, torque: 13 + gain },
      band: workingBand(one.rows),
      gain,
      gainShare: gain / 2.7,
      isGiven: false,
      isRepeated: false,
      dimensions: id === 'all' ? null : [{ name: name('header'), before: 0.262, after: 0.214 }],
      build: { by: 0.003, lost: 0.2 },
      isRobust: id !== 'all',
      rules: id === 'all' ? [name('Stinger length / diam. 3.7, usual 9.0 to 15.0')] : [],
    };
  };
  return {
    program,
    caseName: name('Synthetic case'),
    targetSpeed: 11_000,
    halfBand: 500,
    cell: 0.01,
    searchCell: 0.02,
    given: {
      torque: 14.2,
      middle: -16,
      mean: 14,
      least: { speedRpm: 11_500, torque: 13 },
      band: workingBand(before.rows),
    },
    first: 'header',
    offers: [
      offered('header', 1.05, 2.5),
      offered('header and baffle', 1.06, 2.6),
      offered('all', 1.08, 2.7),
    ],
    score: { name: name('mean torque at 11 000 rpm'), unit: 'Nm' },
    scoreBefore: 14.2,
    scoreAfter: 16.9,
    before,
    after: pipe(1.08, 'draft C, aimed'),
    start: pipe(1.02, 'handbook'),
    startedFrom: 'handbook',
    end: 'the evaluations allowed are used up',
    newFile: name('pipe-aimed-11000.yaml'),
    changes: [
      { name: name('header length'), unit: 'mm', before: 262, after: 214 },
      { name: name('baffle length'), unit: 'mm', before: 190, after: 176 },
      { name: name('stinger diameter'), unit: 'mm', before: 24, after: 23, limit: name('smallest allowed') },
    ],
    sensitivities: [
      moved('header', '10 mm', -3.1, [-1.1, -6.4]),
      moved('baffle', '10 mm', -1.6, [-0.05, 0.05]),
      moved('wall', '50 K', 2.2, [-0.09, 0.09]),
    ],
    history: Array.from({ length: 80 }, (_, i) => {
      const value = 16.9 - 2.7 * Math.exp(-i / 18) - 0.9 * Math.abs(Math.sin(i * 2.3)) * Math.exp(-i / 40);
      const lands = i % 5 !== 4;
      return i % 23 === 22
        ? { evaluation: i + 1, value: null, score: null, lands: false }
        : { evaluation: i + 1, value, score: lands ? value : value - 4, lands };
    }),
    limits: [name('stinger diameter rests on its smallest allowed value')],
    cautions: [name('Caution: the tail of the new pipe has 21.0 mm')],
  };
}

export function syntheticIndex(hostile = false): IndexPageResult {
  const name = namer(hostile);
  const { rows } = syntheticSweep({ step: 500 });
  const curve = (of: (row: SweepRow) => number | null, kind: 'torque' | 'returning') => ({
    x: rows.map((row) => row.speed_rpm),
    y: rows.map(of),
    kind,
  });
  const kinds = ['sweep', 'map', 'compare', 'pulse', 'verify', 'aim', 'overnight', 'sweep'];
  const columns = (later: number) => ({
    speeds: rows.map((row) => row.speed_rpm),
    torque: rows.map((row) => row.torque_nm),
    lead: rows.map((row) => (row.plugback_lead_deg ?? 0) + later),
  });
  return {
    program,
    folder: name('runs'),
    runs: kinds.map((kind, i) => ({
      title: name(`Saltmarsh 125, draft ${i < 7 ? 'ABCDEFG'.charAt(i) : 'A · header 260 mm'}`),
      kind,
      href: hostile ? 'javascript:alert(1)' : `demo-${i}/${kind}.html`,
      when: `2024-05-0${i + 1}T10:30:00Z`,
      line: name('The wave comes back when the port wants it from 8 750 to 10 250 rpm.'),
      outlines:
        kind === 'verify'
          ? []
          : kind === 'compare'
            ? [shifted(1, false).outline, shifted(1.08, false).outline]
            : [syntheticOutline],
      curves: [
        curve((row) => row.torque_nm, 'torque'),
        ...(kind === 'map' ? [curve((row) => row.plugback_lead_deg, 'returning')] : []),
      ],
      ...(kind === 'sweep' ? { of: name('Saltmarsh 125, draft A'), sweep: columns(i) } : {}),
    })),
  };
}
