/**
 * Takes the library's types out of its sources: declarations of the entry, and of all that they speak of.
 * What is only inside stays inside; so do the types of libraries that are bundled, which nobody who
 * installs fretward has.
 */
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, posix } from 'node:path';

const ENTRY = 'index.d.ts';

/** Writes them below dist/types/; answers the paths of the files, from the root. */
export function writeTypes(root) {
  const folder = mkdtempSync(join(tmpdir(), 'fretward-types-'));
  try {
    declare(root, folder);
    return [...reached(folder)].map(([file, text]) => {
      const path = `dist/types/${file}`;
      mkdirSync(dirname(root + path), { recursive: true });
      writeFileSync(root + path, text);
      return path;
    });
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** The compiler declares every file that the entry is made of. */
function declare(root, folder) {
  const compiler = `${root}node_modules/typescript/bin/tsc`;
  const project = `${root}src/build/tsconfig.types.json`;
  execFileSync(process.execPath, [compiler, '--project', project, '--outDir', folder], { stdio: 'inherit' });
}

/** The entry's declarations and what they import, by file; imports name the files as they are installed. */
function reached(folder) {
  const files = new Map();
  const waiting = [ENTRY];
  for (let file = waiting.pop(); file !== undefined; file = waiting.pop()) {
    if (files.has(file)) continue;
    const text = readFileSync(join(folder, file), 'utf8');
    const here = posix.dirname(file);
    files.set(
      file,
      text.replace(/(\bfrom |\bimport\()'([^']+)'/g, (_, before, target) => {
        if (!target.startsWith('.'))
          throw new Error(`the types of ${file} speak of ${target}, which is bundled`);
        waiting.push(posix.join(here, target.replace(/\.ts$/, '.d.ts')));
        return `${before}'${target.replace(/\.ts$/, '.js')}'`;
      }),
    );
  }
  return files;
}
