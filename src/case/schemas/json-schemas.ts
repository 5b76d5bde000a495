/** JSON Schema (draft 2020-12) of each kind of file, from the same objects that read them, for editors. */

import { caseSchema } from '../engine/case-schema.ts';
import { engineSchema } from '../engine/engine-from-keys.ts';
import type { Kind } from '../keys/kinds.ts';
import type { JsonSchema, Schema } from '../keys/schema.ts';
import { measuredSchema } from '../measured/measured-load.ts';
import { pipeSchema } from '../pipe/pipe-schema.ts';
import { pulseSchema } from '../pulse/pulse-schema.ts';
import { studySchema } from '../study/study-schema.ts';

/** What reads each kind of file. */
export const KIND_SCHEMAS = {
  engine: engineSchema(''),
  pipe: pipeSchema(''),
  case: caseSchema({ case: '', engine: '', pipe: '' }),
  study: studySchema('', []),
  pulse: pulseSchema(''),
  measured: measuredSchema,
} satisfies Partial<Record<Kind, Schema<unknown>>>;

/** Schemas by kind; in a file of its own every kind has to say what it is. */
export function jsonSchemas(): Readonly<Record<keyof typeof KIND_SCHEMAS, JsonSchema>> {
  const entries = Object.entries(KIND_SCHEMAS).map(
    ([kind, schema]) => [kind, documentSchema(kind, schema)] as const,
  );
  return Object.fromEntries(entries) as Record<keyof typeof KIND_SCHEMAS, JsonSchema>;
}

/** The schema of a whole file of one kind. */
export function documentSchema(kind: string, schema: Schema<unknown>): JsonSchema {
  const inner = schema.jsonSchema();
  const required = Array.isArray(inner.required) ? inner.required : [];
  return {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    ...inner,
    title: `echocone ${kind} file`,
    required: ['kind', ...required],
  };
}
