/** The pipe in numbers: what the drawing moves can be typed here, with units, and sections cut in two, added, taken out. */

import { added, type Edit, movedAcross, removed, split, withLength } from '../../../src/board/sections.ts';
import { parseQuantity } from '../../../src/case/text/quantity-text.ts';
import { writeQuantity } from '../../../src/case/text/units.ts';
import type { Case } from '../../../src/model/case.ts';
import type { Section } from '../../../src/model/section.ts';
import { includedAngleDeg } from '../../../src/pipe/cone.ts';
import { fixed } from '../../theme/numbers.ts';
import { element, write } from './element.ts';

export interface TableHands {
  /** Tries an edit as a step of its own; false: it was refused. */
  edit(edit: Edit): boolean;
  refuse(words: string): void;
}

const mm = (metres: number): string => writeQuantity(metres, 'length', 'mm', 7);

/** A number alone is in millimetres, as the heading says. */
const withUnit = (text: string): string => (/^[+-]?[\d.]+$/.test(text.trim()) ? `${text.trim()} mm` : text);

export class SectionTable {
  readonly #body: HTMLTableSectionElement;
  readonly #hands: TableHands;
  #subject: Case | null = null;

  constructor(body: HTMLTableSectionElement, hands: TableHands) {
    this.#body = body;
    this.#hands = hands;
  }

  draw(subject: Case): void {
    this.#subject = subject;
    const { sections } = subject.pipe;
    const rows = [...this.#body.rows];
    if (rows.length !== sections.length)
      this.#body.replaceChildren(...sections.map((_, k) => this.#newRow(k)));
    sections.forEach((section, k) => {
      this.#fill(this.#body.rows[k]!, section);
    });
  }

  #fill(row: HTMLTableRowElement, section: Section): void {
    write(row.cells[0] as HTMLElement, section.name);
    const values = [section.length, ...section.diameter].map(mm);
    row.querySelectorAll('input').forEach((input, k) => {
      if (document.activeElement !== input) input.value = values[k] ?? '';
      input.setAttribute(
        'aria-label',
        `${section.name}: ${['length', 'left diameter', 'right diameter'][k]}`,
      );
    });
    const angle = includedAngleDeg(section);
    write(row.cells[4] as HTMLElement, angle === 0 ? 'straight' : `${fixed(angle, 1)}°`);
    row.querySelectorAll('button').forEach((button) => {
      button.setAttribute('aria-label', `${button.textContent} ${section.name}`);
    });
  }

  #newRow(index: number): HTMLTableRowElement {
    const name = element('th', { scope: 'row' });
    const length = this.#field((metres, sections) => withLength(sections, index, metres));
    const left = this.#field((metres, sections) => movedAcross(sections, index, metres));
    const right = this.#field((metres, sections) => movedAcross(sections, index + 1, metres));
    const button = (
      text: string,
      edit: (sections: readonly Section[], index: number) => Edit,
    ): HTMLElement => {
      const made = element('button', { type: 'button' }, text);
      made.addEventListener('click', () => {
        if (this.#subject !== null) this.#hands.edit(edit(this.#subject.pipe.sections, index));
      });
      return made;
    };
    const buttons = [button('cut', split), button('add behind', added), button('take out', removed)];
    return element(
      'tr',
      {},
      name,
      ...[length, left, right].map((field) => element('td', { class: 'n' }, field)),
      element('td', { class: 'n' }),
      element('td', { class: 'does' }, ...buttons),
    );
  }

  #field(edit: (metres: number, sections: readonly Section[]) => Edit): HTMLInputElement {
    const input = element('input', { type: 'text', inputmode: 'decimal', autocomplete: 'off', size: 9 });
    input.addEventListener('change', () => {
      if (this.#subject === null) return;
      const parsed = parseQuantity(withUnit(input.value), 'length');
      if (parsed.ok) this.#hands.edit(edit(parsed.value, this.#subject.pipe.sections));
      else this.#hands.refuse(`${parsed.message}${parsed.hint === '' ? '' : ` (${parsed.hint})`}`);
      this.#again();
    });
    input.addEventListener('blur', () => this.#again());
    return input;
  }

  /** What was refused does not stay in its field. */
  #again(): void {
    const fields = [...this.#body.querySelectorAll('input')];
    const { sections } = this.#subject?.pipe ?? { sections: [] };
    fields.forEach((field, k) => {
      const section = sections[Math.floor(k / 3)];
      if (section !== undefined) field.value = mm([section.length, ...section.diameter][k % 3] ?? 0);
    });
  }
}
