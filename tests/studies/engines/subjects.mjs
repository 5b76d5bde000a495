/** The cases of the studies of advice and landing: the examples that ship, and the invented engines of other kinds. */

import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { folderOf, root } from '../keep.mjs';
import { studyEngines } from './make.mjs';

const shipped = [
  'saltmarsh-125/draft-a',
  'saltmarsh-125/draft-b',
  'saltmarsh-125/draft-c',
  'bench-50/case',
  'bench-250/case',
];

/** Names and files, those alone whose name holds `only` if that is given. */
export function subjects(only = null) {
  const written = folderOf('engines');
  mkdirSync(written, { recursive: true });
  return [
    ...shipped.map((path) => ({ name: path.replace('/', '-'), file: join(root, 'cases', `${path}.yaml`) })),
    ...studyEngines.map(({ name, text }) => {
      const file = join(written, `${name}.yaml`);
      writeFileSync(file, text);
      return { name, file };
    }),
  ].filter(({ name }) => only === null || name.includes(only));
}
