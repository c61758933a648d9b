/** The neck map drawn: board, strings, frets, markers, window, places; and its page. In millimetres. */
import type { NeckMap, NeckPlace } from '../../lesson/neck/map.ts';
import { markersAt } from '../../lesson/neck/markers.ts';
import { pitchName } from '../../score/pitch.ts';
import { union } from '../drawing/box.ts';
import { bounds, type Mark, move } from '../drawing/mark.ts';
import { disc, rectangle, ring } from '../drawing/round.ts';
import { face } from '../font/face.ts';
import { anchoredText, richText } from '../measure/rich-text.ts';
import { boardSize, fretAt, type NeckLayout, type NeckPoint, onPaper, placeAt, stringAt } from './layout.ts';

/** What stands in the places. */
export type PlaceLabel = 'letters' | 'fingers' | 'counts';

const LINE = { edge: 0.35, fret: 0.45, string: 0.3, ring: 0.45, nut: 1.6, tonic: 0.5 } as const;
/** Fret numbers and markers lie so far beyond the last string. */
const NUMBERS = 8.6;
const MARKERS = 5;
const FIGURES = 3.5;

/** Everything on and around the board, counted from the outer string's end at the nut. */
export const neckMarks = (layout: NeckLayout, label: PlaceLabel): Mark[] => [
  ...windowMarks(layout),
  ...boardMarks(layout),
  ...fretLabels(layout),
  ...stringNames(layout),
  ...layout.map.places
    .filter(({ fret }) => fret <= layout.map.lastFret)
    .flatMap(place => placeMarks(layout, place, label)),
];

/** The area of each window, from the fret below it to its highest. */
const windowMarks = (layout: NeckLayout): Mark[] =>
  layout.map.windows.map(({ low, high }) => {
    const edge = layout.gap / 2;
    const from = low === 0 ? -2 * layout.radius - 3.4 : fretAt(layout, low - 1);
    const to = fretAt(layout, Math.min(high, layout.map.lastFret));
    const [x1, y1] = onPaper(layout, { along: from, across: -edge });
    const [x2, y2] = onPaper(layout, { along: to, across: boardSize(layout).across + edge });
    return rectangle(
      'window',
      { left: Math.min(x1, x2), top: Math.min(y1, y2), right: Math.max(x1, x2), bottom: Math.max(y1, y2) },
      'shade',
    );
  });

/** How far strings and edges go on where the neck does. */
const GOING_ON = 3.5;

function boardMarks(layout: NeckLayout): Mark[] {
  const { map, gap } = layout;
  const { along: end, across: last } = boardSize(layout);
  const edge = gap / 2;
  const frets = Array.from({ length: map.lastFret }, (_, i) => {
    const along = fretAt(layout, i + 1);
    return line(layout, 'fret', { along, across: -edge }, { along, across: last + edge }, LINE.fret);
  });
  const strings = map.instrument.strings.map((_, index) => {
    const across = stringAt(layout, index + 1);
    return line(layout, 'string', { along: 0, across }, { along: end + GOING_ON, across }, LINE.string);
  });
  const edges = [-edge, last + edge].map(across =>
    line(layout, 'fret', { along: 0, across }, { along: end + GOING_ON, across }, LINE.edge),
  );
  const nut = line(
    layout,
    'fret',
    { along: -LINE.nut / 2, across: -edge - LINE.edge / 2 },
    { along: -LINE.nut / 2, across: last + edge + LINE.edge / 2 },
    LINE.nut,
  );
  return [...strings, ...edges, ...frets, nut];
}

const line = (
  layout: NeckLayout,
  role: 'fret' | 'string',
  from: NeckPoint,
  to: NeckPoint,
  thickness: number,
): Mark => {
  const [x1, y1] = onPaper(layout, from);
  const [x2, y2] = onPaper(layout, to);
  return { kind: 'line', role, x1, y1, x2, y2, thickness };
};

/** Numbers of the frets and their markers beside the last string; which end is which. */
function fretLabels(layout: NeckLayout): Mark[] {
  const { map } = layout;
  const across = boardSize(layout).across + layout.gap / 2 - 4.5;
  const frets = Array.from({ length: map.lastFret }, (_, i) => i + 1);
  return frets.flatMap((fret): Mark[] => {
    const { along } = placeAt(layout, 1, fret);
    const markers = markersAt(map.instrument, fret + map.instrument.capo);
    const offsets = markers === 2 ? [-1.1, 1.1] : markers === 1 ? [0] : [];
    const dots = offsets.map(offset => {
      const [x, y] = onPaper(layout, { along: along + offset, across: across + MARKERS + 1.2 });
      return disc('fret', x, y, 0.7);
    });
    const number = centred(layout, String(fret), { along, across: across + NUMBERS + 1.6 }, FIGURES);
    return [...dots, ...number];
  });
}

