/** Rules of thumb as quiet marks: each with its place in the usual range, named where it lies outside. Nothing is forbidden by them. */

import type { RuleFinding } from '../../../src/timing/rules/rule.ts';
import { asPrinted, fixed } from '../../theme/numbers.ts';
import { element } from './element.ts';

export class RuleMarks {
  readonly #at: HTMLElement;

  constructor(at: HTMLElement) {
    this.#at = at;
  }

  draw(rules: readonly RuleFinding[]): void {
    this.#at.replaceChildren(...rules.filter(({ found }) => found !== null).map(mark));
  }
}

function mark({ title, found, unit, usual: [low, high], outside, advice, source }: RuleFinding): HTMLElement {
  const digits = high < 5 ? 2 : high < 20 ? 1 : 0;
  const value = `${fixed(found, digits)}${unit === '-' ? '' : ` ${unit}`}`;
  const range = `${fixed(low, digits)} to ${fixed(high, digits)}`;
  const made = element(
    'li',
    { title: asPrinted(`${advice} ${source}`) },
    `${title} `,
    element('b', {}, asPrinted(value)),
    ` usual ${range}`,
  );
  made.classList.toggle('outside', outside === 'below' || outside === 'above');
  return made;
}
