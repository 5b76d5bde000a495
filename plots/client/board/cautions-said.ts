/** Cautions on the page: each once in a sitting, so that the second one is still read. */

import type { Caution } from '../../../src/board/cautions.ts';
import { element } from './element.ts';

export class Cautions {
  readonly #at: HTMLElement;
  readonly #told = new Set<string>();

  constructor(at: HTMLElement) {
    this.#at = at;
  }

  say(cautions: readonly Caution[]): void {
    for (const { id, says } of cautions) {
      if (this.#told.has(id)) continue;
      this.#told.add(id);
      this.#at.append(element('p', { class: 'warn' }, says));
    }
  }
}
