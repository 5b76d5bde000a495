/**
 * `power: P corrected [kW]` names a column of a table and its unit. The unit may also stand in the table's own heading,
 * `Power (kW)`, `Power [kW]` or `Power / kW`, or in a line of units below it; where both say one, they have to agree.
 */

import type { Dimension } from '../../model/dimension.ts';
import { refuse, type Schema } from '../keys/schema.ts';
import { withBrackets } from '../text/bracketed-units.ts';
import { quoted } from '../text/printable.ts';
import { knownUnit } from '../text/quantity-text.ts';
import type { Place } from '../text/source.ts';
import { scalarText } from '../text/tree.ts';
import { DIMENSIONS, dimensionOf, takes } from '../text/units.ts';

/** A column as it is asked for. */
export interface AskedColumn {
  readonly dimension: Dimension;
  readonly name: string;
  /** As it is in the table of units; null: left to the heading. */
  readonly unit: string | null;
  readonly place: Place;
}

/** Name and unit of a heading; no unit: null. */
export function splitHeading(text: string): { readonly name: string; readonly unit: string | null } {
  const found =
    /^(.*?)\s*(?:\[([^[\]]*)\]|\(([^()]*(?:\([^()]*\))?)\)|\/\s*([^\s/]+(?:\/[^\s/]+)?))\s*$/.exec(
      text.trim(),
    );
  if (found === null) return { name: text.trim(), unit: null };
  const [, name = '', square, round, slash] = found;
  return name === ''
    ? { name: text.trim(), unit: null }
    : { name, unit: (square ?? round ?? slash ?? '').trim() };
}

/** Reads `name [unit]` of a quantity. */
export function columnOf(dimension: Dimension): Schema<AskedColumn> {
  const { called } = DIMENSIONS[dimension];
  const what = `a column of the table and its unit, like "name [${Object.keys(DIMENSIONS[dimension].units)[0]!}]": ${takes(dimension)}`;
  return {
    takes: what,
    lone: false,
    read(node, at) {
      const text = withBrackets(scalarText(node) ?? '').trim();
      if (node.kind !== 'scalar' || text === '') return refuse(at, node.place, `it takes ${what}`);
      const { name, unit: written } = /\]\s*$/.test(text) ? splitHeading(text) : { name: text, unit: null };
      if (written === null) return { dimension, name, unit: null, place: node.place };
      const unit = knownUnit(written, dimension);
      if (unit !== null) return { dimension, name, unit, place: node.place };
      const other = dimensionOf(knownUnitName(written));
      const is =
        other === null
          ? `unknown unit ${quoted(written)}`
          : `${quoted(written)} is of ${DIMENSIONS[other].called}`;
      const power =
        dimension === 'torque' && other === 'power' ? 'a column of power goes under the key power' : '';
      return refuse(at, node.place, `${is} where ${called} is due; ${takes(dimension)}`, power);
    },
    jsonSchema: () => ({ type: 'string', title: `a column of ${called}`, maxLength: 200 }),
  };
}

const knownUnitName = (written: string): string => written.replaceAll('°', 'deg').trim();
