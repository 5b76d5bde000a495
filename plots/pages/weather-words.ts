/** Weather and mixture in words and as a table: what was changed, what it does, and which way the jet usually goes. */

import type { Weather, WeatherEffect } from '../../src/findings/answers/weather.ts';
import { html, type Markup } from '../theme/markup.ts';
import { asPrinted, fixed, isNumber, rpm, signed } from '../theme/numbers.ts';

export const weatherName: Readonly<Record<Weather, string>> = {
  warmer: 'air warmer',
  lower: 'air pressure lower',
  leaner: 'mixture leaner',
};

/** Which way the main jet usually goes. Common practice, no source. */
export const usualJet: Readonly<Record<Weather, string>> = {
  warmer: 'smaller',
  lower: 'smaller',
  leaner: 'one size smaller',
};

/** How far a band moves, to what it is sure to [rpm]. */
const ROUND = 10;
export const bandText = (by: number | null): string =>
  isNumber(by) ? signed(ROUND * Math.round(by / ROUND), 0) : fixed(by, 0);

/** What the numbers are, to stand over them. */
export const WEATHER_NOTE =
  'The mixture is kept but in the last line: no carburettor is computed. One runs richer in thinner air, hence the jet (common practice, no source). Colder or denser air: all signs turned.';

export function weatherTable(effects: readonly WeatherEffect[], speedRpm: number): Markup {
  const lines = effects.map(
    ({ weather, change, torqueNm, leadDeg, bandRpm }) =>
      html`<tr><th scope="row">${weatherName[weather]}</th><td class="n">${asPrinted(change)}</td><td class="n">${signed(torqueNm, 2)}</td><td class="n">${signed(leadDeg, 1)}</td><td class="n">${bandText(bandRpm)}</td><td>${usualJet[weather]}</td></tr>`,
  );
  const caption = `Weather and mixture at ${rpm(speedRpm)}: what a change does`;
  return html`<h2 id="weather">Weather and mixture</h2><div class="scroll" tabindex="0" role="region" aria-label="${caption}"><table><caption>${caption}</caption><thead><tr><th scope="col">change</th><th class="n" scope="col">by</th><th class="n" scope="col">torque<span class="unit">Nm</span></th><th class="n" scope="col">wave earlier by<span class="unit">°</span></th><th class="n" scope="col">band moves by<span class="unit">rpm</span></th><th scope="col">main jet</th></tr></thead><tbody>${lines}</tbody></table></div><p class="small">${WEATHER_NOTE}</p>`;
}
