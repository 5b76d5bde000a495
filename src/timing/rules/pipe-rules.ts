/** Rules about the chamber: header, cone angles, belly, stinger, and its length against the handbook's. */

import { diameterOf } from '../../pipe/circle.ts';
import { coneLength, includedAngleDeg } from '../../pipe/cone.ts';
import type { SectionRow } from '../../pipe/pipe-table.ts';
import { flangeDiameter, largestDiameter, lengthOf, stagesOf, wholeCone } from '../../pipe/places.ts';
import { handbookSoundSpeed, tunedLength, tunedSpeed } from '../handbook.ts';
import type { RuleFinding, RuleInput } from './rule.ts';
import { BLAIR, finding, JENNINGS, mm, NO_SOURCE } from './rule.ts';

/** What a rule about the drawn pipe looks at. */
export type PipeRuleInput = Pick<RuleInput, 'engine' | 'pipe' | 'rows'>;

function headerLengthRule({ rows, pipe }: PipeRuleInput): RuleFinding {
  const flange = flangeDiameter(pipe);
  const header = stagesOf(rows, 'header').at(-1);
  const passage = lengthOf(stagesOf(rows, 'passage'));
  const range = `6 to 11 diameters from the port are ${mm(6 * flange - passage)} to ${mm(11 * flange - passage)} of header`;
  return finding({
    id: 'header-length',
    title: 'Header length / diam.',
    found: header === undefined ? null : header.end / flange,
    unit: '-',
    usual: [6, 11],
    reason: 'Six to eight diameters make power, up to eleven a broad band.',
    source: `${JENNINGS}, value from memory; ${BLAIR} has a tenth of the tuned length`,
    movedBy: 'header length',
    sides: {
      below: `With the passage. ${range}. Sweep decides.`,
      within: `With the passage. ${range}.`,
      above: `With the passage. ${range}. Sweep decides.`,
      unknown: 'The pipe has no header.',
    },
  });
}

export function diffuserRule({ rows }: PipeRuleInput): RuleFinding {
  const cone = wholeCone(rows, 'diffuser');
  const stages = cone?.stages.map((row) => row.includedAngleDeg.toFixed(1)).join(', ') ?? '';
  const at8 = cone ? mm(coneLength(cone.diameter, 8)) : '';
  return finding({
    id: 'diffuser-angle',
    title: 'Diffuser angle, whole',
    found: cone ? includedAngleDeg(cone) : null,
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

export function baffleRule({ rows }: PipeRuleInput): RuleFinding {
  const cone = wholeCone(rows, 'baffle');
  const at20 = cone ? mm(coneLength(cone.diameter, 20)) : '';
  return finding({
    id: 'baffle-angle',
    title: 'Baffle angle, whole',
    found: cone ? -includedAngleDeg(cone) : null,
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

export function bellyRule({ rows, engine }: PipeRuleInput): RuleFinding {
  const port = diameterOf(engine.passage.exitArea);
  const widest = largestDiameter(rows);
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

/** Narrowest of the stinger's first stage [m]; null without a stinger. */
function stingerBore(rows: readonly SectionRow[]): number | null {
  const [first] = stagesOf(rows, 'stinger');
  return first === undefined ? null : Math.min(...first.diameter);
}

export function stingerDiameterRule({ rows, pipe }: PipeRuleInput): RuleFinding {
  const header = flangeDiameter(pipe);
  const bore = stingerBore(rows);
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

export function stingerLengthRule({ rows }: PipeRuleInput): RuleFinding {
  const bore = stingerBore(rows);
  const length = lengthOf(stagesOf(rows, 'stinger'));
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
      below: `Twelve are ${mm(12 * (bore ?? 0))}.`,
      within: `Twelve are ${mm(12 * (bore ?? 0))}.`,
      above: `Twelve are ${mm(12 * (bore ?? 0))}.`,
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
      below: `${difference} shorter than the handbook's for ${rpm.toFixed(0)} rpm: ${fits}. Sweep decides.`,
      within: `Within ${difference}: ${fits}. 50 K of gas temperature move it by ${(2500 / gasTemperature).toFixed(1)} %.`,
      above: `${difference} longer than the handbook's for ${rpm.toFixed(0)} rpm: ${fits}. Sweep decides.`,
      unknown: 'The pipe has no baffle to measure to.',
    },
  });
}

/**
 * Rules that the drawing of the pipe decides alone, whatever the speed. The header's is for whoever draws a new pipe; `check`
 * does not hold pipes to it, as the authors differ.
 */
export const PIPE_RULES: readonly ((input: PipeRuleInput) => RuleFinding)[] = [
  headerLengthRule,
  diffuserRule,
  bellyRule,
  baffleRule,
  stingerDiameterRule,
  stingerLengthRule,
];
