/** Names of drafts beside one another: told apart, and without what all of them begin with. */

/** The names, a repeated one with its count behind it. */
export function uniqueNames(names: readonly string[]): string[] {
  const taken = new Set<string>();
  return names.map((name) => {
    let unique = name;
    for (let count = 2; taken.has(unique); count += 1) unique = `${name} (${count})`;
    taken.add(unique);
    return unique;
  });
}

/** The names without the words that all begin with, as long as something of each is left. */
export function shortNames(names: readonly string[]): string[] {
  const first = names[0] ?? '';
  let shared = '';
  // A list of names is often "engine, draft": whole parts before a comma go first, words only where there is none.
  for (const end of first.matchAll(first.includes(', ') ? /, /g : / /g)) {
    const beginning = first.slice(0, end.index + end[0].length);
    if (names.every((name) => name.startsWith(beginning) && name.length > beginning.length))
      shared = beginning;
  }
  return names.map((name) => name.slice(shared.length));
}
