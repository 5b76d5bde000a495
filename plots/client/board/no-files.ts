/** In the place of Node's files and paths within a page: there are none, and what would read one is told so. */

class NoSuchFile extends Error {
  readonly code = 'ENOENT';
}

const none = (): never => {
  throw new NoSuchFile('a page reads no files');
};

export const readFileSync = none;
export const statSync = none;
export const existsSync = (): boolean => false;
export const dirname = (): string => '';
export const basename = (file: string, ending = ''): string =>
  file.endsWith(ending) ? file.slice(0, file.length - ending.length) : file;
export const extname = (file: string): string => /\.[^.]*$/.exec(file)?.[0] ?? '';
export const isAbsolute = (): boolean => true;
export const join = (...parts: readonly string[]): string => parts.join('/');
