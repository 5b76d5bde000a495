/**
 * How drafts are scored: a sum of named terms, each with its weight. A term is worth its reading in the unit of the
 * tables: newton-metres, kilowatts, degrees (minus the distance from the wanted lead), or revolutions a minute of band
 * width. More is better; weights bring terms of different units together. Nothing is evaluated.
 */

import type { ScoreTerm } from '../../model/study.ts';
import { list } from '../keys/branches.ts';
import { choice, quantity, share, text } from '../keys/leaves.ts';
import { optional, record, required, setting } from '../keys/record.ts';
import { checked, type Judge, type Schema } from '../keys/schema.ts';
import { nearest } from '../text/nearest.ts';
import { printable, quoted } from '../text/printable.ts';

const speed = quantity('speed', { above: '0 rpm' });
const band = record('a band of speeds', {
  from: required(speed, 'Lower end of the band.'),
  to: required(speed, 'Upper end of the band.'),
});

const lead = record('a wanted lead', {
  speed: required(speed, 'Speed at which it is read.'),
  wanted: required(quantity('angle'), 'Exhaust closing less the peak of the plug-back, as it should be.'),
});

const width = record('a width of the power band', {
  of: setting(choice('torque', 'power'), 'Curve whose band it is.', 'torque', 'the usual meaning'),
  share: setting(
    share({ above: '0', below: '1' }),
    'Share of the best above which a speed belongs to the band.',
    '90 %',
    'the usual meaning',
  ),
});

/** Any column of a sweep at a speed; the columns known are named when a study is read. */
const columnReading = (columns: readonly string[]): Schema<{ name: string; speed: number }> =>
  checked(
    record('a column of the sweep', {
      name: required(text(80), 'Name of the column, as in sweep.csv.'),
      speed: required(speed, 'Speed at which it is read.'),
    }),
    (stated, judge) => {
      if (columns.length === 0 || columns.includes(stated.name)) return stated;
      const near = nearest(stated.name, columns);
      const hint =
        near === null ? 'the columns are those of sweep.csv' : `did you mean "${printable(near)}"?`;
      return judge.refuse(['name'], `a sweep has no column ${quoted(stated.name)}`, hint);
    },
  );

const TERMS = [
  'averageTorque',
  'averagePower',
  'torqueAt',
  'powerAt',
  'leadAt',
  'bandWidth',
  'column',
] as const;

const term = (columns: readonly string[]): Schema<ScoreTerm> =>
  checked(
    record(
      'a term of the score',
      {
        averageTorque: optional(band, 'Mean torque over a band of speeds [Nm].'),
        averagePower: optional(band, 'Mean power over a band of speeds [kW].'),
        torqueAt: optional(speed, 'Torque at a speed [Nm].'),
        powerAt: optional(speed, 'Power at a speed [kW].'),
        leadAt: optional(lead, 'Minus the distance of the plug-back lead from the wanted one [deg].'),
        bandWidth: optional(width, 'Speeds within a share of the best [rpm].'),
        column: optional(columnReading(columns), 'A column of the sweep at a speed, in its unit.'),
        weight: setting(share(), 'What the term counts for.', '1', 'all terms alike'),
      },
      [{ keys: TERMS, needed: true }],
    ),
    (stated, judge): ScoreTerm | undefined => {
      const { weight } = stated;
      if (weight === 0) return judge.refuse(['weight'], 'a weight of zero leaves the term out');
      if (stated.averageTorque !== null)
        return averaged('averageTorque', stated.averageTorque, weight, judge);
      if (stated.averagePower !== null) return averaged('averagePower', stated.averagePower, weight, judge);
      if (stated.torqueAt !== null) return { kind: 'torqueAt', speed: stated.torqueAt, weight };
      if (stated.powerAt !== null) return { kind: 'powerAt', speed: stated.powerAt, weight };
      if (stated.leadAt !== null) return { kind: 'leadAt', ...stated.leadAt, weight };
      if (stated.bandWidth !== null) return { kind: 'bandWidth', ...stated.bandWidth, weight };
      return stated.column === null ? undefined : { kind: 'column', ...stated.column, weight };
    },
  );

function averaged(
  kind: 'averageTorque' | 'averagePower',
  { from, to }: { readonly from: number; readonly to: number },
  weight: number,
  judge: Judge,
): ScoreTerm | undefined {
  if (!(to > from)) return judge.refuse([kind, 'to'], `the band is empty: ${from} to ${to} rpm`);
  return { kind, from, to, weight };
}

/** The terms of a score; `columns` are those that a sweep has. */
export function scoreTerms(columns: readonly string[]): Schema<readonly ScoreTerm[]> {
  return list(term(columns), 1, 20);
}

/** The speeds that a term reads, lowest and highest; null: all there are. */
export function speedsRead(one: ScoreTerm): readonly [number, number] | null {
  if (one.kind === 'bandWidth') return null;
  return 'from' in one ? [one.from, one.to] : [one.speed, one.speed];
}
