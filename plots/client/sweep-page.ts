/** The sweep page alive: figures drawn, speeds played through, the same instant marked in both crank-angle figures. */

import { blowdown, gasExchange, machTrace } from '../figures/breathing.ts';
import { driverDots } from '../figures/driver-dots.ts';
import { gauges } from '../figures/gauges.ts';
import { outputCurves } from '../figures/output-curves.ts';
import { plugbackTiming } from '../figures/plugback-timing.ts';
import { portTraces } from '../figures/port-traces.ts';
import { purity } from '../figures/purity.ts';
import { eventsOf } from '../figures/row-events.ts';
import { type FlangeFlow, temperatureAlong } from '../figures/temperature-along.ts';
import { waveDiagram } from '../figures/wave-diagram.ts';
import { inputName } from '../pages/input-name.ts';
import { landingSentence } from '../pages/landing-words.ts';
import { type DrawnSpeed, type PackedSweep, unpackSpeed } from '../pages/packed-sweep.ts';
import { asPrinted, degrees, fixed, kilowatts, newtonMetres, rpm } from '../theme/numbers.ts';
import { fileDate } from './file-date.ts';
import { hideCursor, showCursor } from './linked-cursor.ts';
import { player } from './player.ts';
import { Board, pageData } from './plotly.ts';

const sweep = pageData<PackedSweep>();
const board = new Board();
let chosen: DrawnSpeed | null = null;
/** What stands in the readout while nothing is pointed at. */
const restingText = document.getElementById('readout')?.textContent ?? '';

const empty = { data: [], layout: {} };
board.add('timing', (look) => plugbackTiming(sweep.rows, look, sweep.bands));
board.add('output', (look) => outputCurves(sweep.rows, look, sweep.bands));
if (sweep.drivers.length > 0) board.add('drivers', (look) => driverDots(sweep.drivers, inputName, look));
board.add('exchange', (look) => gasExchange(sweep.rows, look));
board.add('waves', (look) =>
  chosen ? portTraces(chosen.traces, eventsOf(chosen.row), sweep.ambientBar, look) : empty,
);
board.add('diagram', (look) =>
  chosen
    ? waveDiagram(chosen.field, chosen.paths, sweep.outline, eventsOf(chosen.row), sweep.ambientBar, look)
    : empty,
);
board.add('blowdown', (look) => blowdown(sweep.rows, sweep.blowdownMach, look));
board.add('gauges', (look) => gauges(sweep.rows, look));
board.add('mach', (look) => (chosen ? machTrace(chosen.traces, eventsOf(chosen.row), look) : empty));
board.add('purity', (look) => (chosen ? purity(chosen.purity, look) : empty));
board.add('heat', (look) => (chosen ? temperatureAlong(chosen.along, flangeFlow(chosen), look) : empty));

/** The flange is where the engine's own passage ends. */
function flangeFlow({ row }: DrawnSpeed): FlangeFlow | null {
  const kelvin = row.exhaust_gas_temperature_k;
  if (kelvin === null) return null;
  const passage = sweep.outline.filter((stretch) => stretch.role === 'passage').at(-1);
  return { position: passage?.end ?? 0, temperature: kelvin - 273.15 };
}

const write = (id: string, text: string): void => {
  const place = document.getElementById(id);
  if (place) place.textContent = text;
};

function choose(index: number, redraw: boolean): string {
  chosen = unpackSpeed(sweep, index) ?? chosen;
  if (!chosen) return '';
  const { row, notes } = chosen;
  write('verdict', `${landingSentence(row)} ${newtonMetres(row.torque_nm)}, ${kilowatts(row.power_kw)}.`);
  write('remarks', [...(row.settled ? [] : ['Not settled.']), ...notes.map(asPrinted)].join(' '));
  write('readout', restingText);
  if (redraw) for (const id of ['waves', 'diagram', 'mach', 'purity', 'heat']) board.draw(id);
  return rpm(row.speed_rpm);
}

/** Reads an instant out, and where a place in the pipe is pointed at, the pressure there. */
function readout(angle: number, place: number | null): void {
  if (!chosen) return;
  const { traces, field } = chosen;
  const at = (values: ArrayLike<number>, share: number): number => Math.round(share * (values.length - 1));
  const turn = (angle - (traces.angleDeg[0] ?? 0)) / 360;
  const index = at(traces.angleDeg, turn);
  const bars = (values: ArrayLike<number>): string => fixed(values[index], 2);
  const length = field.positions[field.positions.length - 1] ?? 1;
  const there =
    place === null
      ? ''
      : `; ${fixed(place, 0)} mm along: ${fixed(field.pressure[at(field.angleDeg, turn)]?.[at(field.positions, place / length)], 2)}`;
  write(
    'readout',
    `${degrees(angle)} [bar]: port ${bars(traces.port)}, out ${bars(traces.outgoing)}, back ${bars(traces.returning)}, cylinder ${bars(traces.cylinder)}, crankcase ${bars(traces.crankcase)}${there}`,
  );
}

function link(): void {
  const waves = board.place('waves');
  const diagram = board.place('diagram');
  if (!waves || !diagram) return;
  const mark = (angle: unknown, place: unknown): void => {
    if (typeof angle !== 'number') return;
    showCursor(waves, angle, 'x');
    showCursor(diagram, angle, 'y');
    readout(angle, typeof place === 'number' ? place : null);
  };
  const clear = (): void => {
    hideCursor(waves);
    hideCursor(diagram);
    write('readout', restingText);
  };
  waves.on?.('plotly_hover', (event) => mark(event.points[0]?.x, null));
  diagram.on?.('plotly_hover', (event) => mark(event.points[0]?.y, event.points[0]?.x));
  waves.on?.('plotly_unhover', clear);
  diagram.on?.('plotly_unhover', clear);
}

fileDate();
player(choose);
board.redrawAll(link);
