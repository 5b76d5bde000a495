/** The little of Plotly that pages use, and how a figure is put in its place and kept at its width. */

import type { Figure } from '../figures/figure.ts';
import { type Look, lookFor } from '../theme/look.ts';

type HoverEvent = { readonly points: readonly { readonly x: unknown; readonly y: unknown }[] };

interface Plot extends HTMLElement {
  on?(event: 'plotly_hover', handler: (event: HoverEvent) => void): void;
  on?(event: 'plotly_unhover', handler: () => void): void;
}

declare const Plotly: {
  react(place: HTMLElement, data: readonly unknown[], layout: object, config: object): Promise<unknown>;
};

const config = { displayModeBar: false, responsive: false, doubleClick: 'reset', showTips: false };

export type Draw = (look: Look) => Figure;

/** Figures of a page by the id of their place. Drawn one after another, the first at once; again when the width or the light changes. */
export class Board {
  readonly #draws = new Map<string, Draw>();
  readonly #dark = matchMedia('(prefers-color-scheme: dark)');
  readonly #waiting: string[] = [];
  #printing = false;
  #afterDraw: (() => void) | null = null;

  constructor() {
    this.#dark.addEventListener('change', () => this.redrawAll());
    let width = innerWidth;
    addEventListener('resize', () => {
      if (innerWidth === width || this.#printing) return;
      width = innerWidth;
      this.redrawAll();
    });
    addEventListener('beforeprint', () => {
      this.#printing = true;
      this.drawNow();
    });
    addEventListener('afterprint', () => {
      this.#printing = false;
      this.drawNow();
    });
  }

  add(id: string, draw: Draw): void {
    if (document.getElementById(id) === null) return;
    this.#draws.set(id, draw);
  }

  /** Draws one figure now. */
  draw(id: string): void {
    const place = document.getElementById(id);
    const draw = this.#draws.get(id);
    if (place === null || draw === undefined) return;
    const width = this.#printing ? printWidth(place) : place.clientWidth;
    if (width === 0) return;
    const { data, layout } = draw(lookFor(width, this.#dark.matches && !this.#printing, this.#printing));
    void Plotly.react(place, data, layout, config);
  }

  drawNow(): void {
    for (const id of this.#draws.keys()) this.draw(id);
  }

  /** Draws every figure in the order of the page, giving the browser a breath between two. */
  redrawAll(done?: () => void): void {
    if (done) this.#afterDraw = done;
    document.documentElement.dataset.drawn = 'no';
    const idle = this.#waiting.length === 0;
    this.#waiting.splice(0, this.#waiting.length, ...this.#draws.keys());
    if (idle) this.#next();
  }

  #next(): void {
    const id = this.#waiting[0];
    if (id === undefined) {
      document.documentElement.dataset.drawn = 'yes';
      this.#afterDraw?.();
      this.#afterDraw = null;
      return;
    }
    this.draw(id);
    this.#waiting.shift();
    setTimeout(() => this.#next(), 0);
  }

  place(id: string): Plot | null {
    return document.getElementById(id);
  }
}

/** Printed columns [px at 96 to the inch]: 186 mm of A4 between the margins, or half of it, less the gap. */
const printWidth = (place: HTMLElement): number => (place.closest('.pair, .answer') ? 343 : 702);

/** The page's data, as it was written into it. */
export const pageData = <T>(): T => JSON.parse(document.getElementById('data')?.textContent ?? 'null') as T;
