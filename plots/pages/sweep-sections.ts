/** Parts of the sweep page below its figures: the rows, what the numbers rest on, and the cautions. */

import { landing, middleLead } from '../../src/findings/landing.ts';
import type { ColumnName, NumberColumn, SweepRow } from '../../src/findings/row.ts';
import { swings } from '../figures/swing.ts';
import { html, type Markup } from '../theme/markup.ts';
import { asPrinted, exponential, fixed, celsius as inCelsius, rpm, signed, speed } from '../theme/numbers.ts';
import { inputName } from './input-name.ts';
import type { InputLine, SweepPageExtras, SweepPageResult } from './sweep-data.ts';

type Reading = ColumnName | ((row: SweepRow) => number | null);

/** A temperature of the row in degrees Celsius, as all of the page has them. */
const celsius =
  (name: NumberColumn) =>
  (row: SweepRow): number | null => {
    const kelvin = row[name];
    return kelvin === null ? null : kelvin - 273.15;
  };

/** Columns of the table, what matters first: name, unit, decimals, factor. */
const columns: readonly (readonly [Reading, string, string, number, number?])[] = [
  ['torque_nm', 'torque', 'Nm', 1],
  ['power_kw', 'power', 'kW', 1],
  [middleLead, 'middle before EC', '°', 0],
  ['plugback_centroid_deg', 'middle', '°', 0],
  ['plugback_share_before_closing', 'of the wave before EC', '%', 0, 100],
  ['packed_mass_ratio', 'packed back', '%', 1, 100],
  ['plugback_onset_deg', 'onset', '°', 0],
  ['plugback_peak_deg', 'peak', '°', 0],
  ['plugback_end_deg', 'end', '°', 0],
  ['plugback_peak_bar', 'plug-back', 'bar', 2],
  ['suction_bar', 'suction', 'bar', 2],
  ['port_mean_during_transfer_bar', 'port mean, TO–TC', 'bar', 2],
  ['echo_return_deg', 'echo back at', '°', 0],
  ['echo_gain', 'echo gain', '–', 2],
  ['transfer_opening_cylinder_bar', 'cylinder at TO', 'bar', 2],
  ['transfer_opening_crankcase_bar', 'crankcase at TO', 'bar', 2],
  ['passage_exit_mach_max', 'Mach, passage, whole cycle', '–', 2],
  ['delivery_ratio', 'delivery', '–', 2],
  ['trapping_efficiency', 'trapping', '–', 2],
  ['scavenging_efficiency', 'scavenging', '–', 2],
  ['charging_efficiency', 'charging', '–', 2],
  ['bmep_bar', 'bmep', 'bar', 1],
  [celsius('exhaust_gas_temperature_k'), 'exhaust gas', '°C', 0],
  [celsius('pipe_mean_temperature_k'), 'pipe gas', '°C', 0],
  [celsius('header_gas_temperature_k'), 'gas, header', '°C', 0],
  [celsius('belly_gas_temperature_k'), 'gas, belly', '°C', 0],
  [celsius('stinger_gas_temperature_k'), 'gas, stinger', '°C', 0],
  [celsius('header_wall_temperature_k'), 'wall, header', '°C', 0],
  [celsius('belly_wall_temperature_k'), 'wall, belly', '°C', 0],
  [celsius('stinger_wall_temperature_k'), 'wall, stinger', '°C', 0],
  ['stinger_back_pressure_bar', 'before the stinger, above ambient', 'bar', 2],
  ['crankcase_lowest_bar', 'crankcase, lowest', 'bar', 2],
  ['crankcase_highest_bar', 'crankcase, highest', 'bar', 2],
  ['cycles', 'cycles', '–', 0],
];

export function rowsTable(rows: readonly SweepRow[]): Markup {
  const head = columns.map(
    ([, name, unit]) => html`<th class="n" scope="col">${name}<span class="unit">${unit}</span></th>`,
  );
  const lines = rows.map((row) => {
    const kind = landing(row);
    const cells = columns.map(([name, , , decimals, factor = 1]) => {
      const value = typeof name === 'function' ? name(row) : row[name];
      return html`<td class="n">${fixed(typeof value === 'number' ? value * factor : null, decimals)}</td>`;
    });
    return html`<tr${kind === 'lands' && html` class="useful"`}><th class="n" scope="row">${speed(row.speed_rpm)}</th><td>${kind === 'none' ? '–' : kind}${!row.settled && ', not settled'}</td>${cells}</tr>`;
  });
  return html`<details><summary>All numbers, one line a speed</summary><div class="scroll" tabindex="0" role="region" aria-label="Table of all speeds"><table><caption>Angles in degrees after top dead centre. Highlighted: the wave lands as wanted.</caption><thead><tr><th class="n" scope="col">speed<span class="unit">rpm</span></th><th scope="col">the wave</th>${head}</tr></thead><tbody>${lines}</tbody></table></div></details>`;
}

