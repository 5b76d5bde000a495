/** What a reader has to know of a speed beside its numbers. */

import type { SweepRow } from '../../findings/row.ts';
import { meanPistonSpeed } from '../../timing/crank.ts';
import { samplePort } from '../../timing/schedule.ts';
import type { EngineNetwork } from '../build.ts';
import { beyondFits } from './beyond-fits.ts';
import type { MeanCycle } from './mean-cycle.ts';
import { settlingNotes } from './settling-note.ts';
import { spoilingNotes } from './spoiling.ts';
import type { WhileTransferring } from './while-transferring.ts';
import type { Settled } from './window.ts';

/** Mean piston speed beyond which engines rarely go [m/s]. Common practice, no source. */
const FAST_PISTON = 26;
/** A ledger of mass that misses by this share of the charge a cycle is told. */
const MASS_LOST = 1e-3;
/** Share of the fresh charge left unburnt, beyond round-off, that is told. */
const UNBURNT = 1e-9;
/** Spread of the peak that is told [deg]. */
const PEAK_WANDERS = 1.5;

export function notesOf(
  engine: EngineNetwork,
  settled: Settled,
  cycle: MeanCycle,
  row: SweepRow,
  during: WhileTransferring,
): string[] {
  return [
    ...settlingNotes(settled),
    ...crests(engine, settled, cycle),
    ...merging(engine, cycle),
    ...spoilingNotes(engine, row, during),
    ...absent(row),
    ...beyondFits(engine, row),
    ...march(engine, settled, row),
    ...limits(engine),
  ];
}

function crests(engine: EngineNetwork, { spread }: Settled, { plugBack }: MeanCycle): string[] {
  if (plugBack.peakDeg === null)
    return ["The returning wave never rises above ambient pressure where the baffle's echo is expected."];
  const { opensDeg } = engine.schedule.events.exhaust;
  if (plugBack.otherCrestDeg !== null)
    return [
      `The plug-back has two crests all but equally high, at ${(opensDeg + plugBack.peakDeg).toFixed(0)} and ` +
        `${(opensDeg + plugBack.otherCrestDeg).toFixed(0)} deg: go by its middle, not by its peak.`,
    ];
  return spread.plugBackDeg !== null && spread.plugBackDeg > PEAK_WANDERS
    ? [
        `The plug-back's peak wanders by ${spread.plugBackDeg.toFixed(1)} deg from cycle to cycle: go by its middle.`,
      ]
    : [];
}

/** Shares of another wave beyond which it is said to merge with the plug-back, or to part from it [-]. */
const MERGES = 0.02;

function merging(engine: EngineNetwork, { plugBack: { beside } }: MeanCycle): string[] {
  if (beside === null || beside.counted < MERGES || beside.counted > 1 - MERGES) return [];
  const { opensDeg } = engine.schedule.events.exhaust;
  return [
    `Two waves merge here: that at ${(opensDeg + beside.deg).toFixed(0)} deg counts as part of the plug-back by ` +
      `${(100 * beside.counted).toFixed(0)} %, so that onset, middle and end lie between those of one and of both.`,
  ];
}

/** Why a share is left empty. */
function absent({ delivery_ratio: delivery, trapping_efficiency: trapping }: SweepRow): string[] {
  if (delivery === null)
    return ['More fresh gas left by the intake than came: no delivery ratio and no trapping efficiency.'];
  return trapping === null
    ? [
        'The cylinder kept more fresh gas than the intake delivered, some of it from the pipe: no trapping efficiency.',
      ]
    : [];
}

function march(engine: EngineNetwork, { window }: Settled, row: SweepRow): string[] {
  const notes: string[] = [];
  const rejected = window.reduce((sum, { book }) => sum + book.rejected, 0);
  if (rejected > 0) notes.push(`${rejected} steps were rejected and taken again, smaller.`);
  const massError = row.mass_balance_error ?? 0;
  if (massError > MASS_LOST)
    notes.push(
      `${(100 * massError).toFixed(1)} % of the trapped mass is gained or lost in a cycle by the ` +
        `scheme "${engine.subject.run.scheme}".`,
    );
  const unconverged = window.reduce((sum, { book }) => sum + book.unconverged, 0);
  if (unconverged > 0)
    notes.push(`${unconverged} iterations at duct ends or in cells ended short of their tolerance.`);
  const unburnt = Math.max(...window.map(({ book }) => book.unburnt / book.trappedFresh));
  if (unburnt > UNBURNT)
    notes.push(`${(100 * unburnt).toPrecision(2)} % of the fresh charge had left before it could burn.`);
  if (engine.subject.run.scheme === 'mesh' && engine.subject.run.mixing > 0)
    notes.push('The scheme "mesh" does not mix gas along the ducts: run.mixing counts for nothing here.');
  if (row.echo_gain === null) notes.push('The pulse of a first cycle could not be computed: no echo gain.');
  return notes;
}

function limits(engine: EngineNetwork): string[] {
  const notes: string[] = [];
  const { schedule, exhaust, subject, rpm } = engine;
  const passage = exhaust.port.end.area;
  const { outFull } = subject.engine.exhaust.discharge;
  const widest = outFull * samplePort(schedule.exhaustStream, schedule.volumes.crank.bottomDeg);
  if (widest > passage)
    notes.push(
      `The exhaust port's effective area reaches ${(1e6 * widest).toFixed(0)} mm2, but its passage begins with ` +
        `${(1e6 * passage).toFixed(0)} mm2: the port counts as no wider.`,
    );
  const speed = meanPistonSpeed(schedule.volumes.crank, rpm);
  if (speed > FAST_PISTON)
    notes.push(
      `Mean piston speed ${speed.toFixed(1)} m/s is beyond common practice (about 23 to 24, no source).`,
    );
  return notes;
}
