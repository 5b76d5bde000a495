/** Writes the JSON Schemas into `schema/` of the folder given, `dist` unless stated, and the page of all keys. Run by the build. */

import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { jsonSchemas } from './json-schemas.ts';
import { keysPage } from './keys-page.ts';

const folder = join(process.argv[2] ?? 'dist', 'schema');
mkdirSync(folder, { recursive: true });
for (const [kind, schema] of Object.entries(jsonSchemas())) {
  writeFileSync(join(folder, `${kind}.json`), `${JSON.stringify(schema, null, 2)}\n`);
}
writeFileSync(join(folder, '..', 'keys.html'), keysPage());
