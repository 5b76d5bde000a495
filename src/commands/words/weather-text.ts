/** What weather and mixture do, as the terminal shows it. */

import { bandText, usualJet, WEATHER_NOTE, weatherName } from '../../../plots/pages/weather-words.ts';
import { signed } from '../../../plots/theme/numbers.ts';
import type { WeatherEffect } from '../../findings/answers/weather.ts';
import { folded } from '../frame/folded.ts';
import { type Column, tableText } from '../frame/table.ts';
import { pageWords } from './page-words.ts';

/** Said once, here: the page has it among its cautions. */
const LEAN_CAUTION =
  'Lean only from the rich side, one size at a time, with an eye on the plug: a lean two-stroke seizes.';

const plain = (text: string): string => pageWords(text).replace(/−/g, '-');

const columns: readonly Column<WeatherEffect>[] = [
  { header: 'Weather, mixture', align: 'left', text: (one) => weatherName[one.weather] },
  { header: 'by', align: 'left', text: (one) => one.change },
  { header: 'torque', unit: 'Nm', text: (one) => plain(signed(one.torqueNm, 2)) },
  { header: 'earlier', unit: 'deg', text: (one) => plain(signed(one.leadDeg, 1)) },
  { header: 'band', unit: 'rpm', text: (one) => plain(bandText(one.bandRpm)) },
  { header: 'main jet', align: 'left', text: (one) => usualJet[one.weather] },
];

export function weatherText(effects: readonly WeatherEffect[], speedRpm: number): string {
  if (effects.length === 0) return '';
  const above = folded(`What weather and mixture do at ${speedRpm} rpm. ${WEATHER_NOTE} ${LEAN_CAUTION}`);
  return `\n${above}\n${tableText(columns, effects)}`;
}
