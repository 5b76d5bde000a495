/** A case: an engine, a pipe, and how the computation is run. */

import type { Engine } from '../../model/engine.ts';
import type { Pipe } from '../../model/pipe.ts';
import type { RunSettings } from '../../model/run-settings.ts';
import { cellsOf, MOST_CELLS } from '../../pipe/cells.ts';
import { diameterOf } from '../../pipe/circle.ts';
import { meshedLengths } from '../../pipe/exhaust.ts';
import { bySort, list } from '../keys/branches.ts';
import { ofKind } from '../keys/kinds.ts';
import { choice, count, quantity, share, text } from '../keys/leaves.ts';
import { assumed, group, optional, record, required, setting } from '../keys/record.ts';
import { checked, type Judge, type Schema } from '../keys/schema.ts';
import { pipeSchema } from '../pipe/pipe-schema.ts';
import { isJump } from '../pipe/section-schema.ts';
import type { Node } from '../text/tree.ts';
import { writeQuantity } from '../text/units.ts';
import { engineSchema } from './engine-from-keys.ts';

/** A case without the ledger that reading it leaves. */
export interface CaseParts {
  readonly name: string;
  readonly note: string;
  readonly engine: Engine;
  readonly pipe: Pipe;
  readonly run: RunSettings;
}

const MOST_SPEEDS = 500;
const speed = quantity('speed', { atLeast: '100 rpm', atMost: '40000 rpm' });

/** Speeds from the first to the last in equal steps, the last included where a step meets it [rpm]. */
export function speedRange(from: number, to: number, step: number): readonly number[] {
  const steps = Math.floor((to - from) / step + 1e-9);
  return Array.from({ length: steps + 1 }, (_, index) => Number((from + index * step).toPrecision(12)));
}

export const speeds = bySort<readonly number[]>({
  scalar: checked(speed, (one) => [one]),
  list: checked(list(speed, 1, MOST_SPEEDS), (listed, judge) => {
    const fall = listed.findIndex((value, index) => index > 0 && value <= listed[index - 1]!);
    return fall < 0 ? listed : judge.refuse([fall], 'speeds have to ascend');
  }),
  map: checked(
    record('a range of speeds', {
      from: required(speed, 'First speed.'),
      to: required(speed, 'Last speed.'),
      step: required(quantity('speed', { above: '0 rpm' }), 'Distance from one to the next.'),
    }),
    ({ from, to, step }, judge) => {
      if (to < from) return judge.refuse(['to'], 'speeds have to ascend: the last is below the first');
      if ((to - from) / step >= MOST_SPEEDS)
        return judge.refuse(['step'], `gives more than ${MOST_SPEEDS} speeds`);
      return speedRange(from, to, step);
    },
  ),
});

export const cell = quantity('length', { atLeast: '0.1 mm', atMost: '50 mm' });
export const courant = share({ atLeast: '0.05', atMost: '1' });
export const scheme = choice('conservative', 'finite-volume', 'mesh');
export const kernel = choice('auto', 'two-lane', 'plain');
export const frictionModel = checked(choice('haaland', 'none'), (word) => word === 'haaland');
export const mixing = share({ atLeast: '0', atMost: '10' });
const heatFactor = share({ atLeast: '0', atMost: '5' });
export const heatModel = choice('pulsating', 'colburn', 'none');

const COURANT = 'a twentieth below the limit; against 0.8 torque in the band moves by 0.03 % at most';

