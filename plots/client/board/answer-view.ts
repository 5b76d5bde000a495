/** The answer on the page: headline, what is shown, four figures, the table of rows. */

import { difference } from '../../../src/board/difference.ts';
import { sweepAnswer } from '../../../src/findings/answers/sweep.ts';
import type { SweepRow } from '../../../src/findings/row.ts';
import type { Case } from '../../../src/model/case.ts';
import { landingSentence } from '../../pages/landing-words.ts';
import { sweepText } from '../../pages/sweep-words.ts';
import { type Look, lookFor } from '../../theme/look.ts';
import { asPrinted, degrees, fixed, kilowatts, newtonMetres, rpm, speed } from '../../theme/numbers.ts';
import {
  diagramFigure,
  landingFigure,
  type OverSpeed,
  outputFigure,
  tracesFigure,
} from './answer-figures.ts';
import { element, place, write } from './element.ts';
import { paint } from './figure-canvas.ts';
import { rowsOf } from './kept-answers.ts';
import { stretchesOf } from './pipe-scale.ts';
import type { Pursuit } from './pursuit.ts';
import { differenceWords, shownWords } from './words.ts';

/** Asked when it is needed: the workers run this script too, and have no screen. */
const dark = (): MediaQueryList => matchMedia('(prefers-color-scheme: dark)');

/** How a canvas of the page is to be drawn: at the width of its place. */
export const lookOf = (canvas: HTMLElement): Look =>
  lookFor(canvas.parentElement?.clientWidth ?? 600, dark().matches);

export class AnswerView {
  readonly #pursuit: Pursuit;
  readonly #landing = place<HTMLCanvasElement>('landing');
  readonly #output = place<HTMLCanvasElement>('output');
  readonly #diagram = place<HTMLCanvasElement>('diagram');
  readonly #traces = place<HTMLCanvasElement>('traces');
  readonly #slider = place<HTMLInputElement>('speed');

  constructor(pursuit: Pursuit, repaint: () => void) {
    this.#pursuit = pursuit;
    dark().addEventListener('change', repaint);
    this.#slider.addEventListener('input', () => pursuit.choose(Number(this.#slider.value)));
    for (const canvas of [this.#landing, this.#output])
      canvas.addEventListener('click', (event) => this.#pick(canvas, event));
  }

  get canvases(): readonly HTMLCanvasElement[] {
    return [this.#landing, this.#output, this.#diagram, this.#traces];
  }

  draw(subject: Case): void {
    if (lookOf(this.#landing).width === 0) return;
    const { chosen, shown, staleRows } = this.#pursuit;
    const fresh = rowsOf(shown);
    const known = new Set(fresh.map((row) => row.speed_rpm));
    const old = staleRows.filter((row) => !known.has(row.speed_rpm));
    const rows = [...fresh, ...old].sort((a, b) => a.speed_rpm - b.speed_rpm);
    const base = this.#pursuit.isBase ? null : this.#pursuit.base;
    const over: OverSpeed = {
      rows,
      stale: old.map((row) => row.speed_rpm),
      base: base === null ? null : rowsOf(base),
      chosen,
    };
    if (rows.length > 1) {
      paint(this.#landing, landingFigure(over, lookOf(this.#landing)), lookOf(this.#landing));
      paint(this.#output, outputFigure(over, lookOf(this.#output)), lookOf(this.#output));
    }
    this.#drawSpeed(subject, chosen);
    this.#say(subject, rows, over.base);
  }

  #drawSpeed(subject: Case, chosen: number): void {
    const one = this.#pursuit.speed(chosen);
    if (one === null) return;
    const ambientBar = subject.engine.ambient.pressure / 1e5;
    const outline = stretchesOf(subject);
    const before = this.#pursuit.isBase ? null : (this.#pursuit.base?.speeds.get(chosen) ?? null);
    const [left, right] = [lookOf(this.#diagram), lookOf(this.#traces)];
    paint(this.#diagram, diagramFigure(one, outline, ambientBar, left), left);
    paint(this.#traces, tracesFigure(one, before, ambientBar, right), right);
    const { row, notes } = one;
    write(
      place('verdict'),
      `${landingSentence(row)} ${newtonMetres(row.torque_nm)}, ${kilowatts(row.power_kw)}.`,
    );
    // That a preview leaves out the pulse of a first cycle is no remark on the engine.
    const told = notes.filter((note) => !note.includes('no echo gain'));
    write(place('remarks'), told.map(asPrinted).join(' '));
  }

  #say(subject: Case, rows: readonly SweepRow[], base: readonly SweepRow[] | null): void {
    const { chosen, shown, progress, refining } = this.#pursuit;
    const { speeds } = subject.run;
    const [slider, out] = [this.#slider, place('speed-out')];
    slider.min = String(speeds[0] ?? 0);
    slider.max = String(speeds.at(-1) ?? 0);
    slider.step = String(Math.max(1, (speeds[1] ?? 1) - (speeds[0] ?? 0)));
    if (document.activeElement !== slider) slider.value = String(chosen);
    slider.setAttribute('aria-valuetext', `${chosen} rpm`);
    write(out, rpm(chosen));
    write(
      place('mesh'),
      shownWords({
        progress,
        cell: shown.cell,
        fresh: shown.speeds.size,
        of: speeds.length,
        refining,
        failures: shown.failures.size,
      }),
    );
    place('mesh').dataset.progress = progress;
    if (rows.length > 0 && progress !== 'computing')
      write(place('answer'), sweepText(sweepAnswer(rows, subject.run.targetSpeed)).headline);
    write(
      place('difference'),
      base === null || base.length === 0 || rows.length === 0
        ? this.#pursuit.isBase
          ? 'As opened; move something.'
          : 'The base has no answer yet to hold this against.'
        : shown.speeds.has(chosen)
          ? differenceWords(difference(base, rows, chosen), progress !== 'computing')
          : place('difference').textContent,
    );
    if (progress !== 'computing') this.#table(rows);
  }

  /** The rows in numbers, for who cannot see curves. */
  #table(rows: readonly SweepRow[]): void {
    const details = place<HTMLDetailsElement>('numbers');
    if (!details.open) return;
    place('rows').replaceChildren(
      ...rows.map((row) =>
        element(
          'tr',
          {},
          element('th', { scope: 'row', class: 'n' }, speed(row.speed_rpm)),
          ...[
            degrees(row.plugback_onset_deg),
            degrees(row.plugback_centroid_deg),
            degrees(row.plugback_end_deg),
            fixed(row.torque_nm, 1),
            fixed(row.power_kw, 1),
            row.settled ? '' : 'not settled',
          ].map((text) => element('td', { class: 'n' }, text)),
        ),
      ),
    );
  }

  /** The speed that is pointed at in a figure over speed. */
  #pick(canvas: HTMLCanvasElement, event: MouseEvent): void {
    const { speeds } = this.#pursuit.shown;
    const all = [...speeds.keys()].sort((a, b) => a - b);
    const [first, last] = [all[0], all.at(-1)];
    if (first === undefined || last === undefined) return;
    const box = canvas.getBoundingClientRect();
    const narrow = lookOf(canvas).narrow;
    const right = canvas === this.#landing ? (narrow ? 84 : 150) : narrow ? 62 : 90;
    const share = (event.clientX - box.left - 44) / (box.width - 44 - right);
    this.#pursuit.choose(first + share * (last - first));
  }
}
