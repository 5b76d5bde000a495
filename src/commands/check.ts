/**
 * `echocone check`: what can be said of a case before a wave is computed, on two screens of 80 columns. Nothing is
 * judged here and nothing computed; the report is made by the timing core.
 */
import { loadCase } from '../case/load.ts';
import type { CheckReport, WindowRow } from '../timing/rules/report.ts';
import { checkReport } from '../timing/rules/report.ts';
import { type RuleFinding, usualDigits } from '../timing/rules/rule.ts';
import type { TimeAreas } from '../timing/time-area.ts';
import { LOWER, WARMER } from '../timing/weather.ts';
import { jsonText } from './frame/json.ts';
import { plainText } from './frame/plain-text.ts';
import { shellFile, shellWord } from './frame/shell-word.ts';
import { tableText } from './frame/table.ts';
import { typed } from './frame/typed.ts';
import type { Invocation } from './frame/verb.ts';
import { assumedText } from './words/assumed-text.ts';

const WIDTH = 80;
/** Speeds shown at most; the rest is in --json. */
const SPEEDS = 5;

export async function run({ files, flags, terminal }: Invocation): Promise<void> {
  const file = files[0]!;
  const report = checkReport(loadCase(file, { set: flags.set }));
  terminal.answer(flags.json ? jsonText(report) : renderCheck(report));
  const sets = flags.set.map((one) => ` --set ${shellWord(one)}`).join('');
  terminal.message(`Next: ${typed()} sweep ${shellFile(file)}${sets}`);
}

/** Rules whose advice is wanted within the usual range too. */
const ALWAYS: ReadonlySet<string> = new Set(['exhaust-duration']);

/** The report as text of 80 columns. */
export function renderCheck(report: CheckReport): string {
  return [
    heading(report),
    ports(report),
    timeAreaTable(report),
    pipeTable(report),
    rules(report),
    footing(report),
  ]
    .join('\n')
    .replace(/[ \t]+$/gm, '');
}

/** Fixed decimals; what rounds to nothing has no sign. */
const fixed = (value: number | null, digits: number, scale = 1) =>
  value === null || !Number.isFinite(value)
    ? '-'
    : (value * scale).toFixed(digits).replace(/^-(?=[0.]*$)/, '');

