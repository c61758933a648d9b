/** The built program is loaded with the code that V8 made of it; a Node that cannot use that goes without. */
import { readdirSync, readFileSync } from 'node:fs';
import Module from 'node:module';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Script } from 'node:vm';
import { expect, test } from 'vitest';

const DIST = fileURLToPath(new URL('../../dist', import.meta.url));
const CODE = join(DIST, 'code', `${process.version}-${process.platform}-${process.arch}`);

test('V8 takes the code that the build has left for each script', () => {
  const names = readdirSync(CODE);
  expect(names).toContain('main.cjs');
  const rejected = names.filter(name => {
    const source = Module.wrap(readFileSync(join(DIST, name), 'utf8'));
    const script = new Script(source, {
      filename: join(DIST, name),
      cachedData: readFileSync(join(CODE, name)),
    });
    return script.cachedDataRejected;
  });
  expect(rejected).toEqual([]);
});
