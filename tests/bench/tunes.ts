/** The tunes that are measured: the corpus beside the project, or the examples where there is none. */
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';

export const tuneFiles = (): readonly { readonly path: string; readonly name: string }[] => {
  const folder = existsSync('../shared/corpus/tunes') ? '../shared/corpus/tunes' : 'examples/tunes';
  const names = readdirSync(folder).filter(name => /\.(mxl|xml|musicxml)$/.test(name));
  return names.sort().map(name => ({ path: join(folder, name), name }));
};