/** Figures or letters whose middle lies on a point. */
const centred = (layout: NeckLayout, text: string, point: NeckPoint, size: number): Mark[] => {
  const [x, y] = onPaper(layout, point);
  return inTheMiddle(text, x, y, size, 'number');
};

function inTheMiddle(
  text: string,
  x: number,
  y: number,
  size: number,
  role: 'number' | 'letter' | 'finger',
  ink?: 'paper',
): Mark[] {
  const baseline = y + (face('sansBold').figureHeight / 2000) * size;
  return anchoredText(text, { role, face: 'sansBold', size, ...(ink ? { ink } : {}) }, x, baseline, 'middle');
}

/** Names of the open strings, before the nut; an open place that is used stands between. */
const stringNames = (layout: NeckLayout): Mark[] =>
  layout.map.instrument.strings.flatMap((pitch, index) =>
    centred(
      layout,
      pitchName({ ...pitch }, false),
      { along: -2 * layout.radius - 7, across: stringAt(layout, index + 1) },
      4,
    ),
  );

function placeMarks(layout: NeckLayout, place: NeckPlace, label: PlaceLabel): Mark[] {
  const { radius } = layout;
  const [x, y] = onPaper(layout, placeAt(layout, place.string, place.fret));
  const text = labelOf(place, label);
  const size = Math.min(radius * 1.45, (1.55 * radius) / Math.max(0.1, richText(text, LETTER).width));
  const tonic = place.tonic ? [ring('place', x, y, radius + 1, LINE.tonic)] : [];
  if (place.kind === 'used') {
    return [
      ...(place.tonic ? [disc('place', x, y, radius + 1, 'paper')] : []),
      ...tonic,
      disc('place', x, y, radius),
      ...inTheMiddle(text, x, y, size, 'letter', 'paper'),
    ];
  }
  return [
    disc('place', x, y, radius, 'paper'),
    ring('place', x, y, radius, LINE.ring),
    ...inTheMiddle(text, x, y, size, 'letter'),
  ];
}

const LETTER = { role: 'letter', face: 'sansBold', size: 1 } as const;

/** Other places of a pitch have its letter, but no finger and no count. */
const labelOf = (place: NeckPlace, label: PlaceLabel): string => {
  if (label === 'letters') return pitchName(place.pitch, false);
  if (place.kind === 'elsewhere') return '';
  return String(label === 'fingers' ? place.finger : place.count);
};

const KEY_SIZE = 3.4;

/** What discs, rings and shade mean, from x = 0 on, the middle of the line at y = 0. */
export function keyMarks(map: NeckMap, label: PlaceLabel): Mark[] {
  const r = 1.7;
  const style = { role: 'words', face: 'serif', size: KEY_SIZE } as const;
  const entries: readonly { readonly drawn: readonly Mark[]; readonly words: string }[] = [
    { drawn: [disc('place', r, 0, r)], words: `played here${LABELS[label]}` },
    { drawn: [ring('place', r, 0, r, LINE.ring)], words: 'the same note elsewhere' },
    ...(map.places.some(({ tonic }) => tonic)
      ? [
          {
            drawn: [disc('place', r, 0, r - 0.6), ring('place', r, 0, r + 0.2, LINE.tonic)],
            words: 'keynote',
          },
        ]
      : []),
    ...(map.windows.length > 0
      ? [
          {
            drawn: [rectangle('window', { left: 0, top: -r, right: 2 * r, bottom: r }, 'shade')],
            words: map.windows.length > 1 ? 'windows' : 'window',
          },
        ]
      : []),
  ];
  let x = 0;
  return entries.flatMap(({ drawn, words }) => {
    const text = anchoredText(words, style, 2 * r + 1.4, KEY_SIZE * 0.33, 'start');
    const marks = move([...drawn, ...text], x, 0);
    x = (union(marks.map(bounds))?.right ?? x) + 5;
    return marks;
  });
}

const LABELS: Readonly<Record<PlaceLabel, string>> = {
  letters: '',
  fingers: ', with finger',
  counts: ', so many times',
};
