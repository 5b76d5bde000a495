/** Constraints from the command line: `--limit "lengthToBaffleEnd.atMost=900 mm"`, by the keys of a study's constraints. */

import type { Constraints } from '../../model/study.ts';
import { newLedger } from '../keys/schema.ts';
import { applyOverride, parseOverride } from '../text/override.ts';
import { CaseProblems, type Problem } from '../text/problem.ts';
import { emptyMap, type Node } from '../text/tree.ts';
import { constraints } from './study-limits.ts';

/** @throws CaseProblems */
export function limitsOf(texts: readonly string[]): Constraints {
  const ledger = newLedger();
  const report = (problem: Problem): void => void ledger.problems.push(problem);
  const source = { name: '--limit', folder: '.', text: '' };
  let root: Node = emptyMap({ source, start: 0, end: 0 });
  for (const text of texts) {
    const one = parseOverride(text, report, '--limit');
    if (one !== null) root = applyOverride(root, one, report);
  }
  const value = constraints.read(root, { ledger, path: '', assuming: null });
  if (value === undefined || ledger.problems.length > 0) throw new CaseProblems(ledger.problems);
  return value;
}
