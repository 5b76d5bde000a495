/**
 * The handbook's time-areas, needed against available: time open × area at the crank angle midway between shut and full open
 * ÷ displacement [s/m], 1e-4 s/cm being 0.01 s/m. Jennings, Two-Stroke Tuner's Handbook (1973), gives a range for each port.
 */
import type { Engine } from '../model/engine.ts';
import type { Crank } from './crank.ts';
import { intakeTable, samplePort } from './schedule.ts';
import type { TimeAreas } from './time-area.ts';

const QUOTED = 'Jennings (1973), as quoted elsewhere';

/** Ranges of the figure [s/m], and where they are from. */
export const HANDBOOK_TIME_AREAS = {
  exhaust: { usual: [0.014, 0.015], source: QUOTED },
  transfer: { usual: [0.008, 0.01], source: QUOTED },
  'piston-port': { usual: [0.014, 0.016], source: QUOTED },
  disc: { usual: [0.018, 0.019], source: 'Jennings (1973), value from memory' },
} as const;

export interface HandbookTimeArea {
  readonly port: 'exhaust' | 'transfer' | 'intake';
  readonly found: number;
  readonly usual: readonly [low: number, high: number];
  readonly source: string;
}

/** Exhaust, transfer and, where it has a range, intake of an engine at the speed of its time-areas. */
export function handbookTimeAreas(
  { bore, intake }: Engine,
  crank: Crank,
  displacement: number,
  areas: TimeAreas,
): readonly HandbookTimeArea[] {
  const ports: HandbookTimeArea[] = [
    { port: 'exhaust', found: areas.exhaustHandbook, ...HANDBOOK_TIME_AREAS.exhaust },
    { port: 'transfer', found: areas.transferHandbook, ...HANDBOOK_TIME_AREAS.transfer },
  ];
  const table = intakeTable(crank, bore, intake);
  if (table === null || intake.kind === 'reed') return ports;
  const open = table.closesDeg - table.opensDeg;
  const area = samplePort(table, table.opensDeg + open / 4);
  const found = (open * area) / (6 * areas.rpm * displacement);
  return [...ports, { port: 'intake', found, ...HANDBOOK_TIME_AREAS[intake.kind] }];
}
