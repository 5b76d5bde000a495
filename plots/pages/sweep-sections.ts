/** Parts of the sweep page below its figures: the rows, what the numbers rest on, and the cautions. */

import { landing } from '../figures/landing.ts';
import type { Column, SpeedRow } from '../figures/sweep-row.ts';
import { html } from '../theme/escape.ts';
import { exponential, fixed, rpm, speed } from '../theme/numbers.ts';
import type { InputLine, SweepPageExtras, SweepPageResult } from './sweep-data.ts';

/** Columns of the table: name, unit, decimals, factor. */
const columns: readonly (readonly [Column, string, string, number, number?])[] = [
  ['plugback_onset_deg', 'onset', '°', 0],
  ['plugback_peak_deg', 'peak', '°', 0],
  ['plugback_centroid_deg', 'middle', '°', 0],
  ['plugback_end_deg', 'end', '°', 0],
  ['plugback_lead_deg', 'lead (EC − peak)', '°', 0],
  ['plugback_share_before_closing', 'lands before EC', '%', 0, 100],
  ['plugback_peak_bar', 'plug-back', 'bar', 2],
  ['suction_bar', 'suction', 'bar', 2],
  ['port_mean_during_transfer_bar', 'port mean, TO–TC', 'bar', 2],
  ['packed_mass_ratio', 'packed back', '%', 1, 100],
  ['echo_return_deg', 'echo back at', '°', 0],
  ['echo_gain', 'echo gain', '–', 2],
  ['transfer_opening_cylinder_bar', 'cylinder at TO', 'bar', 2],
  ['transfer_opening_crankcase_bar', 'crankcase at TO', 'bar', 2],
  ['passage_exit_mach_max', 'Mach, passage', '–', 2],
  ['delivery_ratio', 'delivery', '–', 2],
  ['trapping_efficiency', 'trapping', '–', 2],
  ['scavenging_efficiency', 'scavenging', '–', 2],
  ['charging_efficiency', 'charging', '–', 2],
  ['bmep_bar', 'bmep', 'bar', 1],
  ['torque_nm', 'torque', 'Nm', 1],
  ['power_kw', 'power', 'kW', 1],
  ['exhaust_gas_temperature_k', 'exhaust gas', 'K', 0],
  ['pipe_mean_temperature_k', 'pipe gas', 'K', 0],
  ['cycles', 'cycles', '–', 0],
];

export function rowsTable(rows: readonly SpeedRow[]): string {
  const head = columns
    .map(([, name, unit]) => `<th class="n" scope="col">${name}<span class="unit">${unit}</span></th>`)
    .join('');
  const lines = rows.map((row) => {
    const kind = landing(row);
    const cells = columns.map(([name, , , decimals, factor = 1]) => {
      const value = row[name];
      return `<td class="n">${fixed(typeof value === 'number' ? value * factor : null, decimals)}</td>`;
    });
    return `<tr${kind === 'lands' ? ' class="useful"' : ''}><th class="n" scope="row">${speed(row.speed_rpm)}</th><td>${kind === 'none' ? '–' : kind}${row.settled ? '' : ', not settled'}</td>${cells.join('')}</tr>`;
  });
  return `<details><summary>All numbers, one line a speed</summary><div class="scroll" tabindex="0" role="region" aria-label="Table of all speeds"><table><caption>Angles in degrees after top dead centre. Highlighted: the wave lands as wanted.</caption><thead><tr><th class="n" scope="col">speed<span class="unit">rpm</span></th><th scope="col">the wave</th>${head}</tr></thead><tbody>${lines.join('')}</tbody></table></div></details>`;
}

const largest = (rows: readonly SpeedRow[], name: Column): number | null =>
  rows.reduce<number | null>((worst, row) => {
    const value = row[name];
    return typeof value === 'number' && Number.isFinite(value)
      ? Math.max(worst ?? 0, Math.abs(value))
      : worst;
  }, null);

/** Speeds that failed or did not settle, and behind a fold what else was noted on the way. */
function troubles(result: SweepPageResult): string {
  const list = (items: readonly string[]): string =>
    `<ul>${items.map((item) => `<li>${html(item)}</li>`).join('')}</ul>`;
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
  return `${bad.length === 0 ? '<p>Every speed settled.</p>' : `<div class="warn">${list(bad)}</div>`}${
    more.length === 0
      ? ''
      : `<details><summary>Notes at other speeds (${more.length})</summary>${list(more)}</details>`
  }`;
}

