/**
 * What the sweep page is given: the sweep's result as it stands in its file, and what else is known about the inputs.
 * What a page needs of a case is declared here, because it knows nothing of the rooms that read and compute. Lengths in m,
 * pressures in Pa.
 */

import type { AdviceReport } from '../../src/findings/answers/advice.ts';
import type { BandsAnswer } from '../../src/findings/answers/bands.ts';
import type { WeatherEffect } from '../../src/findings/answers/weather.ts';
import type { OutlineSection, SpeedRecord } from '../../src/findings/record.ts';
import type { SweepRow } from '../../src/findings/row.ts';

/** One input as the reader sees it. */
export interface InputLine {
  readonly path: string;
  /** With its unit. */
  readonly value: string;
  readonly assumed: boolean;
  readonly reason?: string;
  /** How far a stated change of it moves the answer. */
  readonly moves?: {
    readonly change: string;
    readonly leadDeg: number | null;
    readonly torqueNm: number | null;
  };
}

export interface SweepPageCase {
  readonly name: string;
  readonly note: string;
  readonly engine: { readonly name: string; readonly ambient: { readonly pressure: number } };
  readonly pipe: { readonly name: string };
  readonly run: { readonly cell: number; readonly scheme: string; readonly targetSpeed: number | null };
  readonly assumed: readonly { readonly path: string; readonly value: string; readonly reason: string }[];
}

export interface SweepPageResult {
  readonly program: string;
  readonly case: SweepPageCase;
  readonly outline: readonly OutlineSection[];
  /** [m3] */
  readonly displacement: number;
  readonly rows: readonly SweepRow[];
  readonly speeds: readonly SpeedRecord[];
  readonly failures: readonly { readonly speedRpm: number; readonly reason: string }[];
}

export interface SweepPageExtras {
  /** Inputs to list; without it the assumed ones of the case are listed. */
  readonly inputs?: readonly InputLine[];
  /** Where their moves were computed: speed [rpm] and cell length [m]. */
  readonly movesAt?: { readonly speedRpm: number; readonly cell: number };
  /** What weather and mixture do at that speed. */
  readonly weather?: readonly WeatherEffect[];
  /** What was run to improve the pipe; absent: nothing. */
  readonly advice?: AdviceReport;
  /** How sure it is; absent: not asked for. */
  readonly sure?: BandsAnswer;
  /** When it was computed, as it is to be printed. */
  readonly date?: string;
}
