/** What an output device is given: pages of marks in millimetres, grouped, with nothing musical left to decide. */
import type { Mark } from './drawing/mark.ts';

/** A page, ready to be painted: y runs downwards from its upper left corner. */
export interface Page {
  /** 1-based. */
  readonly number: number;
  /** Of how many. */
  readonly of: number;
  /** mm. */
  readonly width: number;
  readonly height: number;
  readonly title: string;
  readonly description: string;
  readonly author: string | undefined;
  /** What it is a sheet of and for: instrument, frets, kind. */
  readonly keywords: readonly string[];
  /** Starts a section of this name. */
  readonly section?: string;
  readonly groups: readonly Group[];
}

/** Marks that belong together, in the order in which they are painted. */
export interface Group {
  /** Unique on the sheet and stable from one edition to another: "measure-12". */
  readonly id: string;
  readonly className: 'heading' | 'system' | 'measure' | 'diagram' | 'footer';
  /** Names the place in a list of places to go to: "Measures 5–8". */
  readonly label?: string;
  readonly marks: readonly Mark[];
}
