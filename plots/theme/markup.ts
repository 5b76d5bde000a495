/**
 * Markup of pages and drawings. Whatever is put into the template is text and is escaped, unless it is markup that the
 * template itself made: a name from a case file cannot become an element by being forgotten.
 *
 *     html`<li title="${path}">${name}${note && html`<i>${note}</i>`}</li>`
 */

import { escaped } from './escape.ts';

/** Markup that may stand in a page as it is. Made by the template, or by `trusted`. */
export class Markup {
  readonly #text: string;

  constructor(text: string, key: typeof door) {
    if (key !== door) throw new TypeError('markup is made by the template');
    this.#text = text;
  }

  toString(): string {
    return this.#text;
  }
}

const door = Symbol('markup');

/** What may be put into a template: lists are run together, what is absent or false leaves nothing. */
export type Piece = Markup | string | number | false | null | undefined | readonly Piece[];

const textOf = (piece: Piece): string => {
  if (piece instanceof Markup) return piece.toString();
  if (piece === null || piece === undefined || piece === false) return '';
  if (typeof piece === 'string') return escaped(piece);
  return typeof piece === 'number' ? String(piece) : piece.map(textOf).join('');
};

/** Markup with values in it; text among them is escaped, in content and in quoted attributes. */
export const html = (fixed: TemplateStringsArray, ...pieces: readonly Piece[]): Markup =>
  new Markup(
    fixed.reduce((text, next, i) => `${text}${textOf(pieces[i - 1])}${next}`),
    door,
  );

/** Text of our own that is markup, a style or a script already. Never anything that a file of the user's holds. */
export const trusted = (text: string): Markup => new Markup(text, door);