const largest = (rows: readonly SweepRow[], name: ColumnName): number | null =>
  rows.reduce<number | null>((worst, row) => {
    const value = row[name];
    return typeof value === 'number' && Number.isFinite(value)
      ? Math.max(worst ?? 0, Math.abs(value))
      : worst;
  }, null);

const joined = (parts: readonly string[]): string => parts.join(', ').replace(/, ([^,]*)$/, ' and $1');

/** Runs of neighbouring speeds out of all, "9 000 to 9 500 and 11 000 rpm". */
function speedsText(rows: readonly SweepRow[], chosen: (row: SweepRow) => boolean): string {
  const runs: [from: number, to: number][] = [];
  rows.forEach((row, i) => {
    if (!chosen(row)) return;
    const open = i > 0 && chosen(rows[i - 1]!) ? runs.at(-1) : undefined;
    if (open) open[1] = row.speed_rpm;
    else runs.push([row.speed_rpm, row.speed_rpm]);
  });
  return `${joined(runs.map(([from, to]) => (from === to ? speed(from) : `${speed(from)} to ${speed(to)}`)))}\u202frpm`;
}

/** Whether the cycles repeat: a mean that holds is not the same as cycles alike. */
function settledWords(rows: readonly SweepRow[]): string {
  const loose = rows.filter((row) => row.settled && swings(row));
  if (loose.length === 0) return 'Every speed settled.';
  const torque = fixed(largest(loose, 'spread_torque_percent'), 1);
  const wave = fixed(largest(loose, 'spread_plugback_deg'), 0);
  return `Every mean is steady, but cycles differ at ${speedsText(rows, (row) => row.settled && swings(row))}: torque by up to ${torque} %, the peak of the plug-back by up to ${wave}°. Take the numbers there as averages.`;
}

/** Speeds that failed or did not settle, and behind a fold what else was noted on the way. */
function troubles(result: SweepPageResult): Markup {
  const list = (items: readonly string[]): Markup =>
    html`<ul>${items.map((item) => html`<li>${asPrinted(item)}</li>`)}</ul>`;
  const noted = (settled: boolean): string[] =>
    result.speeds
      .filter((one) => one.row.settled === settled)
      .flatMap((one) => one.notes.map((note) => `${rpm(one.row.speed_rpm)}: ${note}`));
  const silent = result.rows.filter((row, i) => !row.settled && (result.speeds[i]?.notes.length ?? 0) === 0);
  const bad = [
    ...result.failures.map((one) => `${rpm(one.speedRpm)} failed: ${one.reason}`),
    ...noted(false),
    ...silent.map(
      (row) =>
        `${rpm(row.speed_rpm)} did not settle within ${row.cycles} cycles; torque still moved by ${fixed(row.spread_torque_percent, 1)} %, the plug-back by ${fixed(row.spread_plugback_deg, 1)}°.`,
    ),
  ];
  const more = noted(true);
  const steady = bad.length === 0 || result.rows.some((row) => row.settled && swings(row));
  const words = steady && html`<p>${settledWords(result.rows)}</p>`;
  return html`${bad.length > 0 && html`<div class="warn">${list(bad)}</div>`}${words}${
    more.length > 0 && html`<details><summary>Notes (${more.length})</summary>${list(more)}</details>`
  }`;
}

/** A value as pages print it; a temperature in the degrees of all others. */
function valueText(value: string): string {
  const kelvin = /^(\d+(?:\.\d+)?) K$/.exec(value)?.[1];
  return kelvin === undefined ? asPrinted(value) : inCelsius(Number(kelvin));
}

function inputLine(input: InputLine, table: InputTable): Markup {
  const { moves, reason = '' } = input;
  const move = table.moved
    ? moves
      ? html`<td class="n">${asPrinted(moves.change)}</td><td class="n">${signed(moves.leadDeg, 1)}</td><td class="n">${signed(moves.torqueNm, 1)}</td>`
      : html`<td class="n">–</td><td class="n">–</td><td class="n">–</td>`
    : null;
  // A telephone has no room for the last column: there the reason stands below the name.
  const why = reason && html`<span class="why">${asPrinted(reason)}</span>`;
  return html`<tr><td title="${input.path}">${inputName(input.path)}${why}</td><td class="${input.assumed && 'assumed'}">${valueText(input.value)}</td>${move}<td class="reason">${asPrinted(reason)}</td></tr>`;
}

interface InputTable {
  readonly caption: string;
  /** It has columns for what a change moves. */
  readonly moved: boolean;
}

