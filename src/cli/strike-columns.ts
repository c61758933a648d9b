/** The columns with which every table of notes begins: where a note is struck, and which. */
import type { Strike } from '../fingering/strikes.ts';
import { measureLabel } from '../score/moments.ts';
import { beatText } from '../score/numbers.ts';
import { pitchName } from '../score/pitch.ts';
import type { Column } from './table.ts';

export const STRIKE_COLUMNS: readonly Column<{ readonly strike: Strike }>[] = [
  { title: 'measure', align: 'right', cell: ({ strike }) => measureLabel(strike.source.measure) },
  { title: 'beat', align: 'left', cell: ({ strike }) => beatText(strike.beat) },
  { title: 'note', align: 'left', cell: ({ strike }) => pitchNames(strike).join(' ') },
];

/** The notes that are struck together, by name. */
export const pitchNames = ({ pitches }: Strike): readonly string[] => pitches.map(pitch => pitchName(pitch));
