/** The options of what is drawn of the neck: chord shapes and maps. */
import { flag } from './row.ts';
import { oneOf, whole } from './values.ts';

export const DIAGRAM_ROWS = {
  shapes: {
    flags: '--shapes <count>',
    help: 'how many shapes for each chord, the fullest and easiest first',
    default: '3; 1 on the chart of a tune',
    schema: () => whole(1, 12),
  },
  near: {
    flags: '--near <fret>',
    help: 'where on the neck the hand should be for chords',
    default: 'as low as can be',
    schema: () => whole(1, 36),
  },
  show: {
    flags: '--show <what>',
    help: 'what stands in the places on a map of the neck: letters: note letters; fingers; counts: how often the tune uses each',
    default: 'letters',
    schema: () => oneOf(['letters', 'fingers', 'counts']),
  },
  upright: flag('--upright', 'the neck upright, as chord frames are'),
  leftHanded: flag('--left-handed', 'necks and chord frames drawn for a left-handed player'),
} as const;
