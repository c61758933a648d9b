/** The library's surface, as its built declarations have it: whole, and with a word about everything. */
import { readFileSync } from 'node:fs';
import { posix } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

const TYPES = fileURLToPath(new URL('../dist/types/', import.meta.url));

/** A file's declarations by name, and the names that it takes from other files. */
interface File {
  readonly declared: ReadonlyMap<string, { readonly text: string; readonly documented: boolean }>;
  readonly imported: ReadonlyMap<string, { readonly file: string; readonly name: string }>;
}

/** What stands before a name that is declared: a comment, if there is one, right above it. */
const DECLARATION =
  /^(\/\*\*(?:(?!\*\/)[\s\S])*\*\/\n)?(?:export )?(?:declare )?(?:const|type|interface|function|class) (\w+)/gm;

const NAMES = /^(?:import|export) (?:type )?\{([^}]*)\} from '([^']+)';$/gm;

const target = (file: string, path: string): string =>
  posix.join(posix.dirname(file), path.replace(/\.js$/, '.d.ts'));

const known = new Map<string, File>();

const read = (file: string): File => {
  const before = known.get(file);
  if (before) return before;
  const text = readFileSync(TYPES + file, 'utf8');
  const starts = [...text.matchAll(DECLARATION)];
  const declared = starts.map(
    (match, n) =>
      [
        match[2]!,
        {
          text: text
            .slice(match.index + match[0].length, starts[n + 1]?.index)
            .replace(/\/\*[\s\S]*?\*\//g, ''),
          documented: match[1] !== undefined,
        },
      ] as const,
  );
  const imported = [...text.matchAll(NAMES)].flatMap(([, names, path]) =>
    names!.split(',').map(each => {
      const [name, local = name] = each
        .trim()
        .replace(/^type /, '')
        .split(' as ');
      return [local!, { file: target(file, path!), name: name! }] as const;
    }),
  );
  const made = { declared: new Map(declared), imported: new Map(imported) };
  known.set(file, made);
  return made;
};

/** Where a name of a file is declared. */
const declarationOf = (file: string, name: string): string | undefined => {
  const { declared, imported } = read(file);
  if (declared.has(name)) return `${file} ${name}`;
  const from = imported.get(name);
  return from && declarationOf(from.file, from.name);
};

/** All that the entry gives, each by where it is declared. */
const given = (entry: string): ReadonlySet<string> => {
  const text = readFileSync(TYPES + entry, 'utf8');
  const own = [...read(entry).declared.keys(), ...read(entry).imported.keys()];
  const stars = [...text.matchAll(/^export type \* from '([^']+)';$/gm)].flatMap(([, path]) =>
    [...read(target(entry, path!)).declared.keys()].map(name => `${target(entry, path!)} ${name}`),
  );
  return new Set([...own.flatMap(name => declarationOf(entry, name) ?? []), ...stars]);
};

const surface = [...given('index.d.ts')].map(each => {
  const [file, name] = each.split(' ') as [string, string];
  return { file, name, ...read(file).declared.get(name)! };
});

test('every type that something of it speaks of is there to be named', () => {
  expect(surface.length).toBeGreaterThan(100);
  const names = new Set(surface.map(({ file, name }) => `${file} ${name}`));
  const missing = surface.flatMap(({ file, text, name }) =>
    [...new Set(text.match(/\b[A-Z][a-z]\w*/g) ?? [])]
      .map(each => declarationOf(file, each))
      .filter(each => each !== undefined && !names.has(each))
      .map(each => `${name} speaks of ${each}`),
  );
  expect(missing).toEqual([]);
});

test('everything has a docstring', () => {
  expect(surface.filter(({ documented }) => !documented).map(({ file, name }) => `${file} ${name}`)).toEqual(
    [],
  );
});
