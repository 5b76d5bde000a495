/** `echocone pulse`: gas is let go in a duct or a vessel and watched at probes; tables, a document and a page. */

import { pulsePage } from '../../plots/pages/pulse-page.ts';
import { pulseCard } from '../../plots/pages/run-cards.ts';
import { loadPulse } from '../case/load.ts';
import { placed } from '../pipe/places.ts';
import type { ProbeRecord, PulseResult } from '../study/pulse/result.ts';
import { pulseSteps } from '../study/pulse/run-pulse.ts';
import { breathing } from '../study/work/breath.ts';
import { csvLine } from './frame/csv.ts';
import { jsonText } from './frame/json.ts';
import { pageAssets } from './frame/page-assets.ts';
import { plainText } from './frame/plain-text.ts';
import type { Progress } from './frame/progress.ts';
import { openRunFolder } from './frame/run-folder.ts';
import { listRun } from './frame/run-index.ts';
import { type Column, tableText } from './frame/table.ts';
import type { Invocation } from './frame/verb.ts';

export async function run({ files, flags, terminal, signal, program }: Invocation): Promise<void> {
  // As an override it meets the same limits as in the file.
  const cell = flags.cell === undefined ? [] : [`cell=${Number((1e3 * flags.cell).toPrecision(12))} mm`];
  const pulse = loadPulse(files[0]!, { set: [...flags.set, ...cell] });
  const folder = openRunFolder({ out: flags.out, name: pulse.name, overwrite: flags.overwrite });
  const progress = terminal.progress({ label: 'pulse', things: 'us', total: 1e6 * pulse.until });
  let result: PulseResult;
  try {
    result = await breathing(watched(pulseSteps(pulse), progress), signal);
  } catch (error) {
    folder.giveUp();
    throw error;
  } finally {
    progress.finish();
  }
  folder.write('probes.csv', probesCsv(result));
  folder.write('profiles.csv', profilesCsv(result));
  const whole = { ...result, program };
  const document = jsonText(whole);
  folder.write('pulse.json', document);
  const page = pageData(result, program);
  folder.write('pulse.html', pulsePage(page, pageAssets('pulse')));
  listRun(folder, 'pulse.html', pulseCard(page), { terminal, program });
  terminal.answer(flags.json ? document : summary(result));
  terminal.message(`probes.csv, profiles.csv, pulse.json and pulse.html in ${folder.path}`);
}

/** The steps of a pulse with their progress shown [s]. */
function* watched<Result>(steps: Generator<number, Result>, progress: Progress): Generator<number, Result> {
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
    progress.advance(1e6 * step.value);
    yield step.value;
  }
}

/** One line a sample; a vessel's columns follow those of the probes. */
export function probesCsv({ time, probes, vessels }: PulseResult): string {
  const heads = probes.flatMap(({ name }) => [
    `${name}_pressure_pa`,
    `${name}_velocity_m_s`,
    `${name}_temperature_k`,
    `${name}_density_kg_m3`,
    `${name}_forward_pa`,
    `${name}_backward_pa`,
  ]);
  const columns = probes.flatMap((p) => [
    p.pressure,
    p.velocity,
    p.temperature,
    p.density,
    p.forward,
    p.backward,
  ]);
  for (const { side, pressure, temperature, mass } of vessels) {
    heads.push(`${side}_vessel_pressure_pa`, `${side}_vessel_temperature_k`, `${side}_vessel_mass_kg`);
    columns.push(pressure, temperature, mass);
  }
  const lines = time.map((t, k) => csvLine([t, ...columns.map((column) => column[k])]));
  return csvLine(['time_s', ...heads]) + lines.join('');
}

export function profilesCsv({ profiles }: PulseResult): string {
  let text = 'time_s,position_m,pressure_pa,velocity_m_s,temperature_k,density_kg_m3\n';
  for (const p of profiles) {
    p.positions.forEach((position, i) => {
      text += csvLine([p.time, position, p.pressure[i], p.velocity[i], p.temperature[i], p.density[i]]);
    });
  }
  return text;
}

function pageData(result: PulseResult, program: string): Parameters<typeof pulsePage>[0] {
  const { name, pulse, time, balance } = result;
  const sections = placed(pulse.sections).map(({ name: called, start, end, diameter }) => ({
    name: called,
    start,
    end,
    diameters: diameter,
  }));
  return {
    program,
    name,
    sections,
    ambientPressure: pulse.ambient.pressure,
    until: pulse.until,
    cell: pulse.cell,
    scheme: pulse.scheme,
    probes: result.probes.map((probe) => ({ ...probe, time })),
    profiles: result.profiles,
    massError: balance.massError,
    energyError: balance.energyError,
    notes: result.notes,
  };
}

const columns: readonly Column<ProbeRecord>[] = [
  { header: 'Probe', align: 'left', text: ({ name }) => name },
  { header: 'at', unit: 'mm', text: ({ position }) => (1e3 * position).toFixed(1) },
  { header: 'peak', unit: 'bar', text: ({ peak }) => (1e-5 * peak.pressure).toFixed(4) },
  { header: 'at', unit: 'ms', text: ({ peak }) => (1e3 * peak.time).toFixed(3) },
  { header: 'trough', unit: 'bar', text: ({ trough }) => (1e-5 * trough.pressure).toFixed(4) },
  { header: 'at', unit: 'ms', text: ({ trough }) => (1e3 * trough.time).toFixed(3) },
];

function summary(result: PulseResult): string {
  const { pulse, ducts, balance, steps, rejectedSteps } = result;
  const cells = ducts.reduce((sum, duct) => sum + duct.cells, 0);
  const share = (error: number): string => Math.abs(error).toExponential(1);
  return [
    `${plainText(result.name)}: ${(1e3 * pulse.until).toPrecision(4)} ms, ${cells} cells, ${steps} steps, scheme ${pulse.scheme}\n`,
    result.probes.length === 0 ? 'No probes were set.\n' : tableText(columns, result.probes),
    `Balance errors: mass ${share(balance.massError)}, energy ${share(balance.energyError)} of what was there.`,
    rejectedSteps === 0 ? '\n' : ` ${rejectedSteps} steps taken again.\n`,
    ...result.notes.map((note) => `${wrapped(note)}\n`),
  ].join('');
}

/** A sentence in lines of at most 80 columns. */
function wrapped(text: string): string {
  return plainText(text)
    .replace(/(.{1,80})(?: |$)/g, (_, line: string) => `${line}\n`)
    .trimEnd();
}
