/**
 * What has been changed on the board: a list of overrides `path=value`, as `--set` takes them, applied one after another. A
 * path is changed once: a later value takes the place of an earlier one, and of whatever was changed below it.
 */

/** The path of an override, without its sign. */
export function pathOf(override: string): string {
  const path = override.slice(0, override.indexOf('='));
  return path.replace(/[+-]\s*$/, '').trim();
}

/** The list with a value put in at a path. */
export function withSetting(set: readonly string[], path: string, text: string): readonly string[] {
  const replaced = (one: string): boolean => pathOf(one) === path || pathOf(one).startsWith(`${path}.`);
  return [...set.filter((one) => !replaced(one)), `${path}=${text}`];
}

/** The list with several values put in. */
export function withSettings(
  set: readonly string[],
  changes: readonly (readonly [path: string, text: string])[],
): readonly string[] {
  return changes.reduce((done, [path, text]) => withSetting(done, path, text), set);
}
