/** Runs the benches named, or all: bundles each, as the program is, and runs it in a process of its own. */
import { spawnSync } from 'node:child_process';
import { cpus } from 'node:os';
import { build } from 'esbuild';

const ALL = ['fingering', 'engraving', 'reading', 'start', 'batch', 'growth'];
const asked = process.argv.slice(2);
const cache = 'node_modules/.cache/bench';

console.log(`${cpus()[0].model.trim()}, ${cpus().length} cores, Node ${process.versions.node}\n`);
for (const name of asked.length > 0 ? asked : ALL) {
  await build({
    entryPoints: [`tests/bench/${name}.ts`],
    bundle: true,
    platform: 'node',
    format: 'cjs',
    outfile: `${cache}/${name}.cjs`,
    logLevel: 'warning',
  });
  const { status } = spawnSync(process.execPath, [`${cache}/${name}.cjs`], { stdio: 'inherit' });
  if (status !== 0) process.exitCode = 1;
  console.log();
}
