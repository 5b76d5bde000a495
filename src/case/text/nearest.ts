/**
 * The nearest word for a misspelt one: edit distance with exchanged neighbours counted as one edit (optimal string
 * alignment; Damerau, Communications of the ACM 7 (1964) 171).
 */

/** Number of insertions, deletions, substitutions and exchanges of neighbours between two words [-]. */
export function editDistance(a: string, b: string): number {
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, j) => j)];
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let least = Math.min(rows[i - 1]![j]! + 1, row[j - 1]! + 1, rows[i - 1]![j - 1]! + (same ? 0 : 1));
      const exchanged = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      if (exchanged) least = Math.min(least, rows[i - 2]![j - 2]! + 1);
      row.push(least);
    }
    rows.push(row);
  }
  return rows[a.length]![b.length]!;
}

/** The word of `known` that was probably meant, or null when none is near. */
export function nearest(word: string, known: readonly string[]): string | null {
  if (word.length > 60) return null;
  const plain = (text: string): string => text.toLowerCase().replaceAll(/[\s_-]/g, '');
  const target = plain(word);
  let best: string | null = null;
  // Two edits in a word of four or five letters, one in a shorter one.
  let least = Math.max(1, Math.min(4, Math.ceil(target.length / 3))) + 1;
  for (const candidate of known) {
    const distance = editDistance(target, plain(candidate));
    if (distance < least) [best, least] = [candidate, distance];
  }
  return best;
}
