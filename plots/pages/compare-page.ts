/** The compare page: two to eight drafts, their outlines to one scale and their curves over one another. */

import type { CompareAnswer } from '../../src/findings/answers/compare.ts';
import type { ComparedDraft } from '../../src/findings/answers/compare-summary.ts';
import type { DraftChances } from '../../src/findings/member-chances.ts';
import type { SweptDraft } from '../figures/draft-curves.ts';
import type { DraftWaves } from '../figures/draft-port.ts';
import { namedOutlines } from '../figures/outline-drawing.ts';
import { eventsOf } from '../figures/row-events.ts';
import type { PortEvents } from '../theme/events.ts';
import { html, type Markup } from '../theme/markup.ts';
import { fixed, rpm, speed } from '../theme/numbers.ts';
import { chancesTable } from './chances-table.ts';
import { chancesText } from './chances-words.ts';
import {
  bandText,
  compareHeadline,
  differenceText,
  endWords,
  leadText,
  targetText,
  unfinishedText,
  usefulText,
} from './compare-words.ts';
import { dimensionTable } from './dimension-table.ts';
import { evenly, type Packed, pack, resample, unpack } from './packing.ts';
import { type Cell, findings, playerBar, table } from './parts.ts';
import { type Assets, place, sheet } from './sheet.ts';
import { stretchMm } from './stretch-mm.ts';
import type { SweepPageResult } from './sweep-data.ts';
import { unsettledText } from './unsettled.ts';

export interface ComparePageResult {
  readonly program: string;
  /** The first is what the others are measured against. */
  readonly drafts: readonly { readonly name: string; readonly sweep: SweepPageResult }[];
  readonly targetSpeed: number | null;
  readonly answer: CompareAnswer;
  /** In how many members a draft beats the first; empty or absent: not asked for. */
  readonly chances?: readonly DraftChances[];
  /** What to mind before one of them is built, and where they were not computed alike. */
  readonly notes: readonly string[];
}

interface PackedWaves {
  readonly speedRpm: number;
  readonly port: Packed;
  readonly returning: Packed;
  readonly events: PortEvents;
}

export interface ComparePageData {
  readonly drafts: readonly (SweptDraft & { readonly waves: readonly PackedWaves[] })[];
  readonly speeds: readonly number[];
  readonly targetSpeed: number | null;
  readonly ambientBar: number;
}

const ANGLES_PER_TURN = 361;

/** Waves of all drafts at one of the speeds; drafts that lack it are left out. */
export function wavesAt(data: ComparePageData, speedRpm: number): DraftWaves[] {
  return data.drafts.flatMap((draft, index) => {
    const waves = draft.waves.find((one) => one.speedRpm === speedRpm);
    if (!waves) return [];
    const opens = waves.events.exhaustOpens;
    return [
      {
        name: draft.name,
        index,
        angleDeg: [...evenly(opens, opens + 360, ANGLES_PER_TURN)],
        port: [...unpack(waves.port)],
        returning: [...unpack(waves.returning)],
      },
    ];
  });
}

function dataOf(result: ComparePageResult): ComparePageData {
  const drafts = result.drafts.map(({ name, sweep }) => ({
    name,
    rows: sweep.rows,
    waves: sweep.speeds.map(({ row, traces }) => {
      const fresh = evenly(row.exhaust_opens_deg, row.exhaust_opens_deg + 360, ANGLES_PER_TURN);
      const series = (values: readonly number[]): Packed =>
        pack(
          resample(traces.angleDeg, values, fresh).map((value) => value / 1e5),
          16,
        );
      return {
        speedRpm: row.speed_rpm,
        port: series(traces.portPressure),
        returning: series(traces.returningPressure),
        events: eventsOf(row),
      };
    }),
  }));
  const speeds = [...new Set(drafts.flatMap((draft) => draft.waves.map((one) => one.speedRpm)))].sort(
    (a, b) => a - b,
  );
  return {
    drafts,
    speeds,
    targetSpeed: result.targetSpeed,
    ambientBar: (result.drafts[0]?.sweep.case.engine.ambient.pressure ?? 101_325) / 1e5,
  };
}

