/** The sweep page alive: figures drawn, speeds played through, the same instant marked in both crank-angle figures. */

import { blowdown, gasExchange, machTrace, temperatureAlong } from '../figures/breathing.ts';
import { landing, middleLead } from '../figures/landing.ts';
import { outputCurves } from '../figures/output-curves.ts';
import { plugbackTiming } from '../figures/plugback-timing.ts';
import { portTraces } from '../figures/port-traces.ts';
import { eventsOf } from '../figures/sweep-row.ts';
import { waveDiagram } from '../figures/wave-diagram.ts';
import { type DrawnSpeed, type PackedSweep, unpackSpeed } from '../pages/pack-sweep.ts';
import { degrees, fixed, kilowatts, newtonMetres, percent, rpm } from '../theme/numbers.ts';
import { hideCursor, showCursor } from './linked-cursor.ts';
import { player } from './player.ts';
import { Board, pageData } from './plotly.ts';

const sweep = pageData<PackedSweep>();
const board = new Board();
let chosen: DrawnSpeed | null = null;

const empty = { data: [], layout: {} };
board.add('timing', (look) => plugbackTiming(sweep.rows, look));
board.add('output', (look) => outputCurves(sweep.rows, look));
board.add('exchange', (look) => gasExchange(sweep.rows, look));
board.add('waves', (look) =>
  chosen ? portTraces(chosen.traces, eventsOf(chosen.row), sweep.ambientBar, look) : empty,
);
board.add('diagram', (look) =>
  chosen
    ? waveDiagram(chosen.field, chosen.paths, sweep.outline, eventsOf(chosen.row), sweep.ambientBar, look)
    : empty,
);
board.add('blowdown', (look) => blowdown(sweep.rows, look));
board.add('mach', (look) => (chosen ? machTrace(chosen.traces, eventsOf(chosen.row), look) : empty));
board.add('heat', (look) => (chosen ? temperatureAlong(chosen.along, look) : empty));

const verdictOf = ({ row, notes }: DrawnSpeed): string => {
  const lead = middleLead(row);
  const share = percent(row.plugback_share_before_closing);
  const where = {
    lands: `lands as wanted, its middle ${degrees(lead)} before the exhaust closes, ${share} of it in by then`,
    early: 'is back too early, its middle before the transfers close',
    late:
      lead !== null && lead < 0
        ? `comes too late, its middle ${degrees(-lead)} after the exhaust has closed, ${share} of it in by then`
        : `comes too late, only ${share} of it in when the exhaust closes`,
    none: 'is not to be found',
  }[landing(row)];
  const remarks = [...(row.settled ? [] : ['Not settled.']), ...notes].join(' ');
  return `The wave ${where}. ${newtonMetres(row.torque_nm)}, ${kilowatts(row.power_kw)}. ${remarks}`;
};

function choose(index: number, redraw: boolean): string {
  chosen = unpackSpeed(sweep, index) ?? chosen;
  if (!chosen) return '';
  const verdict = document.getElementById('verdict');
  if (verdict) verdict.textContent = verdictOf(chosen);
  if (redraw) for (const id of ['waves', 'diagram', 'mach', 'heat']) board.draw(id);
  return rpm(chosen.row.speed_rpm);
}

function readout(angle: number): void {
  const place = document.getElementById('readout');
  if (!place || !chosen) return;
  const { traces } = chosen;
  const count = traces.angleDeg.length;
  const index = Math.round(((angle - (traces.angleDeg[0] ?? 0)) / 360) * (count - 1));
  place.textContent = `At ${degrees(angle)}: port ${fixed(traces.port[index], 2)} bar, outgoing ${fixed(traces.outgoing[index], 2)}, returning ${fixed(traces.returning[index], 2)}, cylinder ${fixed(traces.cylinder[index], 2)}, crankcase ${fixed(traces.crankcase[index], 2)} bar.`;
}

function link(): void {
  const waves = board.place('waves');
  const diagram = board.place('diagram');
  if (!waves || !diagram) return;
  const mark = (angle: unknown): void => {
    if (typeof angle !== 'number') return;
    showCursor(waves, angle, 'upright');
    showCursor(diagram, angle, 'level');
    readout(angle);
  };
  const clear = (): void => {
    hideCursor(waves);
    hideCursor(diagram);
  };
  waves.on?.('plotly_hover', (event) => mark(event.points[0]?.x));
  diagram.on?.('plotly_hover', (event) => mark(event.points[0]?.y));
  waves.on?.('plotly_unhover', clear);
  diagram.on?.('plotly_unhover', clear);
}

player(choose);
board.redrawAll(link);
