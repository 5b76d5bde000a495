/**
 * Ring: identity. A mark of a rule of thumb stands where the rule itself says that its range ends: the demo's pipe is changed to
 * either end of each mark, and the rule then finds the end of its usual range.
 */

import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { stretchesOf } from '../../plots/client/board/pipe-scale.ts';
import { type UsualMark, usualMarks } from '../../plots/client/board/usual-marks.ts';
import { sectionsText } from '../../src/board/sections.ts';
import { loadCase } from '../../src/case/load.ts';
import type { Section } from '../../src/model/section.ts';
import { checkReport } from '../../src/timing/rules/report.ts';
import { CASES } from '../case/files.ts';

const file = join(CASES, 'saltmarsh-125/draft-a.yaml');
const subject = loadCase(file);
const { rules } = checkReport(subject);
const stretches = stretchesOf(subject);
const markOf = (id: string): UsualMark =>
  usualMarks(
    rules.filter((rule) => rule.id === id),
    stretches,
  )[0]!;
const flange = stretches[0]!.end;

/** The demo's sections with the last stage of a role, or all of them, ending elsewhere [mm from the port]. */
function endingAt(role: Section['role'], end: number): readonly Section[] {
  const stages = stretches.filter((one) => one.role === role);
  const start = stages[0]!.start;
  const share = (end - start) / (stages.at(-1)!.end - start);
  return subject.pipe.sections.map((one) =>
    one.role === role ? { ...one, length: share * one.length } : one,
  );
}

/** What a rule finds where the demo is changed. */
function found(id: string, set: readonly string[]): number {
  const report = checkReport(loadCase(file, { set }));
  return report.rules.find((rule) => rule.id === id)?.found ?? Number.NaN;
}

const sections = (all: readonly Section[]): string[] => [`pipe.sections=${sectionsText(all)}`];

/** The demo with a role of one diameter, its neighbours led to it [mm]. */
function wide(role: Section['role'], mm: number): readonly Section[] {
  const all = subject.pipe.sections;
  const at = all.findIndex((one) => one.role === role);
  const d = mm / 1000;
  return all.map((one, k) =>
    k === at
      ? { ...one, diameter: [d, d] }
      : k === at - 1
        ? { ...one, diameter: [one.diameter[0], d] }
        : k === at + 1
          ? { ...one, diameter: [d, one.diameter[1]] }
          : one,
  );
}

describe.each([0, 1] as const)('end %i of the usual range', (k) => {
  const usualOf = (id: string): number => rules.find((rule) => rule.id === id)!.usual[k];

  test.each([
    ['diffuser-angle', 'diffuser'],
    ['baffle-angle', 'baffle'],
  ] as const)('%s: the steeper the sooner', (id, role) => {
    const { of, range } = markOf(id);
    expect(of).toBe('place');
    expect(found(id, sections(endingAt(role, range[1 - k]!)))).toBeCloseTo(usualOf(id), 6);
  });

  test('stinger-length', () => {
    const set = sections(endingAt('stinger', markOf('stinger-length').range[k]));
    expect(found('stinger-length', set)).toBeCloseTo(usualOf('stinger-length'), 6);
  });

  test('tuned-length: the baffle ends there, by a longer or shorter header', () => {
    const baffleEnd = stretches.find((one) => one.role === 'baffle')!.end;
    const by = markOf('tuned-length').range[k] - baffleEnd;
    const all = subject.pipe.sections.map((one) =>
      one.role === 'header' ? { ...one, length: one.length + by / 1000 } : one,
    );
    expect(found('tuned-length', sections(all))).toBeCloseTo(usualOf('tuned-length'), 6);
  });

  test.each([
    ['belly-diameter', 'belly'],
    ['stinger-diameter', 'stinger'],
  ] as const)('%s', (id, role) => {
    const { of, range } = markOf(id);
    expect(of).toBe('diameter');
    expect(found(id, sections(wide(role, range[k])))).toBeCloseTo(usualOf(id), 6);
  });

  test('header-entry-area: the diameter behind the transition', () => {
    const { at, range } = markOf('header-entry-area');
    expect(at).toBeCloseTo(flange + 50, 9);
    const all = subject.pipe.sections.map((one) =>
      one.role === 'header'
        ? { ...one, diameter: [range[k] / 1000, range[k] / 1000] as const }
        : one.name === 'diffuser 1'
          ? { ...one, diameter: [range[k] / 1000, one.diameter[1]] as const }
          : one,
    );
    const set = [...sections(all), `engine.passage.exitDiameter=${range[k]} mm`];
    expect(found('header-entry-area', set)).toBeCloseTo(usualOf('header-entry-area'), 6);
  });

  test('passage-exit-area', () => {
    const { at, range } = markOf('passage-exit-area');
    expect(at).toBeCloseTo(flange, 9);
    const all = subject.pipe.sections.map((one, i) =>
      i === 0 ? { ...one, diameter: [range[k] / 1000, one.diameter[1]] as const } : one,
    );
    const set = [...sections(all), `engine.passage.exitDiameter=${range[k]} mm`];
    expect(found('passage-exit-area', set)).toBeCloseTo(usualOf('passage-exit-area'), 6);
  });
});

test('a rule without a place on the drawing has no mark, one that found nothing neither', () => {
  expect(
    usualMarks(
      rules.filter(({ id }) => id === 'crankcase-compression'),
      stretches,
    ),
  ).toEqual([]);
  const unknown = rules.map((rule) => ({ ...rule, found: null }));
  expect(usualMarks(unknown, stretches)).toEqual([]);
  expect(usualMarks(rules, stretches)).toHaveLength(8);
});
