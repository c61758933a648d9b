/** Files that are no tune: archives, encodings, XML. */
import { zipSync } from 'fflate';
import { attributes, bytesOf, note, scoreOf } from '../../support/musicxml.ts';
import { IN_FIRST, measures, type Provocations, tune, whole } from './provocation.ts';

const XML = measures(whole('C4'));
const CONTAINER = bytesOf('<container><rootfiles><rootfile full-path="score.xml"/></rootfiles></container>');
const measureOf = (content: string): string => `<measure number="1">${content}</measure>`;

export const FILES: Provocations = {
  'archive-without-container': tune(zipSync({ 'score.xml': bytesOf(XML) })),
  'archive-without-root-file': tune(zipSync({ 'META-INF/container.xml': CONTAINER })),
  'broken-xml': tune(XML.replace('</score-partwise>', ''), { on: '', at: { column: 8 } }),
  'damaged-archive': tune(zipSync({ 'score.xml': bytesOf(XML) }).slice(0, 60)),
  'empty-file': tune(''),
  'foreign-entity': tune(XML.replace('Tune', 'Tune &eacute;'), { on: '<part-name>', at: { column: 25 } }),
  'no-parts': tune(scoreOf('', ''), { on: '<score-partwise' }),
  'not-musicxml': tune('<html><body>Not found</body></html>', { on: '<html>' }),
  'too-deep': tune(`<score-partwise>${'<a>'.repeat(101)}`, { on: '<a>' }),
  'too-large': tune(XML, { options: '--max-bytes 100' }),
  'too-many-elements': tune(measures(whole('C4', { rest: '<dot/>'.repeat(1001) })), { on: '<dot/>' }),
  'too-many-notes': tune(measures(note('C4', 24) + note('D4', 24)), { options: '--max-notes 1' }),
  'too-many-parts': tune(
    `<score-timewise>${Array.from({ length: 1500 }, (_, index) => `<measure><part id="p${index}"/></measure>`).join('')}</score-timewise>`,
    { on: '<measure>' },
  ),
  'unknown-encoding': tune(XML.replace('UTF-8', 'UTF-88'), { on: '<?xml' }),
  'unlisted-part': tune(scoreOf('', `<part id="P9">${measureOf(attributes() + whole('C4'))}</part>`), {
    on: '<part id="P9">',
    at: { part: 'P9' },
  }),
  'wrong-encoding': tune(Uint8Array.of(...bytesOf('<score-partwise>\n<work>'), 0xe9), { on: '<work>' }),

  'bad-divisions': tune(XML.replace('<divisions>12', '<divisions>0'), { on: '<divisions>0', at: IN_FIRST }),
  'bad-duration': tune(measures(note('C4', -12)), { on: '<duration>-12', at: IN_FIRST }),
  'bad-pitch': tune(XML.replace('<step>C', '<step>H'), { on: '<step>H', at: IN_FIRST }),
  'quarter-tones': tune(XML.replace('<octave>', '<alter>0.5</alter><octave>'), {
    on: '<alter>0.5',
    at: IN_FIRST,
  }),
  'tangled-voice': tune(measures(`${whole('C4')}<backup><duration>48</duration></backup>`.repeat(27)), {
    on: '<note>',
    at: IN_FIRST,
  }),
  'too-fine-divisions': tune(
    measures(
      whole('C4'),
      ...[65_537, 65_539].map(divisions => `<attributes><divisions>${divisions}</divisions></attributes>`),
    ),
    { on: '<divisions>65539', at: { part: 'P1', measure: '3' } },
  ),
  'unpitched-notes': tune(measures('<note><unpitched/><duration>48</duration></note>'), {
    on: '<unpitched/>',
    at: IN_FIRST,
  }),
};