const run = checked(
  record('settings of the run', {
    speeds: setting(
      speeds,
      'Speeds of the sweep: a list, or { from, to, step }.',
      '{ from: 6000 rpm, to: 13000 rpm, step: 250 rpm }',
      'a wide band',
    ),
    targetSpeed: optional(speed, 'Speed the pipe is meant for.'),
    cell: setting(cell, 'Length of a cell of the mesh.', '5 mm', 'fine enough for half a degree of crank'),
    courant: setting(courant, 'Courant number.', '0.95', COURANT),
    scheme: setting(
      scheme,
      'Scheme for the ducts; finite-volume is the second opinion, mesh the textbook method.',
      'conservative',
      'keeps mass and energy',
    ),
    kernel: setting(
      kernel,
      'Form of the conservative scheme: two-lane is compiled and faster, auto takes it where it can be had.',
      'auto',
      'both agree to round-off, and the faster saves two thirds of the time',
    ),
    maxCycles: setting(
      count(1, 2000),
      'Cycles after which a speed that has not settled is given up.',
      '120',
      'the gas takes some twenty cycles down the pipe, and at the edge of the band an engine creeps for a hundred',
    ),
    friction: setting(
      frictionModel,
      'Wall friction in the ducts.',
      'haaland',
      'Haaland 1983, with roughness',
    ),
    mixing: assumed(
      mixing,
      'Factor on how far a turbulent stream mixes along the axis of a duct; 0 switches it off.',
      '1',
      'Taylor 1954 for lengths of many diameters, his factor from memory; 0.5 to 3 are plausible, more near a port (no source)',
    ),
    wallHeat: setting(
      heatModel,
      'Heat to the walls of the ducts.',
      'pulsating',
      'fit to exhaust data, Nu = 0.07 Re^0.75 (Depcik & Assanis 2002)',
    ),
    wallHeatFactor: assumed(
      heatFactor,
      'Factor on the heat to the walls of the exhaust.',
      '1',
      'the fit is an average over exhaust systems; 0.7 to 2 are plausible (no source)',
    ),
  }),
  (settings, judge, node) => {
    const { speeds: listed, targetSpeed } = settings;
    const [first, last] = [listed[0]!, listed.at(-1)!];
    if (targetSpeed !== null && (targetSpeed < first || targetSpeed > last)) {
      const why = `the target of ${targetSpeed} rpm is outside the sweep, ${first} to ${last} rpm`;
      const asked =
        node.kind === 'map' && node.entries.some((entry) => entry.key === 'speeds' && entry.override);
      if (!asked) return judge.refuse(['targetSpeed'], why);
      judge.warn(`Mind that ${why}.`);
    }
    return settings;
  },
);

/** Names to use where the files state none. */
export interface FallbackNames {
  readonly case: string;
  readonly engine: string;
  readonly pipe: string;
}

/** The keys of a case, for whoever looks for a misspelt one before it is read. */
export const CASE_KEYS: readonly string[] = ['kind', 'name', 'note', 'engine', 'pipe', 'run'];

export function caseSchema(names: FallbackNames): Schema<CaseParts> {
  const keys = record('a case', {
    name: optional(text(200), 'Name of the case.'),
    note: optional(text(4000, 'lines'), 'Anything worth remembering.'),
    engine: required(fileOr(engineSchema(names.engine)), 'The engine: the path of its file, or its keys.'),
    pipe: required(fileOr(pipeSchema(names.pipe)), 'The pipe: the path of its file, or its keys.'),
    run: group(run, 'How the computation is run.'),
  });
  return checked(ofKind('case', keys), (stated, judge) => {
    if (!flangeFits(stated.engine, stated.pipe, judge)) return undefined;
    const cells = cellsOf(meshedLengths(stated), stated.run.cell);
    if (cells > MOST_CELLS)
      return judge.refuse(
        ['run', 'cell'],
        `gives ${cells} cells; at most ${MOST_CELLS} are taken`,
        'longer cells, or a shorter pipe: 5 mm resolve half a degree of crank',
      );
    return { ...stated, name: stated.name ?? names.case, note: stated.note ?? '' };
  });
}

/** What a case may name by the path of its file; by the time it is read, the file has taken the place of its path. */
function fileOr<T>(inner: Schema<T>): Schema<T> {
  const path = { type: 'string', description: 'Path of the file, from the folder of this one.' };
  return {
    takes: `the path of a file, or ${inner.takes}`,
    // A path that is left is of a file that could not be read, and that was said.
    read: (node, at) => (isPath(node) ? undefined : inner.read(node, at)),
    jsonSchema: () => ({ anyOf: [path, inner.jsonSchema()] }),
  };
}

function isPath(node: Node): boolean {
  return node.kind === 'scalar' && typeof node.value === 'string' && node.text.trim() !== '';
}

/** The pipe has to begin as the passage ends, or say that it does not. */
function flangeFits(engine: Engine, pipe: Pipe, judge: Judge): boolean {
  const exit = diameterOf(engine.passage.exitArea);
  const [entry] = pipe.sections[0]!.diameter;
  if (!isJump(exit, entry) || pipe.sections[0]!.step) return true;
  const [from, to] = [exit, entry].map((value) => writeQuantity(value, 'length', 'mm', 5));
  judge.refuse(
    ['pipe', 'sections', 0, 'diameter'],
    `the passage ends with the area of a ${from} bore, the pipe begins with ${to}`,
    'make them equal, or add "step: true" to the first section if the jump is meant',
  );
  return false;
}
