/** The tasks of a run, and what is to be done with what they come to. */
import type { Diagnostic } from '../score/diagnostic.ts';
import type { Input } from './inputs.ts';
import type { PlainJob } from './plain.ts';
import type { SaidAt } from './said.ts';

/** Something to be made of a tune: its sheets, or a lesson. */
export interface Work {
  readonly kind: 'work';
  /** The file that it is asked for by: the tune's own, or that of the lesson. */
  readonly name: string;
  /** The tune. */
  readonly input: Input;
  /** Where outputs go. */
  readonly folder: string;
  readonly job: PlainJob;
  /** Of the job: see `jobHash`. */
  readonly jobHash: string;
  /** Paths of all files that its outputs are made of. */
  readonly sources: readonly string[];
  /** Where what is asked for was said. */
  readonly saidAt: SaidAt;
}

/** A lesson file that was refused before there was anything to make. */
interface Refused {
  readonly kind: 'refused';
  readonly name: string;
  /** Where its outputs would go, if it said nothing else. */
  readonly folder: string;
  readonly diagnostics: readonly Diagnostic[];
}

export type Task = Work | Refused;

/** `write` makes files; `list` says which it would write; `compare` says which are not as they should be. */
export type Mode = 'write' | 'list' | 'compare';
