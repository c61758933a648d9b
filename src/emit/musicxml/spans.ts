/** Slurs and tuplets: from spans to the marks on the notes at their ends. */
import { groupsBy } from '../../score/groups.ts';
import type { Slur, Tuplet } from '../../score/model.ts';
import type { Tune } from '../../score/tune.ts';
import { element, leaf, type XmlNode } from './xml.ts';

/** By event id: what goes into the notations of that event. */
export type SpanMarks = ReadonlyMap<number, readonly XmlNode[]>;

/** MusicXML numbers spans that overlap, from 1 to 6. */
const MAX_NUMBER = 6;

/** Several staves of one part share the numbers of slurs: each takes every n-th. */
export interface Lane {
  readonly lane: number;
  readonly lanes: number;
}

/** Stops come before starts, so that a note may end one slur and begin the next of the same number. */
export const spanMarks = (tune: Tune, staves: number): SpanMarks => {
  const tuplets = tune.tuplets.map(tuplet => [tuplet, (tuplet.depth % MAX_NUMBER) + 1] as const);
  const slurs = numbered(tune.slurs, { lane: 0, lanes: staves });
  return collected([
    ...slurs.map(slurStop),
    ...tuplets.map(([{ to }, number]) => [to, element('tuplet', { type: 'stop', number })] as const),
    ...slurs.map(slurStart),
    ...tuplets.map(([tuplet, number]) => [tuplet.from, tupletStart(tuplet, number)] as const),
  ]);
};

/** The slurs alone. */
export const slurMarks = (tune: Tune, lane: Lane): SpanMarks => {
  const slurs = numbered(tune.slurs, lane);
  return collected([...slurs.map(slurStop), ...slurs.map(slurStart)]);
};

/** A mark, and the id of the event that it stands on. */
type Mark = readonly [number, XmlNode];

const collected = (list: readonly Mark[]): SpanMarks =>
  new Map(
    [...groupsBy(list, ([event]) => event)].map(([event, marks]) => [event, marks.map(([, mark]) => mark)]),
  );

type Numbered = readonly [Slur, number];

/** Gives each slur the lowest number that no slur still open has. */
const numbered = (slurs: readonly Slur[], { lane, lanes }: Lane): readonly Numbered[] => {
  const ends: number[] = [];
  return slurs.map(slur => {
    const free = ends.findIndex(end => end <= slur.from);
    const index = free < 0 ? ends.length : free;
    ends[index] = slur.to;
    return [slur, ((index * lanes + lane) % MAX_NUMBER) + 1];
  });
};

const slurStop = ([{ to }, number]: Numbered): Mark => [to, element('slur', { type: 'stop', number })];

const slurStart = ([{ from, placement }, number]: Numbered): Mark => [
  from,
  element('slur', { type: 'start', number, placement }),
];

const tupletStart = (tuplet: Tuplet, number: number): XmlNode =>
  element(
    'tuplet',
    {
      type: 'start',
      number,
      bracket: tuplet.bracket === undefined ? undefined : tuplet.bracket ? 'yes' : 'no',
      'show-number': tuplet.show === 'actual' ? undefined : tuplet.show,
    },
    element('tuplet-actual', {}, leaf('tuplet-number', tuplet.actual)),
    element('tuplet-normal', {}, leaf('tuplet-number', tuplet.normal)),
  );
