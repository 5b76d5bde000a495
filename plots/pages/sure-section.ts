/** The part of a page on how sure its numbers are: what drives the width, and what was varied. */

import type { BandsAnswer, VariedInput } from '../../src/findings/answers/bands.ts';
import { html, type Markup } from '../theme/markup.ts';
import { asPrinted, fixed, THIN } from '../theme/numbers.ts';
import { inputName } from './input-name.ts';
import { place } from './sheet.ts';

const number = (value: number | null, unit: string): string =>
  value === null ? '–' : asPrinted(`${Number(value.toPrecision(4))} ${unit}`.trim());

const line = ({ path, unit, central, p05, p95, why, reason }: VariedInput): Markup =>
  html`<tr><td title="${path}">${inputName(path)}<span class="why">${asPrinted(reason)}</span></td><td>${why}</td><td class="n">${number(central, unit)}</td><td class="n">${number(p05, unit)}</td><td class="n">${number(p95, unit)}</td><td class="reason">${asPrinted(reason)}</td></tr>`;

/** Inputs that members differ in, with their ranges and why. */
export function variedInputs(inputs: readonly VariedInput[]): Markup {
  const caption = 'What members differ in: nine in ten lie between the two values';
  return html`<details><summary>What members differ in (${inputs.length})</summary><div class="scroll" tabindex="0" role="region" aria-label="${caption}"><table class="inputs"><caption>${caption}</caption><thead><tr><th scope="col">input</th><th scope="col">known how</th><th class="n" scope="col">the case has</th><th class="n" scope="col">from</th><th class="n" scope="col">to</th><th class="reason" scope="col">why this range</th></tr></thead><tbody>${inputs.map(line)}</tbody></table></div></details>`;
}

const troubles = ({ bands }: BandsAnswer): Markup | false =>
  bands.troubles.reasons.length > 0 &&
  html`<ul class="small">${bands.troubles.reasons.map((reason) => html`<li>${asPrinted(reason)}</li>`)}</ul>`;

export function sureSection(answer: BandsAnswer): Markup {
  const { bands, cell, drivers, inputs } = answer;
  const figure =
    drivers.length > 0 &&
    place(
      'drivers',
      'What the width comes from',
      `Shares of the variance over ${bands.members} members that go with one input alone, and one standard error. An input known exactly would take its share with it; inputs that go together, such as the wall at its two ends, show one share twice.`,
      'No dot clear of its bar: so few members cannot tell the inputs apart; take more.',
      'Shares of the variance of torque, band edges and power by input.',
    );
  return html`<section id="sure"><h2>How sure this is</h2>
<p class="small">In the figures above the dark shade holds half of the members, the light one nine in ten, and the fine dotted line is their median. Members were run on cells of ${fixed(1000 * cell, 0)}${THIN}mm, the line on those of the sweep; what lies in the model itself is not in the shades.</p>
${troubles(answer)}${figure}${variedInputs(inputs)}</section>`;
}
