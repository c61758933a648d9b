/** Runs programs under Node and tells what they took. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export interface Usage {
  /** Seconds on the clock, and of all processors together. */
  readonly wall: number;
  readonly cpu: number;
  /** The most memory it held, MB. */
  readonly memory: number;
}

export const PROGRAM = 'bin/fretward.js';

/** A folder that is there while something runs. */
export function inFolder<T>(act: (folder: string) => T): T {
  const folder = mkdtempSync(join(tmpdir(), 'fretward-bench-'));
  try {
    return act(folder);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Seconds that Node takes for some arguments. Throws if it fails, with what it said. */
export function wall(args: readonly string[]): number {
  const start = performance.now();
  const { status, stderr } = spawnSync(process.execPath, args, { stdio: ['ignore', 'pipe', 'pipe'] });
  if (status !== 0) throw new Error(`node ${args.join(' ')} ended with ${status}: ${stderr}`);
  return (performance.now() - start) / 1000;
}

/** What Node takes for some arguments, as it tells itself when it ends. */
export function usage(args: readonly string[]): Usage {
  return inFolder(folder => {
    const path = join(folder, 'usage.json');
    const told = `import{writeFileSync}from'node:fs';process.on('exit',()=>writeFileSync(${JSON.stringify(path)},JSON.stringify(process.resourceUsage())))`;
    const seconds = wall(['--import', `data:text/javascript,${encodeURIComponent(told)}`, ...args]);
    const { userCPUTime, systemCPUTime, maxRSS } = JSON.parse(readFileSync(path, 'utf8'));
    return { wall: seconds, cpu: (userCPUTime + systemCPUTime) / 1e6, memory: maxRSS / 1024 };
  });
}

export const median = (numbers: readonly number[]): number =>
  [...numbers].sort((a, b) => a - b)[numbers.length >> 1]!;

/** One line of a bench's answer. */
export const line = (what: string, ratio: number, note = ''): void =>
  console.log(`${what.padEnd(64)}${ratio.toFixed(2).padStart(9)} ×${note && ` (${note})`}`);
