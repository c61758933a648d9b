/** Slurs and tuplets: from spans to the marks on the notes at their ends. */
import type { Slur, Tuplet } from '../../score/model.ts';
import type { Tune } from '../../score/tune.ts';
import { element, leaf, type XmlNode } from './xml.ts';

/** By event id: what goes into the notations of that event. */
export type SpanMarks = ReadonlyMap<number, readonly XmlNode[]>;

/** MusicXML numbers spans that overlap, from 1 to 6. */
const MAX_NUMBER = 6;

/** Stops come before starts, so that a note may end one slur and begin the next of the same number. */
export const spanMarks = (tune: Tune): SpanMarks => {
  const marks = new Map<number, XmlNode[]>();
  const put = (event: number, mark: XmlNode): void => {
    marks.set(event, [...(marks.get(event) ?? []), mark]);
  };
  const slurs = numbered(tune.slurs);
  const tuplets = tune.tuplets.map(tuplet => [tuplet, (tuplet.depth % MAX_NUMBER) + 1] as const);
  for (const [{ to }, number] of slurs) put(to, element('slur', { type: 'stop', number }));
  for (const [{ to }, number] of tuplets) put(to, element('tuplet', { type: 'stop', number }));
  for (const [slur, number] of slurs) put(slur.from, slurStart(slur, number));
  for (const [tuplet, number] of tuplets) put(tuplet.from, tupletStart(tuplet, number));
  return marks;
};

/** Gives each slur the lowest number that no slur still open has. */
const numbered = (slurs: readonly Slur[]): readonly (readonly [Slur, number])[] => {
  const ends: number[] = [];
  return slurs.map(slur => {
    const free = ends.findIndex(end => end <= slur.from);
    const index = free < 0 ? ends.length : free;
    ends[index] = slur.to;
    return [slur, (index % MAX_NUMBER) + 1];
  });
};

const slurStart = ({ placement }: Slur, number: number): XmlNode =>
  element('slur', { type: 'start', number, placement });

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
