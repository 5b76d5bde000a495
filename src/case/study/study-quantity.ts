/**
 * What varies in a study: a quantity of the case by its path, or several paths tied together, over a list of values or a
 * range. `add: true` adds the value to what the case states; paths under `opposite` are lowered by the same amount, so
 * that a joint can move without the pipe growing.
 */

import type { Dimension } from '../../model/dimension.ts';
import type { StudyAxis, VariedQuantity } from '../../model/study.ts';
import { list } from '../keys/branches.ts';
import { flag, found, text } from '../keys/leaves.ts';
import { optional, record, setting } from '../keys/record.ts';
import { checked, type Judge, note, refuse, type Schema } from '../keys/schema.ts';
import { type Parsed, parseQuantity, parseShare } from '../text/quantity-text.ts';
import { DIMENSIONS } from '../text/units.ts';

/** A number with any unit, kept as it was written: the path says later what it has to be. */
interface Written {
  readonly text: string;
  readonly dimension: Dimension | null;
  readonly unit: string;
  readonly value: number;
}

const TAKES = 'a number with its unit, or a plain number where the case takes one';

const written: Schema<Written> = {
  takes: TAKES,
  read(node, at) {
    if (node.kind !== 'scalar' || (typeof node.value !== 'number' && typeof node.value !== 'string'))
      return refuse(at, node.place, `found ${found(node)}; it takes ${TAKES}`);
    const read = anyQuantity(node.text);
    if (read === null)
      return refuse(at, node.place, `found ${found(node)}; it takes ${TAKES}`, 'like "200 mm" or 0.6');
    note(at, node.text.trim());
    return read;
  },
  jsonSchema: () => ({ anyOf: [{ type: 'number' }, { type: 'string', pattern: '^[+-]?[0-9.]' }] }),
};

function anyQuantity(text: string): Written | null {
  for (const dimension of Object.keys(DIMENSIONS) as Dimension[]) {
    const parsed = parseQuantity(text, dimension);
    if (parsed.ok) return { text, dimension, unit: parsed.unit, value: parsed.value };
  }
  const share = parseShare(text);
  return share.ok ? { text, dimension: null, unit: '', value: share.value } : null;
}

const path = text(300);

const keys = record(
  'a varied quantity',
  {
    name: optional(text(60), 'What the tables call it; left out, the last words of its path.'),
    path: optional(path, 'Path of the quantity in the case, like pipe.sections.baffle.length.'),
    paths: optional(list(path, 1, 20), 'Several paths that take the same value.'),
    opposite: optional(list(path, 1, 20), 'Paths lowered by the value, where add is true.'),
    add: setting(
      flag,
      'The value is added to what the case states.',
      'false',
      'it takes the place of the stated',
    ),
    values: optional(list(written, 1, 1000), 'The values, one after another.'),
    from: optional(written, 'First value of a range.'),
    to: optional(written, 'Last value of a range.'),
    step: optional(written, 'Distance of the values in a range; a sample may do without.'),
  },
  [
    { keys: ['path', 'paths'], needed: true },
    { keys: ['values', 'from'], needed: true },
    { keys: ['values', 'to'], needed: true },
  ],
);

export const variedQuantity: Schema<VariedQuantity> = checked(keys, (stated, judge) => {
  const { values, from, to, step, add } = stated;
  const paths = stated.paths ?? [stated.path ?? ''];
  if (stated.opposite !== null && !add)
    return judge.refuse(['opposite'], 'lowers by what is added', 'say add: true as well');
  if (values !== null && step !== null)
    return judge.refuse(['step'], 'a list of values has no step', 'keep one of the two');
  const first = values?.[0] ?? from;
  if (first === null || first === undefined) return undefined;
  if (add && first.dimension === 'temperature' && first.unit !== 'K')
    return judge.refuse(
      [values === null ? 'from' : 'values'],
      'a difference of temperatures is written in K',
    );
  const axis = values !== null ? listAxis(values, judge) : rangeAxis({ from: first, to, step, add }, judge);
  if (axis === undefined) return undefined;
  return {
    name: stated.name ?? usualName(paths[0]!),
    paths,
    opposite: stated.opposite ?? [],
    add,
    dimension: first.dimension,
    unit: first.unit,
    axis,
  };
});

function listAxis(values: readonly Written[], judge: Judge): StudyAxis | undefined {
  const first = values[0]!;
  for (const [index, one] of values.entries()) {
    if (one.dimension !== first.dimension)
      return notAlike(['values', 0], first, ['values', index], one, judge);
    if (values.slice(0, index).some((other) => other.value === one.value))
      return judge.refuse(['values', index], `${one.text} stands twice`, 'keep one of the two');
  }
  return { kind: 'list', values: values.map((one) => one.value) };
}

/** Of two that should be of one kind, the one without a unit is the wrong one. */
function notAlike(
  onePath: readonly (string | number)[],
  one: Written,
  otherPath: readonly (string | number)[],
  other: Written,
  judge: Judge,
): undefined {
  const [bare, path, unit] =
    one.dimension === null ? [one, onePath, other.unit] : [other, otherPath, one.unit];
  if (bare.dimension !== null)
    return judge.refuse(otherPath, `${other.text} is no quantity of the same kind as ${one.text}`);
  return judge.refuse(path, `${bare.text} has no unit`, `did you mean "${bare.text} ${unit}"?`);
}

interface StatedRange {
  readonly from: Written;
  readonly to: Written | null;
  readonly step: Written | null;
  readonly add: boolean;
}

function rangeAxis({ from, to, step }: StatedRange, judge: Judge): StudyAxis | undefined {
  if (to === null) return undefined;
  if (to.dimension !== from.dimension) return notAlike(['from'], from, ['to'], to, judge);
  if (!(to.value > from.value))
    return judge.refuse(
      ['to'],
      `the range is empty: it runs from ${from.text} to ${to.text}`,
      'write the lower end first; one value alone is a list, values: [ … ]',
    );
  if (step === null) return { kind: 'range', from: from.value, to: to.value, step: null };
  const distance = differenceOf(step, from.dimension);
  if (!distance.ok) return judge.refuse(['step'], distance.message, distance.hint);
  if (!(distance.value > 0)) return judge.refuse(['step'], `${step.text} is no step`, 'give one above zero');
  if (distance.value > to.value - from.value)
    return judge.refuse(['step'], `${step.text} is longer than the range, which has one value then`);
  return { kind: 'range', from: from.value, to: to.value, step: distance.value };
}

/** A step is a difference: 10 degC is 10 K. */
function differenceOf(step: Written, dimension: Dimension | null): Parsed {
  return dimension === null ? parseShare(step.text) : parseQuantity(step.text, dimension, true);
}

/** `pipe.sections.diffuser 1.length` is known as `diffuser 1 length`. */
function usualName(whole: string): string {
  const parts = whole.split('.').map((part) => part.replaceAll(/["'[\]]/g, '').trim());
  return parts.slice(-2).join(' ');
}
