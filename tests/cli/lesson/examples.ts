/** The example lessons, in a terminal. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { MICHAEL, type Terminal, terminal } from '../terminal.ts';

const LESSONS = fileURLToPath(new URL('../../../examples/lessons/', import.meta.url));

/** A terminal in which the example lessons lie as they do in the project. */
export const withExamples = (): Terminal => {
  const here = terminal();
  for (const tune of [MICHAEL, 'amazing-grace']) here.tune(tune, `tunes/${tune}.musicxml`);
  for (const name of ['frets-4-to-8', 'two-windows'])
    here.write(`lessons/${name}.yaml`, readFileSync(join(LESSONS, `${name}.yaml`)));
  return here;
};
