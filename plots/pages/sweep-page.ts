/** The sweep page: the answer first, then the figures, then what the numbers rest on. */

import { sweepAnswer } from '../../src/findings/answers/sweep.ts';
import { outlineDrawing, sectionList } from '../figures/outline-drawing.ts';
import { plugbackTimingText } from '../figures/plugback-timing.ts';
import { eventsOf } from '../figures/row-events.ts';
import { timingGlance } from '../figures/timing-glance.ts';
import { turnStrip } from '../figures/turn-strip.ts';
import { html, type Markup } from '../theme/markup.ts';
import { fixed, rpm, speed } from '../theme/numbers.ts';
import { packSweep } from './pack-sweep.ts';
import { findings, playerBar } from './parts.ts';
import { type Assets, place, sheet } from './sheet.ts';
import { stretchMm } from './stretch-mm.ts';
import { sureSection } from './sure-section.ts';
import type { SweepPageExtras, SweepPageResult } from './sweep-data.ts';
import { cautions, restsOn, rowsTable } from './sweep-sections.ts';
import { sweepText } from './sweep-words.ts';
import { weatherTable } from './weather-words.ts';

const againstSpeed = html`<section><h2>Against engine speed</h2>
${place('timing', 'When the plug-back arrives', 'The plug-back is a broad wave, from its onset to its end. The thick line is its middle, where its push balances; it should run through the highlighted window between transfer closing (TC) and exhaust closing (EC). Full dots: it does, and at least half of the push is in time. The dotted line is the peak, which jumps where the wave has two crests. Traced: a wave followed at local sound and gas speed to the start, the middle and the end of the baffle and back; handbook: the constant-sound-speed rule.', 'If the middle lies more than about 25° from the traced return, look at the wave diagram for a second reflection (a step, a steep diffuser); if the thick line jumps and the torque with it, the pipe falls out of its band there; if it jumps to and fro, a speed has not settled.', 'Crank angle at which the plug-back arrives against engine speed.')}
<div class="pair">${place('output', 'Torque and power', 'Torque should peak where the wave lands (highlighted). The curves are the model’s, at the brake; where cycles differ, a bar says how far. A dotted upright line: the torque jumps there though the wave stands still, for the reason named above.', 'A peak outside the highlighted speeds points at blowdown or the intake, not the pipe; see below.', 'Torque and power against engine speed.')}
${place('exchange', 'Gas exchange', 'Charging is what stays in the cylinder per displacement; delivery is what the crankcase sends up.', 'Delivery falling while the wave still lands: the reeds or the transfers run out. Trapping low: suction without plug-back.', 'Delivery, charging, trapping and scavenging against engine speed.')}</div></section>`;

const atOneSpeed = (middle: number, count: number): Markup =>
  html`<section id="one-speed" class="sheetbreak"><h2>At one speed</h2>
${playerBar('Engine speed', count, middle, 'Point at a figure to read an instant out of both.')}
<div class="pair">${place('waves', 'At the exhaust port', 'The wave running out and the wave running back superpose to the pressure at the port: suction while the transfers are open, then the plug-back in the highlighted window.', 'Returning pressure low all through: walls too cool or roughness too high. A dent in the plug-back: a baffle in stages.', 'Pressures at the exhaust port, port areas, cylinder and crankcase pressure against crank angle.')}
${place('diagram', 'Wave diagram', 'Follow the dashed paths out to the start, the middle and the end of the baffle and the solid ones back: grey is pressure, green is suction.', 'Stripes that start away from a joint are no reflections: refine the cells. Paths beside the stripes: the wave is strong and runs faster than sound.', 'Pressure over distance along the pipe and crank angle.')}</div>
<p class="note noprint" id="remarks"></p></section>`;

