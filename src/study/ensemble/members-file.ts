/**
 * `members.csv`: a row a member, a column a path with its unit in brackets, `engine.ambient.temperature [degC]`; a comma
 * between, a point for decimals, an empty cell where a member leaves the input as the case has it. The first column numbers the members.
 */

import { linesOf } from '../../case/measured/csv-lines.ts';
import { openSource } from '../../case/text/document.ts';
import { printable, quoted } from '../../case/text/printable.ts';
import { FileProblem } from '../../case/text/problem.ts';
import type { MemberPath, Members } from './members.ts';

const MEMBER = 'member';
const MOST_MEMBERS = 100_000;

export function membersCsv({ paths, values }: Members): string {
  const head = [MEMBER, ...paths.map(({ path, unit }) => (unit === '' ? path : `${path} [${unit}]`))];
  const lines = values.map((row, k) => [k + 1, ...row.map((value) => value ?? '')].map(String));
  return `${[head, ...lines].map((cells) => cells.map(cell).join(',')).join('\n')}\n`;
}

const cell = (text: string): string => (/[",\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

/** @throws FileProblem with the line that is wrong */
export function readMembers(file: string): Members {
  const { lines } = linesOf(openSource(file));
  const wrong = (line: number, what: string): FileProblem =>
    new FileProblem(file, `${printable(file)}:${line}: ${what}`);
  const [head = [], ...rows] = lines.map(({ fields }) => fields.map(({ text }) => text));
  if (head[0] !== MEMBER)
    throw wrong(1, `a list of members begins with a column "${MEMBER}", as echocone writes it`);
  const paths = head.slice(1).map(pathOf);
  const bad = paths.findIndex(({ path }) => !path.includes('.'));
  if (bad >= 0) throw wrong(1, `${quoted(head[bad + 1] ?? '')} is no path of a case with its unit`);
  if (new Set(paths.map(({ path }) => path)).size < paths.length) throw wrong(1, 'a path stands twice');
  const values: (number | null)[][] = [];
  for (const [k, cells] of rows.entries()) {
    const at = lines[k + 1]!.number;
    if (cells.length !== head.length)
      throw wrong(at, `has ${cells.length} cells; the first line has ${head.length}`);
    const row = cells.slice(1).map((text) => (text === '' ? null : Number(text)));
    const faulty = row.findIndex((value) => value !== null && !Number.isFinite(value));
    if (faulty >= 0) throw wrong(at, `${quoted(cells[faulty + 1] ?? '')} is no number`);
    values.push(row);
  }
  if (values.length === 0) throw wrong(1, 'there is no member in it');
  if (values.length > MOST_MEMBERS) throw wrong(1, `at most ${MOST_MEMBERS} members are taken`);
  return { paths, values };
}

function pathOf(text: string): MemberPath {
  const [, path = '', unit = ''] = /^(.*?)(?:\s*\[([^\]]*)\])?$/.exec(text.trim()) ?? [];
  return { path, unit };
}
