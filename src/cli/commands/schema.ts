/** `fretward schema`: what a file may say, for editors and programs. */
import { printJson } from '../console.ts';
import { defined } from '../define.ts';
import { EXIT } from '../exit.ts';

const EXAMPLES = `  fretward schema lesson > lesson.schema.json
      for editors that complete and check a lesson file as it is written
  fretward schema arrangement > arrangement.schema.json
      what --to json writes, for programs that read it`;

/** What there are schemas of. */
const SCHEMAS = {
  lesson: async () => (await import('../lesson-file/json-schema.ts')).lessonSchema(),
  arrangement: async () => (await import('../../emit/json/json-schema.ts')).arrangementSchema(),
} as const;

export const define = defined({
  argument: ['<document>', 'which document the schema describes', Object.keys(SCHEMAS)],
  examples: EXAMPLES,
});

export const run = async ([what = '']: readonly string[]): Promise<number> => {
  printJson(await SCHEMAS[what as keyof typeof SCHEMAS]());
  return EXIT.done;
};
