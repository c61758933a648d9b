/**
 * Writes dist/NOTICE.txt: every package and font whose code or outlines the built program carries, with
 * its licence. The packages are those that the bundler read; a package without a licence file is named
 * with the licence that its manifest states.
 */
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';

const FONTS = ['@fontsource/noto-music', '@fontsource/source-serif-4', '@fontsource/source-sans-3'];

/** `inputs` are the paths of the bundler's metafile. Answers the path of the file. */
export function writeNotice(root, inputs) {
  const packages = new Set(FONTS);
  for (const path of inputs) {
    const within = path.split('node_modules/').at(-1);
    if (within === path) continue;
    const [scope, name] = within.split('/');
    packages.add(scope.startsWith('@') ? `${scope}/${name}` : scope);
  }
  const head = `fretward is licensed under AGPL-3.0-or-later. It carries, in whole or in part, the following.\n`;
  const target = 'dist/NOTICE.txt';
  writeFileSync(
    `${root}${target}`,
    [head, ...[...packages].sort().map(name => entry(root, name))].join('\n'),
  );
  return target;
}

function entry(root, name) {
  const folder = `${root}node_modules/${name}`;
  const { version, license } = JSON.parse(readFileSync(`${folder}/package.json`, 'utf8'));
  const file = existsSync(folder) && readdirSync(folder).find(each => /^(licen[cs]e|copying)/i.test(each));
  const text = file ? readFileSync(`${folder}/${file}`, 'utf8').trim() : 'The package holds no licence file.';
  const stated = license ?? 'no licence named in its manifest';
  return `${'-'.repeat(72)}\n${name} ${version} (${stated})\n\n${text}\n`;
}
