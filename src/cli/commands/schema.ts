/** `fretward schema`: what a file may say, for editors and programs. */
import type { Command } from 'commander';
import { print } from '../console.ts';
import { EXIT, UsageError } from '../exit.ts';

const EXAMPLES = `
Examples:
  fretward schema lesson > lesson.schema.json
      for editors that complete and check a lesson file as it is written
  fretward schema arrangement > arrangement.schema.json
      what --to json writes, for programs that read it`;

/** What there are schemas of. */
const SCHEMAS: Readonly<Record<string, () => Promise<unknown>>> = {
  lesson: async () => (await import('../lesson-file/json-schema.ts')).lessonSchema(),
  arrangement: async () => (await import('../../emit/json/json-schema.ts')).arrangementSchema(),
};

export const define = (command: Command): void => {
  command.argument('<what>', Object.keys(SCHEMAS).join(', ')).addHelpText('after', EXAMPLES);
};

export const run = async ([what = '']: readonly string[]): Promise<number> => {
  const schema = Object.hasOwn(SCHEMAS, what) ? SCHEMAS[what] : undefined;
  if (!schema)
    throw new UsageError(`there is no schema of "${what}"`, `there is: ${Object.keys(SCHEMAS).join(', ')}`);
  print(`${JSON.stringify(await schema(), null, 2)}\n`);
  return EXIT.done;
};
