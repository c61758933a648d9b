/**
 * A terminal for tests: a folder of its own with some tunes in it, and command lines that bash runs there
 * with the built program on the path, as a teacher types them.
 */
import { spawn } from 'node:child_process';
import {
  chmodSync,
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  realpathSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { onTestFinished, vi } from 'vitest';

// A command is a process of its own, and machines may be busy.
vi.setConfig({ testTimeout: 60_000 });

const ROOT = fileURLToPath(new URL('../../', import.meta.url));

export const TUNES = join(ROOT, 'examples', 'tunes');

export interface Answer {
  readonly stdout: string;
  readonly stderr: string;
  /** Undefined where a signal ended it. */
  readonly status: number | undefined;
}

export interface Settings {
  readonly stdin?: string | Uint8Array;
  readonly env?: Readonly<Record<string, string>>;
  /** Folder below the terminal's own. */
  readonly cwd?: string;
  /** Numeric user to run as; only root may ask for another. */
  readonly uid?: number;
}

/** Nobody, by the number that Debian gives it. */
export const NOBODY = 65534;
export const isRoot = process.getuid?.() === 0;

export class Terminal {
  readonly folder: string;
  readonly #bin: string;

  constructor(bin: string) {
    this.folder = realpathSync(mkdtempSync(join(tmpdir(), 'fretward-')));
    this.#bin = bin;
    chmodSync(this.folder, 0o755);
  }

  /** A PATH on which the program is. */
  get searchPath(): string {
    return `${this.#bin}:${process.env.PATH}`;
  }

  /** Runs a line of bash. */
  run(line: string, { stdin, env, cwd = '.', uid }: Settings = {}): Promise<Answer> {
    const child = spawn('bash', ['-c', `set -o pipefail; ${line}`], {
      cwd: join(this.folder, cwd),
      env: { PATH: this.searchPath, HOME: this.folder, LANG: 'C.UTF-8', ...env },
      ...(uid !== undefined && { uid }),
    });
    const out: Buffer[] = [];
    const err: Buffer[] = [];
    child.stdout.on('data', chunk => out.push(chunk));
    child.stderr.on('data', chunk => err.push(chunk));
    child.stdin.on('error', () => {});
    child.stdin.end(stdin ?? '');
    return new Promise((resolve, reject) => {
      child.on('error', reject);
      child.on('close', status => {
        resolve({
          stdout: Buffer.concat(out).toString(),
          stderr: Buffer.concat(err).toString(),
          status: status ?? undefined,
        });
      });
    });
  }

  path(name: string): string {
    return join(this.folder, name);
  }

  has(name: string): boolean {
    return existsSync(this.path(name));
  }

  read(name: string): string {
    return readFileSync(this.path(name), 'utf8');
  }

  write(name: string, content: string | Uint8Array): void {
    mkdirSync(dirname(this.path(name)), { recursive: true });
    writeFileSync(this.path(name), content);
  }

  /** Puts an example tune there, under another name if one is given. */
  tune(name: string, as = `${name}.musicxml`): void {
    mkdirSync(dirname(this.path(as)), { recursive: true });
    copyFileSync(join(TUNES, `${name}.musicxml`), this.path(as));
  }

  /** Paths of all files below a folder, sorted; hidden ones left out. */
  files(folder = '.'): readonly string[] {
    if (!this.has(folder)) return [];
    return readdirSync(this.path(folder), { recursive: true, withFileTypes: true })
      .filter(entry => entry.isFile() && !entry.name.startsWith('.'))
      .map(entry => join(entry.parentPath, entry.name).slice(this.path(folder).length + 1))
      .sort();
  }
}

/** A terminal that is cleared away when the test is over. */
export const terminal = (...tunes: readonly string[]): Terminal => {
  const bin = mkdtempSync(join(tmpdir(), 'fretward-bin-'));
  chmodSync(bin, 0o755);
  symlinkSync(join(ROOT, 'bin', 'fretward.js'), join(bin, 'fretward'));
  const made = new Terminal(bin);
  for (const name of tunes) made.tune(name);
  onTestFinished(() => {
    for (const folder of [made.folder, bin]) rmSync(folder, { recursive: true, force: true });
  });
  return made;
};

export const ROW = 'row-row-row-your-boat';
export const MICHAEL = 'michael-row-the-boat-ashore';
export const GRACE = 'amazing-grace';

/** Waits until something has come about; a test's own time limit ends it otherwise. */
export const waitFor = async (test: () => boolean): Promise<void> => {
  while (!test()) await new Promise(resolve => setTimeout(resolve, 20));
};
