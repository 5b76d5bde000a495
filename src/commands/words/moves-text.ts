/** How far inputs move the answer: beside the inputs for the page, and the strongest for the terminal. */

import type { Move, Moves } from '../../study/sweep/sensitivity.ts';
import { folded } from '../frame/folded.ts';
import { type Column, tableText } from '../frame/table.ts';

/** Lines shown in the terminal. */
const SHOWN = 8;

/** Inputs with their moves; those of a group, such as the wall, stand beside the first input of it. */
export function inputsWithMoves<Input extends { readonly path: string }>(
  inputs: readonly Input[],
  moves: readonly Move[],
): (Input & { moves?: Omit<Move, 'path'> })[] {
  const open = new Map(moves.map((move) => [move.path, move]));
  return inputs.map((input) => {
    const group = [...open.keys()].find((path) => input.path === path || input.path.startsWith(`${path}.`));
    const move = group === undefined ? undefined : open.get(group);
    if (group === undefined || move === undefined) return input;
    open.delete(group);
    const { change, leadDeg, torqueNm } = move;
    return { ...input, moves: { change, leadDeg, torqueNm } };
  });
}

const signed = (value: number | null, digits: number): string => {
  if (value === null) return '-';
  const text = value.toFixed(digits).replace(/^-(0\.?0*)$/, '$1');
  return Number(text) > 0 ? `+${text}` : text;
};

const columns: readonly Column<Move>[] = [
  { header: 'Input', align: 'left', text: (m) => m.path },
  { header: 'changed by', align: 'left', text: (m) => m.change },
  { header: 'earlier', unit: 'deg', text: (m) => signed(m.leadDeg, 1) },
  { header: 'torque', unit: 'Nm', text: (m) => signed(m.torqueNm, 2) },
];

/** The inputs that move the wave most. */
export function movesText({ of, speedRpm, cell }: Moves): string {
  const size = (value: number | null): number => Math.abs(value ?? 0);
  const strongest = [...of].sort(
    (a, b) => size(b.leadDeg) - size(a.leadDeg) || size(b.torqueNm) - size(a.torqueNm),
  );
  const shown = strongest.slice(0, SHOWN);
  const rest = of.length - shown.length;
  const more = rest > 0 ? ` ${rest} more move it less; the page has them.` : '';
  const where = `at ${speedRpm} rpm, on cells of ${Number((1000 * cell).toPrecision(4))} mm`;
  return `\n${folded(`How far inputs that were not measured move the answer ${where}: how much earlier the middle of the plug-back comes, -: later.${more}`)}\n${tableText(columns, shown)}`;
}
