/** Rules about the chamber: cone angles, belly, stinger, and its length against the handbook's. */
import type { Section } from '../../model/section.ts';
import type { SectionRow } from '../../pipe/pipe-table.ts';
import { diameterOf, includedAngleDeg } from '../../pipe/pipe-table.ts';
import { handbookSoundSpeed, tunedLength, tunedSpeed } from '../handbook.ts';
import type { RuleFinding, RuleInput } from './rule.ts';
import { BLAIR, finding, JENNINGS, mm, NO_SOURCE } from './rule.ts';

/** Several stages as one cone from the first's left end to the last's right end; null where there is none. */
function wholeCone(rows: readonly SectionRow[], role: Section['role']) {
  const stages = rows.filter((row) => row.role === role);
  const [first, last] = [stages[0], stages.at(-1)];
  if (!first || !last) return null;
  const length = last.start + last.length - first.start;
  const diameter: Section['diameter'] = [first.diameter[0], last.diameter[1]];
  return { stages, length, diameter, angle: includedAngleDeg({ length, diameter }) };
}

/** Length of a cone between two diameters at an included angle [m]. */
function coneLength([left, right]: Section['diameter'], angleDeg: number): number {
  return Math.abs(right - left) / 2 / Math.tan((angleDeg * Math.PI) / 360);
}

export function diffuserRule({ rows }: RuleInput): RuleFinding {
  const cone = wholeCone(rows, 'diffuser');
  const stages = cone?.stages.map((row) => row.includedAngleDeg.toFixed(1)).join(', ') ?? '';
  const at8 = cone ? mm(coneLength(cone.diameter, 8)) : '';
  return finding({
    id: 'diffuser-angle',
    title: 'Diffuser angle, whole',
    found: cone?.angle ?? null,
    unit: 'deg',
    usual: [5, 10],
    reason: '8 included recovers best; 9 and less for road racing, over 10 grows peaky.',
    source: JENNINGS,
    movedBy: 'diffuser length, belly',
    sides: {
      below: `Stages ${stages} deg; 8 deg in all is ${at8}: steeper sucks harder.`,
      within: `Stages ${stages} deg; 8 deg in all is ${at8}.`,
      above: `Stages ${stages} deg; 8 deg in all is ${at8}: gentler spreads suction.`,
      unknown: 'The pipe has no diffuser.',
    },
  });
}

export function baffleRule({ rows }: RuleInput): RuleFinding {
  const cone = wholeCone(rows, 'baffle');
  const at20 = cone ? mm(coneLength(cone.diameter, 20)) : '';
  return finding({
    id: 'baffle-angle',
    title: 'Baffle angle, whole',
    found: cone ? -cone.angle : null,
    unit: 'deg',
    usual: [15, 25],
    reason: 'About 20 included; steeper plugs harder over fewer speeds.',
    source: `${JENNINGS} (20); the range is common practice, no source`,
    movedBy: 'baffle length',
    sides: {
      below: `20 deg is ${at20}: a shorter baffle sharpens the plug-back.`,
      within: `20 deg is ${at20}.`,
      above: `20 deg is ${at20}: longer spreads the plug-back over more speeds.`,
      unknown: 'The pipe has no baffle, so nothing sends the wave back.',
    },
  });
}

export function bellyRule({ rows, engine }: RuleInput): RuleFinding {
  const port = diameterOf(engine.passage.exitArea);
  const widest = Math.max(...rows.map((row) => Math.max(...row.diameter)));
  return finding({
    id: 'belly-diameter',
    title: 'Belly / passage diameter',
    found: widest / port,
    unit: '-',
    usual: [2.25, 3.25],
    reason: '2.25 in broad pipes to 3.25 in racing ones; a larger belly reflects more.',
    source: BLAIR,
    movedBy: 'belly diameter',
    sides: {
      below: `Belly ${mm(widest)}; 2.25 is ${mm(2.25 * port)}.`,
      within: `Belly ${mm(widest)}; the range is ${mm(2.25 * port)} to ${mm(3.25 * port)}.`,
      above: `Belly ${mm(widest)}; 3.25 is ${mm(3.25 * port)}.`,
    },
  });
}

