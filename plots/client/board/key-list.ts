/** Every key of the case, to be searched and changed: what it is, its value, whether it was assumed. */

import type { Case } from '../../../src/model/case.ts';
import { element, write } from './element.ts';

/** A key as the reader of case files describes it; items of a list stand under `*`. */
export interface KeyAbout {
  readonly path: string;
  readonly doc: string;
  readonly takes: string;
  readonly unstated: string | null;
}

export interface KeyHands {
  /** Tries a change as a step of its own. */
  change(path: string, text: string): boolean;
}

/** Rows shown at once; a search narrows them. */
const MOST = 60;

interface Row {
  readonly path: string;
  readonly value: string | null;
  readonly assumed: boolean;
  readonly about: KeyAbout | undefined;
}

export class KeyList {
  readonly #search: HTMLInputElement;
  readonly #body: HTMLTableSectionElement;
  readonly #said: HTMLElement;
  readonly #keys: readonly KeyAbout[];
  readonly #hands: KeyHands;
  #subject: Case | null = null;

  constructor(
    places: {
      readonly search: HTMLInputElement;
      readonly body: HTMLTableSectionElement;
      readonly said: HTMLElement;
    },
    keys: readonly KeyAbout[],
    hands: KeyHands,
  ) {
    this.#search = places.search;
    this.#body = places.body;
    this.#said = places.said;
    this.#keys = keys;
    this.#hands = hands;
    this.#search.addEventListener('input', () => this.#show());
  }

  /** Drawn when the hand has let go: it is long. */
  draw(subject: Case): void {
    this.#subject = subject;
    this.#show();
  }

  #show(): void {
    if (this.#subject === null || this.#body.contains(document.activeElement)) return;
    const words = this.#search.value
      .toLowerCase()
      .split(/\s+/)
      .filter((word) => word !== '');
    const all = rowsOf(this.#subject, this.#keys);
    const found = all.filter(({ path, about, value }) => {
      const text = `${path} ${about?.doc ?? ''} ${value ?? ''}`.toLowerCase();
      return words.every((word) => text.includes(word));
    });
    const more = found.length > MOST ? `, the first ${MOST} shown: search for the others` : '';
    write(this.#said, `${found.length} of ${all.length} keys${more}.`);
    this.#body.replaceChildren(...found.slice(0, MOST).map((row) => this.#row(row)));
  }

  #row({ path, value, assumed, about }: Row): HTMLTableRowElement {
    const input = element('input', {
      type: 'text',
      autocomplete: 'off',
      size: 16,
      'aria-label': path,
      placeholder: about?.unstated ?? about?.takes.slice(0, 40) ?? '',
    });
    input.value = value ?? '';
    input.addEventListener('change', () => {
      if (!this.#hands.change(path, input.value)) input.value = value ?? '';
    });
    return element(
      'tr',
      {},
      element('th', { scope: 'row' }, element('code', {}, ...broken(path))),
      element('td', {}, input),
      element('td', { class: 'doc' }, assumed ? element('i', {}, 'assumed. ') : '', about?.doc ?? ''),
    );
  }
}

/** A path that may break before its dots. */
const broken = (path: string): readonly (string | HTMLElement)[] =>
  path.split(/(?=\.)/).flatMap((step, k) => (k === 0 ? [step] : [element('wbr', {}), step]));

/** The inputs as they are used, then the keys that could be stated and are not. */
function rowsOf({ inputs, engine, pipe }: Case, keys: readonly KeyAbout[]): readonly Row[] {
  const byPath = new Map(keys.map((key) => [key.path, key]));
  const names = new Set([
    ...pipe.sections.map(({ name }) => name),
    ...[...engine.exhaust.windows, ...engine.transfers.windows].map(({ name }) => name),
    ...(engine.intake.tract ?? []).map(({ name }) => name),
  ]);
  const general = (path: string): string =>
    path
      .split('.')
      .map((step) => (names.has(step) || /^\d+$/.test(step) ? '*' : step))
      .join('.');
  const used = inputs.map(({ path, value, assumed }) => ({
    path,
    value,
    assumed,
    about: byPath.get(general(path)),
  }));
  const told = new Set(used.map(({ path }) => general(path)));
  const groups = new Set(
    [...told].flatMap((path) => path.split('.').map((_, k, steps) => steps.slice(0, k).join('.'))),
  );
  const rest = keys
    .filter(
      ({ path }) => !path.includes('*') && !told.has(path) && !groups.has(path) && !/(^|\.)kind$/.test(path),
    )
    .map((about) => ({ path: about.path, value: null, assumed: false, about }));
  return [...used, ...rest];
}