const blowdownAndHeat = html`<section><h2>Blowdown and heat</h2>
<div class="pair">${place('blowdown', 'Blowdown', 'As the transfers open the cylinder should have fallen to about crankcase pressure. What is blown back at low speed comes from the wave, which returns while the transfers are still open.', 'More than a few per cent blown back at best power: raise or widen the exhaust port before changing the pipe. Little blown back however high the cylinder stands: leave the port.', 'Pressures at transfer opening, back-flow and largest Mach number in the blowdown against engine speed.')}
<div>${place('mach', 'Mach number in the exhaust passage', 'At the chosen speed. Common practice aims at about 0.8 during blowdown, no source.', 'Near 1: the passage exit is too small; below 0.5: it is too large and the wave loses its edge.', 'Mach number at the end of the exhaust passage against crank angle.')}
${place('heat', 'Temperature along the pipe', 'At the chosen speed. The line is the mean over time: its hills and valleys are slugs of burnt gas and of fresh charge that stand still between pulses. The dot is the flow past the flange, which carries the heat. Hotter gas carries the wave faster: 50 °C moves the tuned speed by about 3 %.', 'The dot far from 550 to 750 °C in the band: check mixture, ignition and wall temperature.', 'Gas and wall temperature along the pipe.', 'noprint')}</div></div>
${place('purity', 'Purity over the scavenging', 'At the chosen speed, from transfer opening to exhaust closing: how much of what the cylinder holds is fresh, and how much of what leaves through the exhaust port, against how often its content has been turned over. Dotted: a cylinder that mixes whatever comes in; dashed: one in which the charge pushes the burnt gas out before it. Where nothing more is let in, the line ends upright: that is what the plug-back brings back.', 'The line near the dotted one is a poor loop: transfer angles. Much fresh leaving early is short-circuiting, an input: engine.scavenging.', 'Fresh share in the cylinder and of what leaves it against the scavenge ratio.', 'noprint')}
${place('gauges', 'What you can measure', 'A thermocouple in the stream, one on the sheet, a damped gauge where the stinger begins, a gauge on the crankcase: at the middle of header, belly and stinger. Measured values beside these tell where the model is off before the torque does.', 'Gas far hotter or cooler than measured: mixture and ignition; the wall: its temperature is an input, and moves the tuned speed; back pressure far off: the stinger’s diameter or what is behind it.', 'Gas and wall temperature, pressure before the stinger and crankcase pressure against engine speed.', 'noprint')}</section>`;

/** Where the player stands first: the best torque, or the middle. */
function startIndex(result: SweepPageResult): number {
  let best = Math.floor(result.rows.length / 2);
  result.rows.forEach((row, index) => {
    if ((row.torque_nm ?? 0) > (result.rows[best]?.torque_nm ?? 0)) best = index;
  });
  return best;
}

export function sweepPage(result: SweepPageResult, assets: Assets, extras: SweepPageExtras = {}): string {
  const { rows } = result;
  const first = rows[0];
  const { sure = null, advice = null } = extras;
  const answer = sweepText(sweepAnswer(rows, result.case.run.targetSpeed), advice, sure);
  const outline = result.outline.map(stretchMm);
  const titleBlock: [string, string, 'minor'?][] = [
    ['Case', result.case.name],
    ['Engine', `${result.case.engine.name}, ${fixed(1e6 * result.displacement, 1)} cm³`],
    ['Pipe', result.case.pipe.name],
    ['Speeds', `${speed(first?.speed_rpm)} to ${rpm(rows.at(-1)?.speed_rpm)}, ${rows.length} computed`],
    ['Program', result.program, 'minor'],
  ];
  if (extras.date !== undefined) titleBlock.push(['Computed', extras.date, 'minor']);
  const note = result.case.note && html`<p class="note">${result.case.note}</p>`;
  const failed =
    result.failures.length > 0 &&
    html`<p class="warn">${result.failures.length} speed${result.failures.length === 1 ? '' : 's'} failed; see <a href="#rests">what these numbers rest on</a>.</p>`;
  const figures =
    first === undefined
      ? html`<p class="warn">No speed was finished, so there is nothing to draw.</p>`
      : html`${againstSpeed}${sure !== null && sureSection(sure)}${atOneSpeed(startIndex(result), rows.length)}${blowdownAndHeat}${rowsTable(rows)}`;
  const body = html`<section class="answer"><div><h1>${answer.headline}</h1><p class="meaning">The wave is the compression that the baffle sends back, the plug-back; it is judged by its middle. The port wants it after the transfers have closed and before the exhaust closes.</p>${findings(answer.lines)}${failed}</div>
<div>${timingGlance(rows, plugbackTimingText(rows))}<p class="note">Full dots: the middle of the wave lands where the port wants it.</p></div>
<div class="drawing beside">${outlineDrawing([{ name: result.case.pipe.name, outline }], `Outline of the pipe ${result.case.pipe.name}, to scale`)}${sectionList(outline)}${note}${first && turnStrip(eventsOf(first))}</div></section>
${figures}
${extras.weather !== undefined && extras.movesAt !== undefined && weatherTable(extras.weather, extras.movesAt.speedRpm)}
${restsOn(result, extras)}
${cautions}`;
  return sheet({
    title: `${result.case.name} – sweep`,
    titleBlock,
    body,
    data: packSweep(result, sure),
    program: result.program,
    assets: first === undefined ? null : assets,
  });
}
