/**
 * Cases that depart from the Saltmarsh single in one thing, and what a rule says of them.
 */

import type { Case } from '../../src/model/case.ts';
import type { Engine } from '../../src/model/engine.ts';
import type { PortWindow } from '../../src/model/port-window.ts';
import type { Section } from '../../src/model/section.ts';
import { checkReport } from '../../src/timing/rules/report.ts';
import { engine, exhaustWindow, pipe, saltmarsh, section, transferWindow } from './saltmarsh.ts';

export const MM = 1e-3;
export const withEngine = (changes: Partial<Engine>): Case => ({
  ...saltmarsh,
  engine: { ...engine, ...changes },
});
export const withExhaust = (...windows: Partial<PortWindow>[]) =>
  withEngine({
    exhaust: { ...engine.exhaust, windows: windows.map((w) => ({ ...exhaustWindow, ...w })) },
  });
export const withTransfers = (...windows: Partial<PortWindow>[]) =>
  withEngine({
    transfers: { ...engine.transfers, windows: windows.map((w) => ({ ...transferWindow, ...w })) },
  });
export const withPassage = (changes: Partial<Engine['passage']>) =>
  withEngine({ passage: { ...engine.passage, ...changes } });
export const withSections = (change: (part: Section) => Section): Case => ({
  ...saltmarsh,
  pipe: { ...pipe, sections: pipe.sections.map(change) },
});
export const resized = (name: string, length: number, left: number, right: number) =>
  withSections((part) =>
    part.name.startsWith(name) ? section(part.name, part.role, length, left, right) : part,
  );
export const withTarget = (targetSpeed: number): Case => ({
  ...saltmarsh,
  run: { ...saltmarsh.run, targetSpeed },
});

/** What a rule says of a case; throws where there is none of that id. */
export function ruleOf(subject: Case, id: string, bmep?: number) {
  const found = checkReport(subject, bmep === undefined ? {} : { bmep }).rules.find((r) => r.id === id);
  if (!found) throw new Error(`no rule ${id}`);
  return found;
}
