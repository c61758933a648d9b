/** What is known of every kind of mark. */
import type { Box } from './box.ts';

export interface Primitive<M> {
  readonly bounds: (mark: M) => Box;
  /** The same mark, scaled about the origin, then moved. (Its fields are listed, not spread: all marks of a kind
   * then have one shape for the engine, which makes the writers of pages several times as fast.) */
  readonly place: (mark: M, scale: number, dx: number, dy: number) => M;
}
