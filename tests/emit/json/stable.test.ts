/**
 * What version 1.0 of the document promised is still there: every field under its name, of its type, and
 * never missing where it never was. Fields may be added; then the list stays as it is.
 */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { arrangementSchema } from '../../../src/emit/json/json-schema.ts';

const PROMISED = readFileSync(fileURLToPath(new URL('version-1.0.txt', import.meta.url)), 'utf8')
  .trim()
  .split('\n');

interface Schema {
  readonly type?: string;
  readonly enum?: readonly string[];
  readonly const?: string;
  readonly anyOf?: readonly Schema[];
  readonly items?: Schema;
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
}

const typeOf = ({ type, enum: words, const: word, anyOf }: Schema): string => {
  if (words) return words.join(' | ');
  return word ?? anyOf?.map(typeOf).join(' | ') ?? type!;
};

/** "notes[].tiedFrom?: integer", for every field. */
const fieldsOf = (schema: Schema, path = ''): readonly string[] => {
  if (schema.items) return fieldsOf(schema.items, `${path}[]`);
  return Object.entries(schema.properties ?? {}).flatMap(([name, field]) => {
    const here = path === '' ? name : `${path}.${name}`;
    const mark = schema.required?.includes(name) ? '' : '?';
    return [`${here}${mark}: ${typeOf(field)}`, ...fieldsOf(field, here)];
  });
};

test('every field that version 1.0 promised is there', () => {
  const fields = new Set(fieldsOf(arrangementSchema()));
  expect(PROMISED.filter(field => !fields.has(field))).toEqual([]);
});
