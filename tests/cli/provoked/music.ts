/** Tunes that are read, and hold something that has to be said: which part, which voice, what is left out. */
import { attributes, note, scoreOf } from '../../support/musicxml.ts';
import { IN_FIRST, measures, type Provocations, tune, whole } from './provocation.ts';

const PLAIN = measures(whole('C4'));
const REST = whole('r');
const BACKUP = '<backup><duration>48</duration></backup>';
const voice = (id: string) => ({ after: `<voice>${id}</voice>` });
const words = (tag: string): string => `<direction><direction-type>${tag}</direction-type></direction>`;
const sound = (jump: string): string => `<sound ${jump}/>`;

/** Parts P1, P2, … of one measure. */
const parts = (...contents: readonly string[]): string =>
  scoreOf(
    contents.map((_, index) => `<score-part id="P${index + 1}"><part-name/></score-part>`).join(''),
    contents
      .map(
        (content, index) =>
          `<part id="P${index + 1}"><measure number="1">${attributes()}${content}</measure></part>`,
      )
      .join(''),
  );

export const MUSIC: Provocations = {
  'clef-not-drawn': tune(
    measures(whole('C4'), `<attributes><clef><sign>C</sign><line>3</line></clef></attributes>${whole('C4')}`),
    { options: '--to svg --out out', on: '<measure', at: { part: 'P1', measure: '2' } },
  ),
  'cue-notes': tune(measures(whole('C4'), whole('C4', { before: '<cue/>' })), {
    on: '<note>',
    at: { part: 'P1', measure: '2' },
  }),
  'left-out': tune(measures(`<figured-bass/>${whole('C4')}`), { on: '<figured-bass', at: IN_FIRST }),
  'no-coda': tune(
    measures(`${whole('C4')}${sound('tocoda="1"')}`, `${whole('D4')}${sound('dacapo="yes"')}`),
    {
      options: '--to midi --out out',
      on: '<measure number="1"',
      at: IN_FIRST,
    },
  ),
  'no-fine': tune(measures(`${whole('C4')}${words('<words>D.C. al Fine</words>')}`), {
    options: '--to midi --out out',
    on: '<measure number="1"',
    at: IN_FIRST,
  }),
  'no-notes': tune(measures(REST)),
  'no-segno': tune(measures(`${whole('C4')}${sound('dalsegno="1"')}`), {
    options: '--to midi --out out',
    on: '<measure number="1"',
    at: IN_FIRST,
  }),
  'part-chosen': tune(parts(whole('C4'), whole('E4'))),
  'silent-part': tune(parts(whole('C4'), REST), { options: '--part P2', at: { part: 'P2' } }),
  'silent-voice': tune(measures(`${whole('C4', voice('1'))}${BACKUP}${whole('r', voice('2'))}`), {
    options: '--voice 2',
    at: { part: 'P1' },
  }),
  // No repeat is played more than 99 times; this is one of 2,100 measures.
  'too-many-repeats': tune(
    measures(
      whole('C4'),
      ...Array.from({ length: 2098 }, () => whole('C4')),
      `${whole('C4')}<barline location="right"><repeat direction="backward" times="99"/></barline>`,
    ),
    { options: '--to midi --out out', on: '<measure number="', at: { part: 'P1', measure: '501' } },
  ),
  'top-notes': tune(measures(whole('C4') + whole('E4', { before: '<chord/>' })), {
    on: '<note>',
    at: IN_FIRST,
  }),
  'unknown-part': tune(PLAIN, { options: '--part Oboe' }),
  'unknown-voice': tune(PLAIN, { options: '--voice 2', at: { part: 'P1' } }),
  'voice-chosen': tune(measures(`${whole('C4', voice('1'))}${BACKUP}${whole('E4', voice('2'))}`), {
    at: { part: 'P1' },
  }),
  'characters-not-carried': tune(measures(words('<words>海</words>') + whole('C4')), {
    options: '--to svg -s tab --out out',
  }),
  'characters-not-shown': tune(measures(words('<words>海</words>') + whole('C4')), {
    options: '--to pdf -s tab --out out',
  }),
  // Pictures are painted by a library for each kind of machine; there is none for this kind.
  'png-unavailable': {
    ...tune(PLAIN, { options: '--to png -s tab --out out' }),
    env: {
      NODE_OPTIONS:
        "--import \"data:text/javascript,Object.defineProperty(process,'arch',{value:'abacus'})\"",
    },
  },
  'no-chord-symbols': tune(PLAIN, { command: 'chords' }),
  'marks-ignored': tune(
    measures(note('C4', 48, { rest: '<notations><technical><string>3</string></technical></notations>' })),
  ),
};
