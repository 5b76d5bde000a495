/**
 * Drafts with their members: drawn over what is not known exactly of them, or as a file has them. From a file each draft takes the
 * paths that it has; of what else is not known exactly the case's own values stay.
 */

import { caseOf, type OpenedFile } from '../../case/load.ts';
import { unlessRefused } from '../../case/text/problem.ts';
import type { VariedInput } from '../../findings/answers/bands.ts';
import { percentile } from '../../findings/percentile.ts';
import type { EnsembleDraft } from './ensemble.ts';
import { drawTogether, type Members, membersFor } from './members.ts';
import { valueOfScore } from './spread.ts';
import { type UncertainInput, uncertainInputs, unusedErrors, valueText } from './uncertain-inputs.ts';

/** Members where no number is given. */
export const USUAL_MEMBERS = 64;

export type PlainDraft = Omit<EnsembleDraft, 'members'>;

export interface PlannedDraft extends EnsembleDraft {
  readonly inputs: readonly VariedInput[];
}

export interface PlannedEnsemble {
  readonly drafts: readonly PlannedDraft[];
  /** Paths of the file that no draft has. */
  readonly unknown: readonly string[];
  /** Inputs with a measuring error that members do not follow in full. */
  readonly unused: readonly string[];
}

export function planEnsemble(
  drafts: readonly PlainDraft[],
  from: { readonly count: number } | { readonly members: Members },
): PlannedEnsemble {
  if ('members' in from) return fromFile(drafts, from.members);
  const uncertain = drafts.map(({ opened, set }) => ({
    inputs: uncertainInputs(opened, set),
    pipe: caseOf(opened, set).pipe.name,
  }));
  const members = drawTogether(uncertain, from.count);
  return {
    drafts: drafts.map((draft, k) => ({
      ...draft,
      members: members[k]!,
      inputs: uncertain[k]!.inputs.map(variedInput),
    })),
    unknown: [],
    unused: [
      ...new Set(drafts.flatMap(({ opened, set }, k) => unusedErrors(opened, set, uncertain[k]!.inputs))),
    ],
  };
}

/** Normal score of the 95th percentile. */
const NINE_IN_TEN = 1.6448536;

function variedInput(input: UncertainInput): VariedInput {
  const { path, unit, central, why, reason } = input;
  const at = (score: number): number => Number(valueOfScore(input, score).toPrecision(6));
  return { path, unit, central, p05: at(-NINE_IN_TEN), p95: at(NINE_IN_TEN), why, reason };
}

function fromFile(drafts: readonly PlainDraft[], members: Members): PlannedEnsemble {
  const known = new Set<string>();
  const planned = drafts.map((draft) => {
    const own = membersFor(members, (path) => hasPath(draft, path, members));
    for (const { path } of own.paths) known.add(path);
    return { ...draft, members: own, inputs: own.paths.map((_, k) => filedInput(own, k)) };
  });
  const unknown = members.paths.flatMap(({ path }) => (known.has(path) ? [] : [path]));
  return { drafts: planned, unknown, unused: [] };
}

function filedInput({ paths, values }: Members, k: number): VariedInput {
  const { path, unit } = paths[k]!;
  const ordered = values.flatMap((row) => row[k] ?? []).sort((a, b) => a - b);
  const at = (share: number): number => percentile(ordered, share) ?? Number.NaN;
  const reason = 'as the file of members has it';
  return { path, unit, central: null, p05: at(0.05), p95: at(0.95), why: 'members file', reason };
}

/** Whether a draft takes a value of the file at a path. */
function hasPath(
  { opened, set }: { readonly opened: OpenedFile; readonly set: readonly string[] },
  path: string,
  { paths, values }: Members,
): boolean {
  const k = paths.findIndex((one) => one.path === path);
  const value = values.map((row) => row[k] ?? null).find((one) => one !== null);
  if (value === undefined || value === null) return false;
  return unlessRefused(() => caseOf(opened, [...set, `${path}=${valueText(paths[k]!, value)}`])) !== null;
}
