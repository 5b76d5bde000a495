/**
 * Who of several drafts has the most power and the broadest torque. Nobody wins by less than the computed speeds can tell: two
 * bands that differ by less than a step, two powers by less than a hundredth, are a tie.
 */

import type { SpeedSpan } from '../band.ts';
import type { ComparedDraft } from './compare-summary.ts';

export interface BestOfDrafts {
  /** Speeds that all drafts were run over, where they are not those of each; null: they are [rpm]. */
  readonly over: SpeedSpan | null;
  /** How many drafts were judged. */
  readonly of: number;
  readonly strong: readonly ComparedDraft[];
  /** Most power [kW], where, and whether it is at least that. */
  readonly power: number;
  readonly powerSpeed: number | null;
  readonly powerAtEnd: boolean;
  readonly wide: readonly ComparedDraft[];
  readonly width: number;
  readonly widthOpen: boolean;
}

/** Powers that differ by less than this share are a tie: the mesh moves them by as much. */
const TIE = 0.01;

/** @param over the speeds that all were run over, where that is not the range of each; null: it is */
export function bestOf(drafts: readonly ComparedDraft[], over: SpeedSpan | null): BestOfDrafts | null {
  const powers = drafts.map(({ summary }) => summary.peakPower ?? 0);
  const widths = drafts.map(({ summary }) => summary.torqueBand ?? 0);
  const [power, width] = [Math.max(...powers), Math.max(...widths)];
  if (drafts.length === 0 || !(power > 0)) return null;
  const strong = drafts.filter((_, k) => (powers[k] ?? 0) > (1 - TIE) * power);
  const wide = drafts.filter(({ computed }, k) => width - (widths[k] ?? 0) < Math.max(1, computed.step));
  const first = drafts[powers.indexOf(power)];
  const widest = drafts[widths.indexOf(width)];
  return {
    over,
    of: drafts.length,
    strong,
    power,
    powerSpeed: first?.summary.peakPowerSpeed ?? null,
    powerAtEnd: first?.powerAtEnd ?? false,
    wide,
    width,
    widthOpen: widest?.torqueBandOpen ?? false,
  };
}
