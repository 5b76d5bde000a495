/** Rules about flow through port, passage and crankcase: areas against each other and against what the power wants. */

import { areaOf, diameterOf } from '../../pipe/circle.ts';
import { diameterAt, TRANSITION } from '../../pipe/places.ts';
import { meanPistonSpeed } from '../crank.ts';
import { bmepServed, timeAreasWanted } from '../time-area.ts';
import { mildness } from '../usual-ports.ts';
import { crankcaseCompression, sweptVolume } from '../volume.ts';
import type { RuleFinding, RuleInput } from './rule.ts';
import { BLAIR_MEMORY, finding, JENNINGS, mm, NO_SOURCE } from './rule.ts';

/** How mild an engine the speed aimed at makes of it [-]. */
const mild = ({ events, rpm }: RuleInput): number => mildness(meanPistonSpeed(events.crank, rpm));

export function passageExitRule(input: RuleInput): RuleFinding {
  const { engine, effectivePortArea } = input;
  const wanted = `75 % is ${(0.75 * effectivePortArea * 1e6).toFixed(0)} mm2, ${mm(diameterOf(0.75 * effectivePortArea))} round`;
  return finding({
    id: 'passage-exit-area',
    title: 'Passage exit / port area',
    found: (engine.passage.exitArea / effectivePortArea) * 100,
    unit: '%',
    usual: [70, 82 + 30 * mild(input)],
    reason: 'Racing ones narrow to 75 % of the port to keep the pulse; mild ones hardly.',
    source: NO_SOURCE,
    movedBy: 'passage exit, port size',
    sides: {
      below: `${wanted}: the rule would open it.`,
      within: `${wanted}.`,
      above: `${wanted}: the rule would make it smaller.`,
    },
  });
}

export function passageMachRule(input: RuleInput): RuleFinding {
  const { release, bmep } = input;
  const basis = `by estimate for ${(bmep / 1e5).toFixed(0)} bar`;
  return finding({
    id: 'passage-exit-mach',
    title: 'Mach at passage exit',
    found: release.exitMach,
    unit: '-',
    usual: [0.35 - 0.05 * mild(input), 0.9],
    reason: 'Peak near 0.8 with all waves; this estimate has no suction and reads low.',
    source: `${NO_SOURCE}; the range allows for the estimate`,
    movedBy: 'passage exit, blowdown',
    sides: {
      below: `Slow ${basis}; the sweep computes it.`,
      within: `Peak at ${release.exitMachDeg.toFixed(0)} deg ${basis}; the sweep computes it.`,
      above: `Near choking ${basis}; the sweep computes it.`,
    },
  });
}

export function headerEntryRule(input: RuleInput): RuleFinding {
  const { pipe, effectivePortArea } = input;
  const diameter = diameterAt(pipe, TRANSITION);
  const wanted = diameterOf(effectivePortArea);
  return finding({
    id: 'header-entry-area',
    title: 'Header entry / port area',
    found: areaOf(diameter) / effectivePortArea,
    unit: '-',
    usual: [0.85, 1.15 + 0.15 * mild(input)],
    reason: 'About the effective port area, 50 mm behind the flange after a transition.',
    source: NO_SOURCE,
    movedBy: 'header diameter',
    sides: {
      below: `${mm(diameter)} there; equal area is ${mm(wanted)}: a wider header eases blowdown.`,
      within: `${mm(diameter)} there; equal area is ${mm(wanted)}.`,
      above: `${mm(diameter)} there; equal area is ${mm(wanted)}: a narrower header holds the pulse.`,
    },
  });
}

export function blowdownRule({ timeAreas, bmep, rpm }: RuleInput): RuleFinding {
  const wanted = timeAreasWanted(bmep).blowdown;
  const serves = bmepServed(timeAreas).blowdown / 1e5;
  const line = `${(timeAreas.blowdown * 1e3).toFixed(2)} of ${(wanted * 1e3).toFixed(2)} ms/m at ${rpm.toFixed(0)} rpm; serves ${serves.toFixed(1)} bar`;
  return finding({
    id: 'blowdown-time-area',
    title: 'Blowdown has / wants',
    found: wanted > 0 ? timeAreas.blowdown / wanted : null,
    unit: '-',
    usual: [0.95, 1.35],
    reason: 'Too little, and the cylinder blows back into the transfers as they open.',
    source: BLAIR_MEMORY,
    movedBy: 'roof height, width',
    sides: {
      below: `${line}. By the rule it wants a higher or wider exhaust, later transfers or a lower speed.`,
      within: `${line}.`,
      above: `${line}. More than this fit asks for.`,
      unknown: 'The mean effective pressure aimed at needs no blowdown by this fit.',
    },
  });
}

export function transferRule({ timeAreas, bmep, rpm }: RuleInput): RuleFinding {
  const wanted = timeAreasWanted(bmep).transfer;
  const line = `${(timeAreas.transfer * 1e3).toFixed(1)} of ${(wanted * 1e3).toFixed(1)} ms/m at ${rpm.toFixed(0)} rpm`;
  return finding({
    id: 'transfer-time-area',
    title: 'Transfer has / wants',
    found: timeAreas.transfer / wanted,
    unit: '-',
    usual: [0.8, 1.3],
    reason: 'Too little starves the cylinder; too much slows the streams.',
    source: BLAIR_MEMORY,
    movedBy: 'transfer widths, roofs',
    sides: {
      below: `${line}. By the rule it wants wider transfers first; a higher roof costs blowdown.`,
      within: `${line}.`,
      above: `${line}. More than this fit asks for.`,
    },
  });
}

export function crankcaseRule({ volumes }: RuleInput): RuleFinding {
  const found = crankcaseCompression(volumes);
  const volume = (ratio: number) => `${((sweptVolume(volumes) / (ratio - 1)) * 1e6).toFixed(0)} cm3`;
  return finding({
    id: 'crankcase-compression',
    title: 'Crankcase compression',
    found,
    unit: '-',
    usual: [1.3, 1.55],
    reason: 'A tight case pumps harder; a roomy one lets the pipe draw through it.',
    source: `${JENNINGS} (about 1.5), value from memory; lower in racing engines`,
    movedBy: 'crankcase volume',
    sides: {
      below: `1.3 would be ${volume(1.3)} at bottom dead centre: stuff the case, or count on the pipe.`,
      within: `1.3 to 1.55 is ${volume(1.3)} to ${volume(1.55)} at bottom dead centre.`,
      above: `1.55 would be ${volume(1.55)} at bottom dead centre: a roomier case, or a smaller reed block filler.`,
    },
  });
}

export function pistonSpeedRule({ events, rpm }: RuleInput): RuleFinding {
  const found = meanPistonSpeed(events.crank, rpm);
  const speedAt = (metres: number) => Math.round((metres / found) * rpm).toString();
  return finding({
    id: 'mean-piston-speed',
    title: 'Mean piston speed',
    found,
    unit: 'm/s',
    usual: [10, 24],
    reason: 'Mild singles peak at 10 to 17, racing ones to 24; forces go as the square.',
    source: NO_SOURCE,
    movedBy: 'target speed, stroke',
    sides: {
      below: `Far below where engines peak: 23 m/s is ${speedAt(23)} rpm.`,
      within: `23 m/s is ${speedAt(23)} rpm.`,
      above: `24 m/s is ${speedAt(24)} rpm: aim lower, or know what rod and piston stand.`,
    },
  });
}
