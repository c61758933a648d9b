/** The JSON Schema (draft 2020-12) of the document, made from its shape. */
import * as z from 'zod/mini';
import { documentSchema } from './schema.ts';

/** The schema as data. Fields that it does not know are allowed: a later minor version may have more. */
export const arrangementSchema = (): Readonly<Record<string, unknown>> => ({
  ...z.toJSONSchema(documentSchema(), {
    io: 'input',
    override: ({ jsonSchema }) => {
      // The limits of doubles are no limits of music.
      if (jsonSchema.maximum === Number.MAX_SAFE_INTEGER) delete jsonSchema.maximum;
      if (jsonSchema.minimum === Number.MIN_SAFE_INTEGER) delete jsonSchema.minimum;
    },
  }),
  title: 'A tune arranged by fretward',
});
