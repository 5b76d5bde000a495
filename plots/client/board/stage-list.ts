/** Stages: drafts kept by name beside each other, each with its outline and its torque; brought back, laid side by side, forgotten. */

import { type Desk, readDesk } from '../../../src/board/desk.ts';
import { difference } from '../../../src/board/difference.ts';
import { highest } from '../../../src/findings/curve.ts';
import type { SweepRow } from '../../../src/findings/row.ts';
import { workingBand } from '../../../src/findings/working-band.ts';
import { silhouette } from '../../marks/silhouette.ts';
import { kilowatts, millimetres, newtonMetres, rpm, speed } from '../../theme/numbers.ts';
import type { Stage } from './draft-history.ts';
import { drawn, element } from './element.ts';
import { stretchesOf } from './pipe-scale.ts';
import { differenceWords, edgeOf } from './words.ts';

export interface StageHands {
  take(set: readonly string[]): void;
  forget(name: string): void;
  /** Rows of a draft, the finest there are; empty: it was not computed in this session. */
  rows(set: readonly string[]): { readonly rows: readonly SweepRow[]; readonly cell: number };
}

const WIDTH = 200;

/** What two thumbs are drawn to the same scale of: length [mm], torque [Nm]. */
interface Extent {
  readonly length: number;
  readonly torque: number;
}

export class StageList {
  readonly #list: HTMLElement;
  readonly #beside: HTMLElement;
  readonly #desk: Desk;
  readonly #hands: StageHands;
  /** Two stages that are compared, by name. */
  #pair: readonly string[] = [];
  #stages: readonly Stage[] = [];

  constructor(
    places: { readonly list: HTMLElement; readonly beside: HTMLElement },
    desk: Desk,
    hands: StageHands,
  ) {
    this.#list = places.list;
    this.#beside = places.beside;
    this.#desk = desk;
    this.#hands = hands;
  }