/** Words broken into lines, the later ones indented as the first. */
function wrapped(text: string, indent = '', most = Infinity): string {
  const lines: string[] = [];
  let line = '';
  for (const word of plainText(text).split(' ')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (indent.length + longer.length > WIDTH && line !== '') {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  lines.push(line);
  const kept = lines.slice(0, most);
  if (lines.length > most) kept[most - 1] = `${kept[most - 1]?.slice(0, WIDTH - indent.length - 2)} …`;
  return kept.map((l) => `${indent}${l}\n`).join('');
}

function heading({ name, note, displacement, compression: c, aim }: CheckReport): string {
  const engine =
    `${fixed(displacement, 1, 1e6)} cm3, compression ${fixed(c.full, 1)} over the full stroke, ${fixed(c.trapped, 1)} ` +
    `trapped, ${fixed(c.crankcase, 2)} in the crankcase.`;
  const aimed =
    `Aimed at ${fixed(aim.rpm, 0)} rpm${aim.stated ? '' : ' (middle of the sweep; none stated)'} and ` +
    `${fixed(aim.bmep, 1, 1e-5)} bar mean effective pressure (assumed).`;
  return wrapped(name) + (note ? wrapped(note, '', 2) : '') + wrapped(`${engine} ${aimed}`);
}

function ports({ windows, events, areas, crownBelowDeck }: CheckReport): string {
  // The roof's own edge differs from what the gas sees only where it is chamfered.
  const chamfered = windows.some((w) => w.durationDeg - w.edgeDurationDeg > 0.005);
  const table = tableText<WindowRow>(
    [
      { header: 'Window', align: 'left', text: (w) => `${w.count} x ${w.name}` },
      { header: 'width', unit: 'mm', text: (w) => fixed(w.chordWidth, 1, 1e3) },
      { header: 'roof at', unit: 'mm', text: (w) => fixed(w.roofTravel, 2, 1e3) },
      { header: 'opens', unit: 'deg', text: (w) => fixed(w.opensDeg, 1) },
      { header: 'closes', unit: 'deg', text: (w) => fixed(w.closesDeg, 1) },
      { header: 'open', unit: 'deg', text: (w) => fixed(w.durationDeg, 1) },
      ...(chamfered
        ? [{ header: 'edge', unit: 'deg', text: (w: WindowRow) => fixed(w.edgeDurationDeg, 1) }]
        : []),
      { header: 'area', unit: 'mm2', text: (w) => fixed(w.wallArea, 0, 1e6) },
      { header: 'stream', unit: 'mm2', text: (w) => fixed(w.streamArea, 0, 1e6) },
    ],
    windows,
  );
  const blowdown =
    `Blowdown ${fixed(events.blowdownDeg, 1)} deg; ${fixed(areas.exhaustAtTransferOpening, 0, 1e6)} of ` +
    `${fixed(areas.exhaust, 0, 1e6)} mm2 exhaust open as transfers (${fixed(areas.transfer, 0, 1e6)} mm2) begin.`;
  const datum =
    'Roof at: down from the crown at top dead centre, which ' +
    `${Math.abs(crownBelowDeck) < 5e-6 ? 'is flush with the deck' : `stands ${fixed(crownBelowDeck, 2, 1e3)} mm below the deck`}.`;
  return table + wrapped(`${datum} ${blowdown}`);
}

/** The speed aimed at, the ends of the sweep and what lies evenly between. */
function shownSpeeds(report: CheckReport): readonly TimeAreas[] {
  const all = report.timeAreas;
  if (all.length <= SPEEDS) return all;
  const target = all.findIndex((row) => row.rpm === report.aim.rpm);
  const spread = Array.from({ length: SPEEDS }, (_, i) => Math.round((i * (all.length - 1)) / (SPEEDS - 1)));
  const nearest = spread.reduce((a, b) => (Math.abs(b - target) < Math.abs(a - target) ? b : a), 0);
  return spread.map((i) => all[i === nearest && target >= 0 ? target : i]).filter((row) => row !== undefined);
}

function timeAreaTable(report: CheckReport): string {
  const wanted = report.timeAreasWanted;
  const late = (rpm: number) => report.handbook.returns.find((r) => r.rpm === rpm);
  const ms = (value: number, digits: number) => fixed(value, digits, 1e3);
  const table = tableText<TimeAreas>(
    [
      { header: 'Speed', unit: 'rpm', text: (t) => fixed(t.rpm, 0) },
      { header: 'time-area:', unit: '10-3 s/m', text: () => '' },
      { header: 'blowdown', text: (t) => ms(t.blowdown, 3) },
      { header: 'transfer', text: (t) => ms(t.transfer, 2) },
      { header: 'exhaust', text: (t) => ms(t.exhaust, 2) },
      { header: 'returns', unit: 'deg', text: (t) => fixed(late(t.rpm)?.deg ?? null, 0) },
      { header: 'late', unit: 'deg', text: (t) => fixed(late(t.rpm)?.lateDeg ?? null, 0) },
    ],
    shownSpeeds(report),
    { marked: (t) => t.rpm === report.aim.rpm },
  );
  return (
    table +
    wrapped(
      `${fixed(report.aim.bmep, 0, 1e-5)} bar wants blowdown ${ms(wanted.blowdown, 3)}, transfer ${ms(wanted.transfer, 2)} ` +
        `(Blair 1996, from memory, unverified). Returns: handbook wave at ${fixed(report.handbook.gasTemperature - 273.15, 0)} degC, ` +
        'late against exhaust closing.',
    ) +
    wrapped(handbookFigures(report))
  );
}

/** The handbook's time-areas, needed against available, in its own unit. */
function handbookFigures({ aim, timeAreasHandbook }: CheckReport): string {
  const figure = (value: number) => fixed(value, 2, 1e2);
  const ports = timeAreasHandbook.map(
    ({ port, found, usual: [low, high] }) =>
      `${port} ${figure(found)} (wants ${figure(low)}-${figure(high)})`,
  );
  const [first = '', ...others] = [...new Set(timeAreasHandbook.map(({ source }) => source))];
  // The same book is named once: "Jennings (1973), as quoted elsewhere or value from memory".
  const book = first.slice(0, first.indexOf(',') + 1);
  const also = others.map((source) => (book === '' ? source : source.replace(book, '').trim()));
  return `By mid-angle area at ${fixed(aim.rpm, 0)} rpm, in 10-4 s/cm: ${ports.join(', ')}; ${[first, ...also].join(' or ')}.`;
}

function pipeTable({ sections, lengths, handbook, wall, assumed }: CheckReport): string {
  const table = tableText(
    [
      { header: 'Section', align: 'left', text: (s) => s.name },
      { header: 'from piston', unit: 'mm', text: (s) => fixed(s.start, 1, 1e3) },
      { header: 'length', unit: 'mm', text: (s) => fixed(s.length, 1, 1e3) },
      { header: 'left', unit: 'mm', text: (s) => fixed(s.diameter[0], 1, 1e3) },
      { header: 'right', unit: 'mm', text: (s) => fixed(s.diameter[1], 1, 1e3) },
      { header: 'whole angle', unit: 'deg', text: (s) => fixed(s.includedAngleDeg, 1) },
      { header: 'volume', unit: 'cm3', text: (s) => fixed(s.volume, 0, 1e6) },
    ],
    sections,
  );
  const to = `Baffle from ${fixed(lengths.baffleStart, 0, 1e3)} to ${fixed(lengths.baffleEnd, 0, 1e3)}, middle ${fixed(lengths.baffleMiddle, 0, 1e3)} mm`;
  const walls =
    wall === 'balance'
      ? 'Wall temperature from a heat balance.'
      : `Wall ${assumed.some(({ path }) => path === 'pipe.wall') ? 'assumed' : 'given'} ` +
        `${wall.map((w) => fixed(w.temperature - 273.15, 0)).join(' to ')} degC.`;
  const wants =
    `the handbook wants ${fixed(handbook.wantedLength, 0, 1e3)} mm to its end with gas at ${fixed(handbook.gasTemperature - 273.15, 0)} degC ` +
    `(${fixed(handbook.soundSpeed, 0)} m/s, taken as hot air), or ${fixed(handbook.wantedLengthJennings, 0, 1e3)} mm to its middle at 1700 ft/s. ` +
    `This length suits ${fixed(handbook.suitsSpeed, 0)} rpm.`;
  return (
    table +
    wrapped(
      `All ${fixed(lengths.total, 0, 1e3)} mm, ${fixed(lengths.volume, 0, 1e6)} cm3. ${to}; ${wants} ${walls}`,
    )
  );
}

/** Letter that stands for a source under the table of rules. */
function sourceMark({ source }: RuleFinding): string {
  const marks: string[] = [];
  if (source.includes('Jennings')) marks.push('J');
  if (source.includes('Blair')) marks.push('B');
  if (source.includes('no source')) marks.push('c');
  return marks.join('');
}

/** What is not known is not outside. */
const isFlagged = ({ outside }: RuleFinding): boolean => outside === 'below' || outside === 'above';

function rules({ rules: findings }: CheckReport): string {
  const range = ([low, high]: RuleFinding['usual'], unit: string) => {
    const digits = usualDigits([low, high]);
    return `${fixed(low, digits)}-${fixed(high, digits)}${unit === '-' ? '' : ` ${unit}`}`;
  };
  const lines = tableText<RuleFinding>(
    [
      { header: 'Rule of thumb', align: 'left', text: (r) => r.title },
      { header: 'found', text: (r) => fixed(r.found, r.usual[1] < 5 ? 2 : 1) },
      { header: 'usual', align: 'left', text: (r) => range(r.usual, r.unit) },
      { header: 'by', align: 'left', text: sourceMark },
      { header: 'moved by', align: 'left', text: (r) => r.movedBy },
    ],
    findings,
    { marked: isFlagged },
  ).split('\n');
  let text = `${lines[0]}\n`;
  for (const [i, rule] of findings.entries()) {
    text += `${lines[i + 1]}\n${wrapped(rule.reason, '    ')}`;
    if (rule.outside !== 'no' || ALWAYS.has(rule.id))
      text += wrapped(rule.advice, '    * ').replace(/\n {4}\* (?=.)/g, '\n      ');
  }
  return `${text}${wrapped(
    '> outside the usual, which is no order to change it: what a change does here, `sweep` computes. By: J Jennings (1973), B Blair (1996; time-areas from memory, unverified), c common ' +
      'practice, no source.',
  )}`;
}

/** Directions of common practice; what they come to here, a sweep computes. */
const weatherText = ({ warmer, lower }: CheckReport['weather']): string =>
  wrapped(
    `Weather: air ${WARMER} K warmer is ${fixed(warmer, 1, 100)} % thinner, ${fixed(LOWER, 0, 1e-2)} mbar lower ${fixed(lower, 1, 100)} %: torque falls by about as much ` +
      'and the mixture turns richer, so a smaller main jet is usual; colder or higher, a larger one (c; `sweep --moves` computes it).',
  );

function footing({ assumed, warnings, weather, caution }: CheckReport): string {
  const cautions = warnings.map((w) => wrapped(`Warning: ${w}`)).join('');
  return cautions + assumedText(assumed) + weatherText(weather) + wrapped(caution);
}