function inputTable(lines: readonly InputLine[], table: InputTable): Markup {
  const { caption } = table;
  const moved =
    table.moved &&
    html`<th class="n" scope="col">changed by</th><th class="n" scope="col">wave earlier by<span class="unit">°</span></th><th class="n" scope="col">torque<span class="unit">Nm</span></th>`;
  const rows = lines.map((line) => inputLine(line, table));
  return html`<div class="scroll" tabindex="0" role="region" aria-label="${caption}"><table class="inputs"><caption>${caption}</caption><thead><tr><th scope="col">input</th><th scope="col">value</th>${moved}<th class="reason" scope="col">why this value</th></tr></thead><tbody>${rows}</tbody></table></div>`;
}

/** Lines of the strongest inputs that a printed page has room for. */
const PRINTED_INPUTS = 5;

/** Assumed inputs: those whose effect is known first, the strongest on top; the rest behind a fold. */
function assumedInputs(assumed: readonly InputLine[], at: SweepPageExtras['movesAt']): Markup {
  if (assumed.length === 0) return html`<p>No input was assumed.</p>`;
  const [are, they] = assumed.length === 1 ? ['was', 'It was'] : ['were', 'They were'];
  const known = assumed
    .filter((input) => input.moves !== undefined)
    .sort((a, b) => Math.abs(b.moves?.leadDeg ?? 0) - Math.abs(a.moves?.leadDeg ?? 0));
  const rest = assumed.filter((input) => input.moves === undefined);
  const words = html`<p>${assumed.length} of the inputs ${are} not in the files. ${they} assumed: measure first what moves the answer most.</p>`;
  const where = at === undefined ? '' : ` at ${rpm(at.speedRpm)}, on cells of ${fixed(1000 * at.cell, 1)} mm`;
  const first =
    known.length > 0 &&
    inputTable(known, {
      caption: `Assumed inputs, the strongest first, and what a change of each does${where}: how much earlier the middle of the plug-back comes (−: later), and what the torque gains`,
      moved: true,
    });
  const strongest = known
    .slice(0, PRINTED_INPUTS)
    .flatMap(({ path, moves }) =>
      moves === undefined
        ? []
        : [
            `${inputName(path)} (${asPrinted(moves.change)}: wave ${signed(moves.leadDeg, 1)}°, torque ${signed(moves.torqueNm, 1)} Nm)`,
          ],
    );
  const printed =
    strongest.length > 0 &&
    html`<p class="printonly small">The strongest${where}, with how much earlier the wave comes and what the torque gains: ${strongest.join('; ')}.</p>`;
  const unmoved = { caption: 'Assumed inputs', moved: false };
  const others =
    rest.length > 0 &&
    (rest.length <= 8 && known.length === 0
      ? inputTable(rest, unmoved)
      : html`<details><summary>${known.length === 0 ? 'Assumed inputs' : 'Other assumed inputs'} (${rest.length})</summary>${inputTable(rest, unmoved)}</details>`);
  return html`${words}${printed}<div class="noprint">${first}${others}</div>`;
}

export function restsOn(result: SweepPageResult, extras: SweepPageExtras): Markup {
  const inputs: readonly InputLine[] =
    extras.inputs ?? result.case.assumed.map((one) => ({ ...one, assumed: true }));
  const given = inputs.filter((input) => !input.assumed);
  const { rows } = result;
  const balance = `Mesh: cells of ${fixed(1000 * result.case.run.cell, 1)} mm, ${result.case.run.scheme} scheme. At the worst speed the mass of a cycle balances to ${exponential(largest(rows, 'mass_balance_error'))} of the trapped mass and the energy to ${exponential(largest(rows, 'energy_balance_error'))} of the heat released. Largest swing within the cycles that a row is the mean of: torque ${fixed(largest(rows, 'spread_torque_percent'), 1)} %, the plug-back’s peak ${fixed(largest(rows, 'spread_plugback_deg'), 1)}°.`;
  return html`<h2 id="rests">What these numbers rest on</h2>
${troubles(result)}<p class="balance">${balance}</p>
${assumedInputs(
  inputs.filter((input) => input.assumed),
  extras.movesAt,
)}
${given.length > 0 && html`<details><summary>Inputs as given (${given.length})</summary>${inputTable(given, { caption: 'Inputs as given', moved: given.some((input) => input.moves !== undefined) })}</details>`}`;
}

/** Said once, where someone is about to cut metal and run an engine. */
export const cautions = html`<h2 id="care">Before you cut and run</h2>
<ul class="small cautions"><li>A running pipe burns skin; let it cool. Weld with the fuel away, eyes and lungs protected.</li><li>A better pipe moves the mixture: start rich, read the plug, then lean; a lean two-stroke seizes.</li><li>Stay within the speeds the crank and rod are made for, and wear ear protection.</li><li>Follow your club’s and country’s rules on noise; run on a dynamometer or a closed course.</li></ul>`;
