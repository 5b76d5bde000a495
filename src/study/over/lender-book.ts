/** Who has done what of a study: pieces and rates of each lender, for the progress line and for the end. */

import type { Answer } from './answer.ts';

export interface LenderLine {
  readonly name: string;
  readonly pieces: number;
  readonly seconds: number;
  /** Pieces a minute since its first. */
  readonly rate: number;
}

export class LenderBook {
  readonly #lenders = new Map<string, { pieces: number; seconds: number; first: number; last: number }>();
  readonly #clock: () => number;
  #running = 0;
  #there = 0;

  constructor(clock: () => number = () => performance.now()) {
    this.#clock = clock;
  }

  enter({ lender, seconds }: Answer): void {
    const now = this.#clock();
    const name = String(lender).slice(0, 60);
    const before = this.#lenders.get(name) ?? {
      pieces: 0,
      seconds: 0,
      first: now - 1000 * Number(seconds),
      last: now,
    };
    this.#lenders.set(name, {
      ...before,
      pieces: before.pieces + 1,
      seconds: before.seconds + (Number(seconds) || 0),
      last: now,
    });
  }

  /** Pieces under way and lenders on the queue. */
  running(pieces: number, lenders: number): void {
    this.#running = pieces;
    this.#there = lenders;
  }

  get lines(): readonly LenderLine[] {
    return [...this.#lenders].map(([name, { pieces, seconds, first, last }]) => ({
      name,
      pieces,
      seconds,
      rate: pieces / Math.max((last - first) / 60_000, 1 / 600),
    }));
  }

  /** `2 running, lenders: anna/4711 12/min, bert/812 9/min`. */
  get text(): string {
    if (this.#there === 0 && this.#lenders.size === 0) return 'no lender yet';
    const rates = this.lines
      .slice(0, 6)
      .map(({ name, rate }) => `${name} ${rate.toFixed(rate < 10 ? 1 : 0)}/min`);
    const more = this.#lenders.size > 6 ? ', …' : '';
    return `${this.#running} running, ${this.#there} lenders: ${rates.join(', ')}${more}`;
  }
}
