/** Sliders of what is turned most beside the pipe, each with a field that takes any unit: walls, ignition, air, passage, mixture. */

import { sectionsText } from '../../../src/board/sections.ts';
import { wallText } from '../../../src/board/wall.ts';
import { parseQuantity } from '../../../src/case/text/quantity-text.ts';
import { writeQuantity } from '../../../src/case/text/units.ts';
import type { Case } from '../../../src/model/case.ts';
import type { Dimension } from '../../../src/model/dimension.ts';
import { diameterOf } from '../../../src/pipe/circle.ts';
import { lengthOf } from '../../../src/pipe/places.ts';
import { element } from './element.ts';

type Changes = readonly (readonly [path: string, text: string])[];

export interface DialHands {
  hold(held: boolean): void;
  change(changes: Changes): boolean;
  settle(): void;
}

interface Dial {
  readonly name: string;
  /** Value in the unit that is shown; null: the case has none such. */
  read(subject: Case): number | null;
  readonly unit: string;
  readonly from: number;
  readonly to: number;
  readonly step: number;
  changes(text: string, subject: Case): Changes;
}

/** A number in a unit, out of a text of any unit that the dimension has is left to the reader of the case. */
const shown = (inside: number, dimension: Dimension, unit: string): number =>
  Number.parseFloat(writeQuantity(inside, dimension, unit, 6));

const given = ({ pipe }: Case) => (pipe.wall.by === 'given' ? pipe.wall.at : null);

/** The wall with another temperature at its first or its last point; a wall of one temperature gets two. */
function wallChanges(text: string, subject: Case, end: 'first' | 'last'): Changes {
  const parsed = parseQuantity(text, 'temperature');
  const points = given(subject);
  const [first, last] = [points?.[0], points?.at(-1)];
  // What cannot be read is refused by the reader of the case, in its words.
  if (!parsed.ok || points === null || first === undefined || last === undefined)
    return [['pipe.wall.given', text]];
  const { value: temperature } = parsed;
  const whole = {
    position: Number(lengthOf(subject.pipe.sections).toPrecision(12)),
    temperature: last.temperature,
  };
  const all = points.length === 1 ? [first, whole] : points;
  const changed = end === 'first' ? 0 : all.length - 1;
  return [
    ['pipe.wall.given', wallText(all.map((one, k) => (k === changed ? { ...one, temperature } : one)))],
  ];
}

/** The passage's end and the pipe's beginning are one: both are changed. */
function exitChange(text: string, subject: Case): Changes {
  const { sections } = subject.pipe;
  const [first, ...rest] = sections;
  const mm = Number.parseFloat(text);
  if (first === undefined || first.step || !text.trim().endsWith('mm') || !Number.isFinite(mm))
    return [['engine.passage.exitDiameter', text]];
  const left = mm / 1000;
  const straight = first.diameter[0] === first.diameter[1];
  const header = { ...first, diameter: [left, straight ? left : first.diameter[1]] as const };
  return [
    ['engine.passage.exitDiameter', text],
    ['pipe.sections', sectionsText([header, ...rest])],
  ];
}

const DIALS: readonly Dial[] = [
  {
    name: 'Wall at the flange',
    unit: 'degC',
    from: 100,
    to: 700,
    step: 5,
    read: (subject) => {
      const at = given(subject)?.[0];
      return at === undefined ? null : shown(at.temperature, 'temperature', 'degC');
    },
    changes: (text, subject) => wallChanges(text, subject, 'first'),
  },
  {
    name: 'Wall at the end',
    unit: 'degC',
    from: 50,
    to: 600,
    step: 5,
    read: (subject) => {
      const at = given(subject)?.at(-1);
      return at === undefined ? null : shown(at.temperature, 'temperature', 'degC');
    },
    changes: (text, subject) => wallChanges(text, subject, 'last'),
  },
  {
    name: 'Heat release starts (ignition)',
    unit: 'deg',
    from: -30,
    to: 5,
    step: 0.5,
    read: ({ engine: { combustion } }) =>
      combustion.start.length === 1 ? (combustion.start[0]?.deg ?? null) : null,
    changes: (text) => [['engine.combustion.start', text]],
  },
  {
    name: 'Passage exit',
    unit: 'mm',
    from: 15,
    to: 60,
    step: 0.5,
    read: ({ engine }) => shown(diameterOf(engine.passage.exitArea), 'length', 'mm'),
    changes: exitChange,
  },
  {
    name: 'Air temperature',
    unit: 'degC',
    from: -10,
    to: 45,
    step: 1,
    read: ({ engine }) => shown(engine.ambient.temperature, 'temperature', 'degC'),
    changes: (text) => [['engine.ambient.temperature', text]],
  },
  {
    name: 'Air pressure',
    unit: 'mbar',
    from: 700,
    to: 1060,
    step: 1,
    read: ({ engine }) => shown(engine.ambient.pressure, 'pressure', 'mbar'),
    changes: (text) => [['engine.ambient.pressure', text]],
  },
  {
    name: 'Mixture, above 1 is rich',
    unit: '',
    from: 0.8,
    to: 1.4,
    step: 0.01,
    read: ({ engine }) => Number(engine.fuel.equivalenceRatio.toPrecision(6)),
    changes: (text) => [['engine.fuel.equivalenceRatio', text]],
  },
];

export class Dials {
  readonly #rows: readonly {
    readonly dial: Dial;
    readonly row: HTMLElement;
    readonly range: HTMLInputElement;
    readonly field: HTMLInputElement;
  }[];
  #subject: Case | null = null;

  constructor(at: HTMLElement, hands: DialHands) {
    this.#rows = DIALS.map((dial, k) => {
      const { from, to, step, name, unit } = dial;
      const range = element('input', { type: 'range', id: `dial-${k}`, min: from, max: to, step });
      const field = element('input', {
        type: 'text',
        size: 9,
        autocomplete: 'off',
        'aria-label': `${name}, typed`,
      });
      const change = (text: string): void => {
        if (this.#subject !== null) hands.change(dial.changes(text, this.#subject));
      };
      range.addEventListener('pointerdown', () => hands.hold(true));
      range.addEventListener('input', () => change(`${range.value} ${unit}`.trim()));
      range.addEventListener('change', () => {
        hands.settle();
        hands.hold(false);
        this.#show();
      });
      field.addEventListener('change', () => {
        const alone = /^[+-]?[\d.]+$/.test(field.value.trim());
        change(alone ? `${field.value.trim()} ${unit}`.trim() : field.value);
        hands.settle();
        field.blur();
        this.#show();
      });
      const row = element('div', {}, element('label', { for: `dial-${k}` }, name), range, field);
      return { dial, row, range, field };
    });
    at.append(...this.#rows.map(({ row }) => row));
  }

  draw(subject: Case): void {
    this.#subject = subject;
    this.#show();
  }

  #show(): void {
    const subject = this.#subject;
    if (subject === null) return;
    for (const { dial, row, range, field } of this.#rows) {
      const value = dial.read(subject);
      row.hidden = value === null;
      if (value === null) continue;
      const text = `${value} ${dial.unit.replace('degC', '°C')}`.trim();
      if (document.activeElement !== range) range.value = String(value);
      range.setAttribute('aria-valuetext', text);
      if (document.activeElement !== field) field.value = `${value} ${dial.unit}`.trim();
    }
  }
}