function summaryTable(compared: readonly ComparedDraft[], result: ComparePageResult): Markup {
  const first = compared[0]?.summary;
  const cell = (
    value: number | null,
    base: number | null | undefined,
    decimals: number,
    told?: string,
  ): Cell => {
    const change = value === null || base === null || base === undefined ? 0 : value - base;
    const size = decimals === 0 ? speed(Math.abs(change)) : fixed(Math.abs(change), decimals);
    const text = told ?? (decimals === 0 ? (value === null ? '–' : speed(value)) : fixed(value, decimals));
    const none = Number(Math.abs(change).toFixed(decimals)) === 0;
    return { text: none ? text : `${text} (${change < 0 ? '−' : '+'}${size})`, number: true };
  };
  const best = (value: number | null, atEnd: boolean): string | undefined =>
    value === null ? undefined : `${atEnd ? '≥ ' : ''}${fixed(value, 1)}`;
  const { band, targetSpeed } = result.answer;
  return table(
    'In brackets: the difference to the first draft',
    [
      { name: 'draft' },
      { name: 'wave lands', unit: 'rpm', number: true },
      { name: 'best torque', unit: 'Nm', number: true },
      { name: 'at', unit: 'rpm', number: true },
      { name: 'best power', unit: 'kW', number: true },
      { name: 'at', unit: 'rpm', number: true },
      { name: 'torque band', unit: 'rpm above 90 %', number: true },
      { name: 'power band', unit: 'rpm above 90 %', number: true },
      ...(band
        ? [{ name: 'mean torque', unit: `Nm, ${speed(band.from)}–${speed(band.to)}`, number: true }]
        : []),
      ...(targetSpeed === null
        ? []
        : [{ name: 'wave’s middle', unit: `at ${rpm(targetSpeed)}`, number: true }]),
    ],
    compared.map((draft, index) => {
      const { summary: one } = draft;
      return {
        cells: [
          { text: one.name, kind: `draft-name-${index}` },
          { text: usefulText(one), number: true },
          cell(one.peakTorque, first?.peakTorque, 1, best(one.peakTorque, draft.torqueAtEnd)),
          cell(one.peakTorqueSpeed, first?.peakTorqueSpeed, 0),
          cell(one.peakPower, first?.peakPower, 1, best(one.peakPower, draft.powerAtEnd)),
          cell(one.peakPowerSpeed, first?.peakPowerSpeed, 0),
          cell(one.torqueBand, first?.torqueBand, 0, bandText(one.torqueBand, draft.torqueBandOpen)),
          cell(one.powerBand, first?.powerBand, 0, bandText(one.powerBand, draft.powerBandOpen)),
          ...(band ? [cell(one.averageTorque, first?.averageTorque, 1)] : []),
          ...(targetSpeed === null ? [] : [{ text: leadText(one.middleLeadAtTarget), number: true }]),
        ],
      };
    }),
  );
}

/** What did not settle, failed, or is cut off by the end of the range. */
function doubts({ answer, drafts, notes }: ComparePageResult): readonly Markup[] {
  const lines = [
    unfinishedText(answer.unfinished),
    ...notes,
    unsettledText(drafts.map(({ name, sweep }) => ({ name, rows: sweep.rows }))),
    ...drafts.flatMap(({ name, sweep }) =>
      sweep.failures.map(({ speedRpm, reason }) => `${name} at ${rpm(speedRpm)} failed: ${reason}`),
    ),
    ...answer.drafts.map(endWords),
  ].filter((line) => line !== '');
  return lines.map((line) => html`<p class="warn">${line}</p>`);
}

export function comparePage(result: ComparePageResult, assets: Assets): string {
  const { drafts: compared, target: atTargetSpeed, best, differences } = result.answer;
  const first = compared[0]?.summary;
  const data = dataOf(result);
  const outlines = result.drafts.map(({ name, sweep }) => ({ name, outline: sweep.outline.map(stretchMm) }));
  const target = result.targetSpeed ?? first?.peakTorqueSpeed ?? 0;
  const start = data.speeds.reduce(
    (near, at, i) => (Math.abs(at - target) < Math.abs((data.speeds[near] ?? 0) - target) ? i : near),
    0,
  );
  const atTarget =
    atTargetSpeed === null
      ? []
      : [{ label: `Target ${rpm(atTargetSpeed.wanted)}`, text: targetText(atTargetSpeed), way: true }];
  const words = differences.map(({ name, from, ...difference }) => ({
    label: name,
    text: `Against ${from}: ${differenceText(difference)}.`,
  }));
  const sure = (result.chances ?? []).map((one) => ({ label: 'How sure', text: chancesText(one) }));
  return sheet({
    title: 'Drafts compared',
    titleBlock: [
      ['Drafts compared', result.drafts.map((draft) => draft.name).join(' · ')],
      ['Engine', result.drafts[0]?.sweep.case.engine.name ?? ''],
      ['Target', result.targetSpeed === null ? 'none stated' : rpm(result.targetSpeed)],
      ['Program', result.program, 'minor'],
    ],
    body: html`<section class="answer"><div><h1>${compareHeadline(best, compared.length)}</h1>${findings([...atTarget, ...words, ...sure])}</div>
<div>${namedOutlines(outlines)}</div></section>${doubts(result)}
<section>${summaryTable(compared, result)}${(result.chances ?? []).length > 0 && chancesTable(result.chances ?? [])}${dimensionTable(outlines)}</section>
<section><h2>Against engine speed</h2>${place('curves', 'Middle of the plug-back, torque and power', `${result.targetSpeed === null ? '' : 'The upright dotted line is the target. '}The wave is wanted between EC, exhaust closing, and TC, transfer closing: above TC it works against the transfer streams, below EC it meets a closed port. A draft whose torque falls off where its wave leaves the window is limited by its pipe. A cross marks a speed whose cycles did not settle.`, 'A draft that jumps from speed to speed: look at its own sweep page.', 'Middle of the plug-back before exhaust closing, torque and power of the drafts against engine speed.')}</section>
<section><h2>At one speed</h2>${playerBar('Engine speed', data.speeds.length, start)}${place('waves', 'Returning wave and pressure at the port', 'The returning wave should be low while the transfers are open and rise in the highlighted window.', 'Drafts alike in shape but shifted differ in length; alike in time but not in height differ in their cones.', 'Returning wave and port pressure of the drafts against crank angle.')}</section>`,
    data,
    program: result.program,
    assets,
  });
}
