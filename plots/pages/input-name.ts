/** The name of an input in words, from its place in the file: `engine.combustion.wiebeExponent`. */
export const inputName = (path: string): string =>
  path
    .replace(/^engine\./, '')
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .toLowerCase()
    .split('.')
    .join(', ');
