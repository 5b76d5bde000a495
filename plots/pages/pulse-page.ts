/** The pulse page: what the probes saw of one shot, and the duct at chosen instants. SI in, as it was computed. */

import { outlineDrawing, sectionList } from '../figures/outline-drawing.ts';
import type { ProbeTrace } from '../figures/probe-traces.ts';
import type { Profile } from '../figures/pulse-profiles.ts';
import type { Stretch } from '../marks/silhouette.ts';
import { html } from '../theme/markup.ts';
import { exponential, fixed, millimetres, THIN } from '../theme/numbers.ts';
import { keptExtremes } from './kept-extremes.ts';
import { playerBar, table } from './parts.ts';
import { type Assets, place, sheet } from './sheet.ts';

export interface PulsePageResult {
  readonly program: string;
  readonly name: string;
  /** Left to right from the left end; lengths and diameters in m. */
  readonly sections: readonly {
    readonly name: string;
    readonly start: number;
    readonly end: number;
    readonly diameters: readonly [number, number];
  }[];
  readonly ambientPressure: number;
  readonly until: number;
  readonly cell: number;
  readonly scheme: string;
  readonly probes: readonly {
    readonly name: string;
    readonly position: number;
    readonly time: readonly number[];
    readonly pressure: readonly number[];
    readonly forward: readonly number[];
    readonly backward: readonly number[];
  }[];
  readonly profiles: readonly {
    readonly time: number;
    readonly positions: readonly number[];
    readonly pressure: readonly number[];
    readonly velocity: readonly number[];
  }[];
  readonly massError: number | null;
  readonly energyError: number | null;
  readonly notes: readonly string[];
}

export interface PulsePageData {
  readonly outline: readonly Stretch[];
  readonly probes: readonly ProbeTrace[];
  readonly profiles: readonly Profile[];
}

/** Samples that a probe's curves and a profile keep. */
const MOST = 1800;

const scaled = (
  values: readonly number[],
  kept: readonly number[],
  factor: number,
  decimals: number,
): number[] => kept.map((i) => Number(((values[i] ?? 0) * factor).toFixed(decimals)));

function dataOf(result: PulsePageResult): PulsePageData {
  return {
    outline: result.sections.map((part) => ({
      name: part.name,
      role: 'duct',
      start: 1000 * part.start,
      end: 1000 * part.end,
      diameters: [1000 * part.diameters[0], 1000 * part.diameters[1]],
    })),
    probes: result.probes.map((probe) => {
      const { time, pressure, forward, backward } = probe;
      const kept = keptExtremes([pressure, forward, backward], MOST);
      return {
        name: probe.name,
        position: probe.position,
        time: scaled(time, kept, 1000, 4),
        pressure: scaled(pressure, kept, 1e-5, 5),
        forward: scaled(forward, kept, 1e-5, 5),
        backward: scaled(backward, kept, 1e-5, 5),
      };
    }),
    profiles: result.profiles.map(({ time, positions, pressure, velocity }) => {
      const kept = keptExtremes([pressure, velocity], MOST);
      return {
        time: 1000 * time,
        positions: scaled(positions, kept, 1000, 2),
        pressure: scaled(pressure, kept, 1e-5, 5),
        velocity: scaled(velocity, kept, 1, 2),
      };
    }),
  };
}

interface Seen {
  readonly arrival: number | null;
  readonly highest: number;
  readonly highestAt: number;
  readonly lowest: number;
  readonly lowestAt: number;
}

/** First arrival: the pressure has moved by a twentieth of its largest excursion from where it started. */
export function seenBy(time: readonly number[], pressure: readonly number[]): Seen {
  const start = pressure[0] ?? 0;
  let top = 0;
  let bottom = 0;
  let excursion = 0;
  pressure.forEach((value, i) => {
    if (value > (pressure[top] ?? 0)) top = i;
    if (value < (pressure[bottom] ?? 0)) bottom = i;
    excursion = Math.max(excursion, Math.abs(value - start));
  });
  const first = pressure.findIndex((value) => Math.abs(value - start) > excursion / 20);
  return {
    arrival: first < 0 || excursion === 0 ? null : (time[first] ?? null),
    highest: pressure[top] ?? 0,
    highestAt: time[top] ?? 0,
    lowest: pressure[bottom] ?? 0,
    lowestAt: time[bottom] ?? 0,
  };
}

/** A wave that rises by less than this share of the surroundings is none. */
const LEAST = 0.01;

interface Passing {
  readonly probe: string;
  readonly way: 'right' | 'left';
  /** How far it rises above the surroundings, and above what stood there at the start [Pa]. */
  readonly height: number;
  readonly seen: Seen;
}