export function stingerDiameterRule({ rows }: RuleInput): RuleFinding {
  const header = rows.find((row) => row.role !== 'passage')?.diameter[0] ?? 0;
  const stinger = rows.find((row) => row.role === 'stinger');
  const bore = stinger ? Math.min(...stinger.diameter) : null;
  return finding({
    id: 'stinger-diameter',
    title: 'Stinger / header diam.',
    found: bore === null ? null : bore / header,
    unit: '-',
    usual: [0.57, 0.64],
    reason: 'It holds the back-pressure: narrow runs hot and can burn a piston.',
    source: `${JENNINGS} (0.58 to 0.62); ${BLAIR} (0.57 to 0.62)`,
    movedBy: 'stinger diameter',
    sides: {
      below: `0.58 to 0.62 is ${mm(0.58 * header)} to ${mm(0.62 * header)}: open it before leaning anything out.`,
      within: `0.58 to 0.62 is ${mm(0.58 * header)} to ${mm(0.62 * header)}.`,
      above: `0.58 to 0.62 is ${mm(0.58 * header)} to ${mm(0.62 * header)}: safe, but the plug-back loses strength.`,
      unknown: 'The pipe has no stinger.',
    },
  });
}

export function stingerLengthRule({ rows }: RuleInput): RuleFinding {
  const stingers = rows.filter((row) => row.role === 'stinger');
  const bore = stingers[0] ? Math.min(...stingers[0].diameter) : null;
  const length = stingers.reduce((sum, row) => sum + row.length, 0);
  return finding({
    id: 'stinger-length',
    title: 'Stinger length / diam.',
    found: bore === null ? null : length / bore,
    unit: '-',
    usual: [9, 15],
    reason: 'About twelve of its diameters; with its bore it sets the back-pressure.',
    source: `${JENNINGS} (12); the range is common practice, no source`,
    movedBy: 'stinger length',
    sides: {
      below: `Twelve are ${mm(12 * (bore ?? 0))}: longer, or a little narrower.`,
      within: `Twelve are ${mm(12 * (bore ?? 0))}.`,
      above: `Twelve are ${mm(12 * (bore ?? 0))}: shorter, or a little wider.`,
      unknown: 'The pipe has no stinger.',
    },
  });
}

export function lengthRule({ lengths, events, rpm, gasTemperature }: RuleInput): RuleFinding {
  const speed = handbookSoundSpeed(gasTemperature);
  const duration = events.exhaust.durationDeg;
  const wanted = tunedLength(speed, duration, rpm);
  const actual = lengths.baffleEnd;
  const tuned = actual === null ? null : tunedSpeed(actual, speed, duration);
  const difference = actual === null ? '' : mm(Math.abs(actual - wanted));
  const fits = `the length suits ${tuned === null ? '-' : tuned.toFixed(0)} rpm by the handbook`;
  return finding({
    id: 'tuned-length',
    title: 'Length / handbook length',
    found: actual === null ? null : actual / wanted,
    unit: '-',
    usual: [0.93, 1.07],
    reason: 'Piston to baffle end, so that the wave is back by exhaust closing.',
    source: `${BLAIR}. ${NO_SOURCE} for the range`,
    movedBy: 'header, belly length',
    sides: {
      below: `Short by ${difference} for ${rpm.toFixed(0)} rpm: ${fits}. Lengthen the header.`,
      within: `Within ${difference}: ${fits}. 50 K of gas temperature move it by ${(2500 / gasTemperature).toFixed(1)} %.`,
      above: `Long by ${difference} for ${rpm.toFixed(0)} rpm: ${fits}. Shorten header or belly.`,
      unknown: 'The pipe has no baffle to measure to.',
    },
  });
}
