/** Which file is whose: no two tunes, or lessons, write the same one. */
import { Refusal } from '../score/diagnostic.ts';

/** What was claimed in a run so far. */
export class Claims {
  /** By path, the name of what claimed it. */
  readonly #owners = new Map<string, string>();

  has(path: string): boolean {
    return this.#owners.has(path);
  }

  /** Claims paths for a tune. Throws a Refusal, and claims nothing, where another one has one of them. */
  claim(owner: string, paths: readonly string[]): void {
    const owners = paths.map(path => this.#owners.get(path));
    const other = owners.find(each => each !== undefined && each !== owner);
    if (other !== undefined) throw sameOutput(owner, other);
    for (const path of paths) this.#owners.set(path, owner);
  }
}

const sameOutput = (file: string, other: string): Refusal =>
  new Refusal({
    severity: 'error',
    code: 'same-output',
    message: `its sheets would overwrite those of ${other}`,
    hint: 'rename one of the two files, or write them to different folders',
    place: { file },
  });