function inputLine(input: InputLine): string {
  const { moves } = input;
  const move = moves
    ? `<td>${html(moves.change.replace(/^-/, '−'))}</td><td class="n">${signed(moves.leadDeg, 1)}</td><td class="n">${signed(moves.torqueNm, 1)}</td>`
    : '<td>–</td><td class="n">–</td><td class="n">–</td>';
  return `<tr><td>${html(input.path)}</td><td class="${input.assumed ? 'assumed' : ''}">${html(input.value)}</td>${move}<td>${html(input.reason ?? '')}</td></tr>`;
}

const signed = (value: number | null, decimals: number): string =>
  value === null ? '–' : `${value > 0 ? '+' : ''}${fixed(value, decimals)}`;

function inputTable(lines: readonly InputLine[], caption: string): string {
  return `<div class="scroll" tabindex="0" role="region" aria-label="${html(caption)}"><table><caption>${html(caption)}</caption><thead><tr><th scope="col">input</th><th scope="col">value</th><th scope="col">changed by</th><th class="n" scope="col">lead<span class="unit">°</span></th><th class="n" scope="col">torque<span class="unit">Nm</span></th><th scope="col">why this value</th></tr></thead><tbody>${lines.map(inputLine).join('')}</tbody></table></div>`;
}

/** Assumed inputs: those whose effect is known first, the strongest on top; the rest behind a fold. */
function assumedInputs(assumed: readonly InputLine[], at: SweepPageExtras['movesAt']): string {
  if (assumed.length === 0) return '<p>No input was assumed.</p>';
  const [are, they] = assumed.length === 1 ? ['was', 'It was'] : ['were', 'They were'];
  const words = `<p>${assumed.length} of the inputs ${are} not in the files. ${they} assumed: measure first what moves the answer most.</p>`;
  const known = assumed
    .filter((input) => input.moves !== undefined)
    .sort((a, b) => Math.abs(b.moves?.leadDeg ?? 0) - Math.abs(a.moves?.leadDeg ?? 0));
  const rest = assumed.filter((input) => input.moves === undefined);
  const where = at === undefined ? '' : ` at ${rpm(at.speedRpm)}, on cells of ${fixed(1000 * at.cell, 1)} mm`;
  const first =
    known.length === 0
      ? ''
      : inputTable(known, `Assumed inputs, and how far a change moves lead and torque${where}`);
  const others =
    rest.length === 0
      ? ''
      : rest.length <= 8 && known.length === 0
        ? inputTable(rest, 'Assumed inputs')
        : `<details><summary>${known.length === 0 ? 'Assumed inputs' : 'Other assumed inputs'} (${rest.length})</summary>${inputTable(rest, 'Assumed inputs')}</details>`;
  return `${words}<div class="noprint">${first}${others}</div>`;
}

export function restsOn(result: SweepPageResult, extras: SweepPageExtras): string {
  const inputs: readonly InputLine[] =
    extras.inputs ?? result.case.assumed.map((one) => ({ ...one, assumed: true }));
  const given = inputs.filter((input) => !input.assumed);
  const { rows } = result;
  const balance = `Mesh: cells of ${fixed(1000 * result.case.run.cell, 1)} mm, ${html(result.case.run.scheme)} scheme. At the worst speed the mass of a cycle balances to ${exponential(largest(rows, 'mass_balance_error'))} of the trapped mass and the energy to ${exponential(largest(rows, 'energy_balance_error'))} of the heat released. Largest swing within the cycles that a row is the mean of: torque ${fixed(largest(rows, 'spread_torque_percent'), 1)} %, the plug-back’s peak ${fixed(largest(rows, 'spread_plugback_deg'), 1)}°.`;
  return `<h2 id="rests">What these numbers rest on</h2>
${troubles(result)}<p>${balance}</p>
${assumedInputs(
  inputs.filter((input) => input.assumed),
  extras.movesAt,
)}
${given.length === 0 ? '' : `<details><summary>Inputs as given (${given.length})</summary>${inputTable(given, 'Inputs as given')}</details>`}`;
}

/** Said once, where someone is about to cut metal and run an engine. */
export const cautions = `<h2 id="care">Before you cut and run</h2>
<ul class="small"><li>A running pipe burns skin; let it cool. Weld with the fuel away, eyes and lungs protected.</li><li>A better pipe moves the mixture: start rich, read the plug, then lean; a lean two-stroke seizes.</li><li>Stay within the speeds the crank and rod are made for, and wear ear protection.</li><li>Follow your club’s and country’s rules on noise; run on a dynamometer or a closed course.</li></ul>`;
