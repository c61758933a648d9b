/** What is written is read by another library, musicxml-io (MIT): the same notes, at the same times and places. */
import { type NoteEntry, parse, parseCompressed } from 'musicxml-io';
import { describe, expect, test } from 'vitest';
import { toMxl } from '../../src/emit/musicxml/mxl.ts';
import { toMusicXml } from '../../src/emit/musicxml.ts';
import { arrange } from '../../src/fingering/arrange.ts';
import type { Arrangement } from '../../src/fingering/arrangement.ts';
import { rulesFrom } from '../../src/fingering/rules.ts';
import { findInstrument } from '../../src/instrument/define.ts';
import type { Tune } from '../../src/score/tune.ts';
import { unlessRefused } from '../support/refused.ts';
import { exampleTunes, realTunes } from '../support/tunes.ts';

type Read = ReturnType<typeof parse>;

/** One line a note: measure, onset in divisions, pitch, string, fret, finger. */
const line = (...facts: readonly unknown[]): string => facts.join(' ');

/** The notes of a staff as the other library has them; times counted here, as the standard says. */
const notesRead = ({ parts }: Read, staff: number): readonly string[] =>
  parts[0]!.measures.flatMap((measure, index) => {
    const lines: string[] = [];
    let now = 0;
    let last = 0;
    for (const entry of measure.entries) {
      if (entry.type === 'backup') now -= entry.duration;
      else if (entry.type === 'forward') now += entry.duration;
      if (entry.type !== 'note') continue;
      if (!entry.chord) {
        last = now;
        now += entry.duration;
      }
      const { pitch } = entry;
      if (!pitch || (entry.staff ?? 1) !== staff) continue;
      const name = `${pitch.step}${pitch.alter ?? 0}/${pitch.octave}`;
      lines.push(
        line(index, last, name, marked(entry, 'string'), marked(entry, 'fret'), marked(entry, 'text')),
      );
    }
    return lines;
  });

const marked = ({ notations }: NoteEntry, what: 'string' | 'fret' | 'text'): unknown => {
  const name = what === 'text' ? 'fingering' : what;
  const mark = notations?.find(each => each.type === 'technical' && each.technical === name);
  return mark && what in mark ? mark[what as keyof typeof mark] : undefined;
};

const notesWritten = (tune: Tune, { placements }: Arrangement): readonly string[] =>
  tune.measures.flatMap(measure =>
    measure.events.flatMap(event =>
      event.kind === 'rest'
        ? []
        : event.heads.map(({ id, pitch: { step, alter, octave } }) => {
            const { string, fret, finger } = placements.get(id)!;
            return line(measure.index, event.at, `${step}${alter}/${octave}`, string, fret, finger);
          }),
    ),
  );

describe('another reader of MusicXML', () => {
  const guitar = findInstrument('guitar');
  const arranged = realTunes('all').flatMap(({ name, tune }) => {
    const arrangement = unlessRefused(() => arrange(tune, guitar, rulesFrom()).arrangement);
    return arrangement ? [{ name, tune, arrangement }] : [];
  });

  test('there are tunes to read', () => expect(arranged.length).toBeGreaterThanOrEqual(3));

  test.each([1, 2] as const)('reads the same notes, staves: %i', staves => {
    for (const { name, tune, arrangement } of arranged) {
      const score = parse(toMusicXml(tune, arrangement, { staves }));
      for (let staff = 1; staff <= staves; staff++) {
        expect(notesRead(score, staff), `${name}, staff ${staff}`).toEqual(notesWritten(tune, arrangement));
      }
    }
  });

  test('reads the compressed file', () => {
    const { tune } = exampleTunes()[0]!;
    const { arrangement } = arrange(tune, guitar, rulesFrom());
    const score = parseCompressed(toMxl(tune, arrangement));
    expect(notesRead(score, 1)).toEqual(notesWritten(tune, arrangement));
    expect(score.metadata.workTitle).toBe(tune.title);
  });

  test('finds tuning and capo on the lines of the tablature', () => {
    const { tune } = exampleTunes()[0]!;
    const instrument = { ...findInstrument('ukulele'), capo: 2 };
    const score = parse(toMusicXml(tune, arrange(tune, instrument, rulesFrom()).arrangement, { staves: 2 }));
    const [details] = score.parts[0]!.measures[0]!.attributes!.staffDetails!;
    expect(details).toMatchObject({ number: 2, staffLines: 4, capo: 2 });
    // Played as G C E A, the last string on the bottom line.
    expect(details!.staffTuning!.map(each => `${each.line}${each.tuningStep}`)).toEqual([
      '1G',
      '2C',
      '3E',
      '4A',
    ]);
  });
});