/** The waves that pass the probes; what stands there at the start is none. */
function passingWaves({ probes, ambientPressure }: PulsePageResult): readonly Passing[] {
  return probes
    .flatMap(({ name, time, forward, backward }) =>
      (['right', 'left'] as const).map((way): Passing => {
        const wave = way === 'right' ? forward : backward;
        const seen = seenBy(time, wave);
        const stood = Math.max(ambientPressure, wave[0] ?? ambientPressure);
        return { probe: name, way, height: seen.highest - stood, seen };
      }),
    )
    .sort((a, b) => b.height - a.height);
}

/** Where no wave is worth a bar's hundredth: by how much the strongest rises. */
const weak = (strongest: Passing | undefined): string =>
  strongest === undefined || !(strongest.height > 1)
    ? 'No wave of higher pressure passes a probe.'
    : `Only weak waves pass: at most ${fixed(strongest.height / 100, 2)}${THIN}mbar, at “${strongest.probe}” running ${strongest.way} after ${fixed(1000 * strongest.seen.highestAt, 2)}${THIN}ms.`;

/** The strongest wave that passes a probe, and what runs the other way there. */
export function pulseHeadline(result: PulsePageResult): string {
  if (result.probes.length === 0) return 'No probe was set, so nothing was watched.';
  const passing = passingWaves(result);
  const waves = passing.filter(({ height }) => height > LEAST * result.ambientPressure);
  const first = waves[0];
  if (first === undefined) return weak(passing[0]);
  const wave = ({ way, seen }: Passing): string =>
    `${fixed(seen.highest / 1e5, 2)}${THIN}bar running ${way} after ${fixed(1000 * seen.highestAt, 2)}${THIN}ms`;
  const back = waves.find(({ probe, way }) => probe === first.probe && way !== first.way);
  if (back === undefined) return `The strongest wave passes at “${first.probe}”: ${wave(first)}.`;
  const [earlier, later] = first.seen.highestAt <= back.seen.highestAt ? [first, back] : [back, first];
  return `The strongest wave passes at “${first.probe}”: ${wave(earlier)}, ${wave(later)}.`;
}

export function pulsePage(result: PulsePageResult, assets: Assets): string {
  const data = dataOf(result);
  const bar = (pascal: number): string => fixed(pascal / 1e5, 3);
  const ms = (seconds: number | null): string => (seconds === null ? '–' : fixed(1000 * seconds, 2));
  const probes = table(
    'What each probe saw',
    [
      { name: 'probe' },
      { name: 'at', unit: 'from the left', number: true },
      { name: 'first wave', unit: 'ms', number: true },
      { name: 'highest', unit: 'bar', number: true },
      { name: 'at', unit: 'ms', number: true },
      { name: 'lowest', unit: 'bar', number: true },
      { name: 'at', unit: 'ms', number: true },
    ],
    result.probes.map((probe) => {
      const seen = seenBy(probe.time, probe.pressure);
      const numbers = [
        millimetres(probe.position),
        ms(seen.arrival),
        bar(seen.highest),
        ms(seen.highestAt),
        bar(seen.lowest),
        ms(seen.lowestAt),
      ];
      return { cells: [{ text: probe.name }, ...numbers.map((text) => ({ text, number: true }))] };
    }),
  );
  const notes = result.notes.map((note) => html`<p class="note">${note}</p>`);
  const profiles =
    data.profiles.length > 0 &&
    html`<section><h2>Along the duct</h2>${playerBar('Instant', data.profiles.length, 0)}${place('profiles', 'Pressure and velocity along the duct', 'The dark line is the chosen instant, the faint ones are the others.', 'A saw-tooth at a joint: the diameters on its two sides do not agree, or the cells are too coarse there.', 'Pressure and velocity along the duct at one instant.')}</section>`;
  return sheet({
    title: `${result.name} – pulse`,
    titleBlock: [
      ['Pulse', result.name],
      ['Watched for', `${fixed(1000 * result.until, 2)} ms`],
      ['Surroundings', `${bar(result.ambientPressure)} bar`],
      ['Mesh', `${fixed(1000 * result.cell, 1)} mm, ${result.scheme}`],
      ['Program', result.program, 'minor'],
    ],
    body: html`<section class="answer"><div><h1>${pulseHeadline(result)}</h1></div><div>${probes}</div><div class="drawing">${outlineDrawing([{ name: result.name, outline: data.outline }], `Outline of the duct ${result.name}, to scale`)}${sectionList(data.outline)}</div></section>${notes}
<section><h2>At the probes</h2>${place('probes', 'Pressure, and the waves it is made of', 'The waves running right and left superpose to the pressure at the probe: a wave that shows in one of them only is passing, not standing.', 'Both waves move together: the probe sits at an end, or the flow there is not one-dimensional.', 'Pressure with right-running and left-running wave at each probe against time.')}</section>
${profiles}<h2>What these numbers rest on</h2><p>Over the whole time mass balances to ${exponential(size(result.massError))} and energy to ${exponential(size(result.energyError))} of what was there.</p>`,
    data,
    program: result.program,
    assets,
  });
}

const size = (value: number | null): number | null => (value === null ? null : Math.abs(value));
