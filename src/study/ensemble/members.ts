/**
 * Members of an ensemble: the same engine with other values of what is not known exactly. A member is a list of values, one
 * a path; of a draft it becomes the overrides of those paths that the draft has, so the same members serve every draft.
 */

import { MEMBER_SEED, memberScores } from './scores.ts';
import { valueOfScore } from './spread.ts';
import { type UncertainInput, valueText } from './uncertain-inputs.ts';

/** A path and the unit of its values. */
export interface MemberPath {
  readonly path: string;
  readonly unit: string;
}

export interface Members {
  readonly paths: readonly MemberPath[];
  /** `values[member][path]`; null: the member leaves it as the case has it. */
  readonly values: readonly (readonly (number | null)[])[];
}

/** Members of one case. */
export function drawMembers(inputs: readonly UncertainInput[], count: number, seed = MEMBER_SEED): Members {
  return membersAt(inputs, memberScores(inputs, count, seed));
}

/** Members from normal scores, `scores[member][input]`. */
export function membersAt(
  inputs: readonly UncertainInput[],
  scores: readonly (readonly number[])[],
): Members {
  return {
    paths: inputs.map(({ path, unit }) => ({ path, unit })),
    values: scores.map((row) =>
      row.map((score, k) => Number(valueOfScore(inputs[k]!, score).toPrecision(8))),
    ),
  };
}

/** The overrides of one member, as `--set` takes them. */
export function overridesOf({ paths, values }: Members, member: number): readonly string[] {
  return paths.flatMap((one, k) => {
    const value = values[member]?.[k] ?? null;
    return value === null ? [] : [`${one.path}=${valueText(one, value)}`];
  });
}

/** Inputs of a draft, and whose pipe it has: errors of measuring one pipe are not those of another. */
export interface DraftInputs {
  readonly inputs: readonly UncertainInput[];
  readonly pipe: string;
}

/** An input by the name under which drafts share its score. */
const sharedName = ({ path }: UncertainInput, pipe: string): string =>
  /^pipe\.(sections|bends)\./.test(path) ? `${path} of ${pipe}` : path;

/**
 * Members of several drafts: an input that several have gets the same score in all, so a hot wall is hot in each of them
 * however hot each draft's is. Inputs are drawn in the order in which the drafts first name them.
 */
export function drawTogether(
  drafts: readonly DraftInputs[],
  count: number,
  seed = MEMBER_SEED,
): readonly Members[] {
  const all = new Map<string, UncertainInput>();
  for (const { inputs, pipe } of drafts)
    for (const input of inputs) {
      const name = sharedName(input, pipe);
      if (!all.has(name)) all.set(name, input);
    }
  const order = [...all.keys()];
  const scores = memberScores([...all.values()], count, seed);
  return drafts.map(({ inputs, pipe }) => {
    const places = inputs.map((input) => order.indexOf(sharedName(input, pipe)));
    return membersAt(
      inputs,
      scores.map((row) => places.map((place) => row[place]!)),
    );
  });
}

/** Members as a file has them, of the paths that a case has. */
export function membersFor(members: Members, has: (path: string) => boolean): Members {
  const kept = members.paths.flatMap(({ path }, k) => (has(path) ? [k] : []));
  return {
    paths: kept.map((k) => members.paths[k]!),
    values: members.values.map((row) => kept.map((k) => row[k] ?? null)),
  };
}

/**
 * Members of several drafts as one list, each path once: of one that drafts differ in, because it is of their own pipes or about
 * their own values, the first draft's values.
 */
export function joinedMembers(drafts: readonly { readonly members: Members }[]): Members {
  const found = new Map<string, { readonly of: Members; readonly k: number }>();
  for (const { members } of drafts)
    for (const [k, { path }] of members.paths.entries())
      if (!found.has(path)) found.set(path, { of: members, k });
  const columns = [...found.values()];
  const count = drafts[0]?.members.values.length ?? 0;
  return {
    paths: columns.map(({ of, k }) => of.paths[k]!),
    values: Array.from({ length: count }, (_, member) =>
      columns.map(({ of, k }) => of.values[member]?.[k] ?? null),
    ),
  };
}
