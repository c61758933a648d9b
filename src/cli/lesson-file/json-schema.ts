/** The keys of a lesson file as JSON Schema (draft 2020-12), for editors that complete and check. */
import * as z from 'zod/mini';
import { KEYS, type Key } from './keys.ts';

type Schema = Readonly<Record<string, unknown>>;

/** The schema as data. */
export const lessonSchema = (): Schema => ({
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  title: 'A lesson for fretward',
  type: 'object',
  properties: Object.fromEntries(KEYS.map(key => [key.name, { description: key.help, ...valueSchema(key) }])),
  required: ['tune'],
  additionalProperties: false,
});

const valueSchema = ({ schema, list, words }: Key): Schema => {
  const { $schema: _, ...value } = asWritten(
    z.toJSONSchema(schema(), { io: 'input', unrepresentable: 'any' }),
    words,
  );
  // One text with commas will do where a list may stand.
  return list ? { anyOf: [value, { type: ['string', 'number'] }] } : value;
};

/** YAML writes some texts as numbers: a capo of 2, grade 4. Patterns hold for texts alone. `words` are those that may be written. */
const asWritten = (schema: Schema, words?: readonly string[]): Schema =>
  Object.fromEntries(
    Object.entries(schema).map(([key, value]) => {
      if (key === 'type' && value === 'string') return [key, ['string', 'number']];
      if (key === 'enum') return [key, (words ?? (value as string[])).flatMap(withNumber)];
      if (key === 'items') return [key, asWritten(value as Schema, words)];
      if (key === 'anyOf') return [key, (value as Schema[]).map(each => asWritten(each, words))];
      return [key, value];
    }),
  );

const withNumber = (word: string): readonly (string | number)[] =>
  String(Number(word)) === word ? [word, Number(word)] : [word];