  /** The draft as it was opened is the first stage of all. */
  draw(kept: readonly Stage[], chosen: number): void {
    this.#stages = [{ name: 'as opened', set: this.#desk.carried.set }, ...kept];
    this.#pair = this.#pair.filter((name) => this.#stages.some((stage) => stage.name === name));
    // Drawn anew when an answer comes in: who is on a button of it stays there.
    const [list, focused] = [this.#list, document.activeElement];
    const held = focused === null ? -1 : [...list.querySelectorAll('button, input')].indexOf(focused);
    list.replaceChildren(...this.#stages.map((stage, k) => this.#card(stage, k > 0, chosen)));
    if (held >= 0) list.querySelectorAll<HTMLElement>('button, input')[held]?.focus();
    this.#compare(chosen);
  }

  #card(stage: Stage, own: boolean, chosen: number): HTMLElement {
    const button = (text: string, does: () => void): HTMLButtonElement => {
      const made = element('button', { type: 'button', 'aria-label': `${text}: ${stage.name}` }, text);
      made.addEventListener('click', does);
      return made;
    };
    const compare = element('input', { type: 'checkbox' });
    compare.checked = this.#pair.includes(stage.name);
    compare.addEventListener('change', () => {
      const others = this.#pair.filter((name) => name !== stage.name);
      this.#pair = compare.checked ? [...others, stage.name].slice(-2) : others;
      this.draw(this.#stages.slice(1), chosen);
    });
    return element(
      'li',
      {},
      element('b', {}, stage.name),
      this.#thumb(stage),
      element('p', {}, this.#line(stage)),
      button('bring back', () => this.#hands.take(stage.set)),
      ...(own ? [button('forget', () => this.#hands.forget(stage.name))] : []),
      element('label', {}, compare, ' compare'),
    );
  }

  #line({ set }: Stage): string {
    const { rows } = this.#hands.rows(set);
    const best = highest(rows, 'torque_nm');
    return best === null ? 'Not computed yet.' : `${newtonMetres(best.torque_nm)} at ${rpm(best.speed_rpm)}`;
  }

  /** Outline above, torque below. */
  #thumb({ name, set }: Stage, like: Extent | null = null): SVGElement {
    const reading = readDesk(this.#desk, set);
    const made = drawn('svg', {
      class: 'stage',
      viewBox: `0 0 ${WIDTH} 84`,
      role: 'img',
      'aria-label': `Pipe and torque of ${name}`,
    });
    if (!reading.ok) return made;
    const stretches = stretchesOf(reading.subject);
    const per = (WIDTH - 4) / (like?.length ?? stretches.at(-1)?.end ?? 1);
    const line = silhouette(stretches);
    const points = line.x.map(
      (x, k) => `${(2 + per * x).toFixed(1)},${(20 - per * (line.y[k] ?? 0)).toFixed(1)}`,
    );
    made.append(drawn('polygon', { points: points.join(' ') }));
    const { rows } = this.#hands.rows(set);
    const [first, last] = [rows[0]?.speed_rpm ?? 0, rows.at(-1)?.speed_rpm ?? 1];
    const top = like?.torque ?? highest(rows, 'torque_nm')?.torque_nm ?? 1;
    const curve = rows.flatMap(({ speed_rpm, torque_nm }) =>
      torque_nm === null
        ? []
        : [
            `${(2 + ((WIDTH - 4) * (speed_rpm - first)) / (last - first || 1)).toFixed(1)},${(82 - (40 * torque_nm) / top).toFixed(1)}`,
          ],
    );
    made.append(drawn('polyline', { points: curve.join(' ') }));
    return made;
  }

  #compare(chosen: number): void {
    const pair = this.#pair.flatMap((name) => this.#stages.find((stage) => stage.name === name) ?? []);
    const [a, b] = pair;
    if (a === undefined || b === undefined) {
      this.#beside.replaceChildren(
        element('p', { class: 'note' }, 'Tick two stages to lay them side by side.'),
      );
      return;
    }
    const rows = pair.map((stage) => this.#hands.rows(stage.set));
    const facts = pair.map((stage, k) => this.#facts(stage, rows[k]?.rows ?? []));
    const names = [...new Set(facts.flatMap((one) => one.map(([name]) => name)))];
    const table = element(
      'table',
      {},
      element(
        'thead',
        {},
        element('tr', {}, ...['', a.name, b.name].map((text) => element('th', { scope: 'col' }, text))),
      ),
      element(
        'tbody',
        {},
        ...names.map((name) => {
          const values = facts.map((one) => one.find(([own]) => own === name)?.[1] ?? '–');
          const row = element(
            'tr',
            {},
            element('th', { scope: 'row' }, name),
            ...values.map((text) => element('td', { class: 'n' }, text)),
          );
          row.classList.toggle('useful', values[0] !== values[1]);
          return row;
        }),
      ),
    );
    const like = {
      length: Math.max(...pair.map((stage) => this.#lengthOf(stage))),
      torque: Math.max(...rows.map((part) => highest(part.rows, 'torque_nm')?.torque_nm ?? 1)),
    };
    const [one, other] = rows;
    const alike = one !== undefined && other !== undefined && one.cell === other.cell;
    const words =
      one === undefined || other === undefined || one.rows.length === 0 || other.rows.length === 0
        ? 'One of the two was not computed yet.'
        : `${b.name} against ${a.name}: ${differenceWords(difference(one.rows, other.rows, chosen))}${alike ? '' : ' Mind that they stand on different cells.'}`;
    const drawings = element(
      'div',
      { class: 'pair' },
      ...pair.map((stage) => element('div', {}, element('b', {}, stage.name), this.#thumb(stage, like))),
    );
    this.#beside.replaceChildren(
      element('p', { 'aria-live': 'polite' }, words),
      drawings,
      element(
        'div',
        { class: 'scroll', tabindex: 0, role: 'region', 'aria-label': 'Two stages side by side' },
        table,
      ),
    );
  }

  /** Length of a stage's exhaust from the port's face [mm]. */
  #lengthOf({ set }: Stage): number {
    const reading = readDesk(this.#desk, set);
    return reading.ok ? (stretchesOf(reading.subject).at(-1)?.end ?? 1) : 1;
  }

  #facts({ set }: Stage, rows: readonly SweepRow[]): readonly (readonly [name: string, value: string])[] {
    const reading = readDesk(this.#desk, set);
    const best = highest(rows, 'torque_nm');
    const power = highest(rows, 'power_kw');
    const { works } = workingBand(rows);
    const sections = reading.ok ? reading.subject.pipe.sections : [];
    return [
      ['best torque', best === null ? '–' : `${newtonMetres(best.torque_nm)} at ${rpm(best.speed_rpm)}`],
      ['best power', power === null ? '–' : `${kilowatts(power.power_kw)} at ${rpm(power.speed_rpm)}`],
      ['works', works === null ? '–' : `${speed(edgeOf(works.from))} to ${rpm(edgeOf(works.to))}`],
      ...sections.map(
        ({ name, length, diameter: [left, right] }) =>
          [
            name,
            `${millimetres(length)}, ${(1000 * left).toFixed(1)} to ${(1000 * right).toFixed(1)} mm`,
          ] as const,
      ),
    ];
  }
}
