/** A measuring error, one standard deviation: a share of the value, `2 %`, or a quantity, `0.05 bar`. */

import type { Dimension } from '../../model/dimension.ts';
import { note, refuse, type Schema } from '../keys/schema.ts';
import { parseQuantity, parseShare } from '../text/quantity-text.ts';
import { scalarText } from '../text/tree.ts';
import { DIMENSIONS, unitsOf } from '../text/units.ts';

export type MeasuringError = { readonly kind: 'share' | 'absolute'; readonly value: number };

/** Largest share that is still a measurement [-]. */
const MOST = 0.5;

export function measuringError(
  dimension: Dimension,
  dimensions: readonly Dimension[] = [dimension],
): Schema<MeasuringError> {
  const usual = unitsOf(dimension)[0]!;
  const example = dimension === 'temperature' ? '15 K' : `0.05 ${usual}`;
  const takes = `one standard deviation: a share like 2 %, or ${DIMENSIONS[dimension].called} like ${example}`;
  return {
    takes,
    lone: false,
    read(node, at) {
      const text = scalarText(node)?.trim() ?? '';
      if (text === '') return refuse(at, node.place, `it takes ${takes}`);
      const isShare = /%\s*$/.test(text);
      const tried = isShare ? [parseShare(text)] : dimensions.map((one) => parseQuantity(text, one, true));
      const parsed = tried.find(({ ok }) => ok) ?? tried[0]!;
      if (!parsed.ok) return refuse(at, node.place, parsed.message, parsed.hint || `it takes ${takes}`);
      if (parsed.value <= 0)
        return refuse(at, node.place, 'an error is above nought', 'nothing is measured exactly');
      if (isShare && parsed.value > MOST)
        return refuse(at, node.place, `more than ${100 * MOST} % is no measurement`);
      note(at, text);
      return { kind: isShare ? 'share' : 'absolute', value: parsed.value };
    },
    jsonSchema: () => ({
      type: 'string',
      title: 'a measuring error',
      examples: [isTemperature(dimension) ? '15 K' : '2 %'],
    }),
  };
}

const isTemperature = (dimension: Dimension): boolean => dimension === 'temperature';

/** The error of a value [as the value]; a share is of `whole`. */
export const errorOf = ({ kind, value }: MeasuringError, whole: number): number =>
  kind === 'share' ? value * Math.abs(whole) : value;
