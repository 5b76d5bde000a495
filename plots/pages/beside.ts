/**
 * Two finished sweeps side by side, from the cards that lie in their folders: outlines over one another, torque and lead
 * over speed, and both in a table with what the second has more. The first is what the second is measured by.
 */

import { besideCurves } from '../figures/beside-curves.ts';
import { namedOutlines } from '../figures/outline-drawing.ts';
import { html, type Markup, type Piece } from '../theme/markup.ts';
import { fixed, isNumber, type Maybe, signed, speed } from '../theme/numbers.ts';
import { folderOf, type IndexedRun, type SweepCurves } from './index-entry.ts';
import { stretchMm } from './stretch-mm.ts';

export type BesideRun = Pick<IndexedRun, 'title' | 'href' | 'outlines' | 'line'> & {
  readonly sweep: SweepCurves;
};

const nameOf = (run: BesideRun): string => `${run.title} (in ${folderOf(run.href)})`;

const differenceOf = (a: Maybe, b: Maybe): Maybe => (isNumber(a) && isNumber(b) ? b - a : null);

function table(a: BesideRun, b: BesideRun): Markup {
  const speeds = [...new Set([...a.sweep.speeds, ...b.sweep.speeds])].sort((x, y) => x - y);
  const at = ({ sweep }: BesideRun, rpm: number, of: 'torque' | 'lead'): Maybe => {
    const index = sweep.speeds.indexOf(rpm);
    return index < 0 ? null : sweep[of][index];
  };
  const cells = (rpm: number, of: 'torque' | 'lead', decimals: number): Piece => {
    const [first, second] = [at(a, rpm, of), at(b, rpm, of)];
    return [
      fixed(first, decimals),
      fixed(second, decimals),
      signed(differenceOf(first, second), decimals),
    ].map((text) => html`<td class="n">${text}</td>`);
  };
  const rows = speeds.map(
    (rpm) =>
      html`<tr><th scope="row" class="n">${speed(rpm)}</th>${cells(rpm, 'torque', 1)}${cells(rpm, 'lead', 0)}</tr>`,
  );
  const heads = ['first', 'second', 'more'].map((text) => html`<th scope="col" class="n">${text}</th>`);
  return html`<div class="scroll" tabindex="0" role="region" aria-label="Both runs speed by speed"><table><thead><tr><th scope="col" class="n" rowspan="2">Speed<span class="unit">rpm</span></th><th scope="colgroup" colspan="3">Torque<span class="unit">Nm</span></th><th scope="colgroup" colspan="3">Lead<span class="unit">°</span></th></tr><tr>${heads}${heads}</tr></thead><tbody>${rows}</tbody></table></div>`;
}

/** What stands side by side. */
export function besideView(a: BesideRun, b: BesideRun): Markup {
  const both = [a, b];
  const drawn = both.flatMap((run) => {
    const [outline] = run.outlines;
    return outline === undefined ? [] : [{ name: nameOf(run), outline: outline.map(stretchMm) }];
  });
  const curvesOf = (of: 'torque' | 'lead') => both.map(({ sweep }) => ({ x: sweep.speeds, y: sweep[of] }));
  const lines = both.map(
    (run, index) =>
      html`<p><span class="draft-key key-${index}">${index === 0 ? 'First' : 'Second'}: ${nameOf(run)}</span> ${run.line}</p>`,
  );
  return html`<h2>Side by side</h2>${lines}${drawn.length === 2 && namedOutlines(drawn)}<div class="pair">${besideCurves(curvesOf('torque'), { title: 'Torque', unit: 'Nm', decimals: 0 })}${besideCurves(curvesOf('lead'), { title: 'Lead of the plug-back', unit: '°', decimals: 0 })}</div>${table(a, b)}`;
}
