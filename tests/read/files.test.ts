/** What files may be: encodings, archives, part-wise and time-wise; and what is refused. */
import { strToU8, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { readScore } from '../../src/read/read.ts';
import {
  attributes,
  bytesOf,
  note,
  notesIn,
  partWise,
  read,
  readMeasure,
  readPart,
  refused,
  scoreOf,
} from '../support/musicxml.ts';

const TUNE = partWise(`${attributes()}${note('C4')}${note('D4', 36)}`);
const BODY = TUNE.slice(TUNE.indexOf('<score-partwise'));

const utf16 = (text: string, littleEndian: boolean): Uint8Array => {
  const bytes = Buffer.from(text, 'utf16le');
  return new Uint8Array(littleEndian ? bytes : bytes.swap16());
};

const heads = (bytes: Uint8Array): number =>
  readScore(bytes).score.parts[0]!.measures[0]!.voices[0]!.events.length;

describe('encodings', () => {
  const cases: readonly (readonly [string, Uint8Array])[] = [
    ['UTF-8', bytesOf(TUNE)],
    ['UTF-8 with a byte order mark', bytesOf(`\ufeff${TUNE}`)],
    ['no declaration', bytesOf(BODY)],
    ['UTF-16 LE with a mark', utf16(`\ufeff<?xml version="1.0" encoding="UTF-16"?>${BODY}`, true)],
    ['UTF-16 BE with a mark', utf16(`\ufeff<?xml version="1.0" encoding="UTF-16"?>${BODY}`, false)],
    ['UTF-16 LE without a mark', utf16(`<?xml version="1.0" encoding="UTF-16"?>${BODY}`, true)],
    ['UTF-16 BE without a mark', utf16(`<?xml version="1.0" encoding="UTF-16"?>${BODY}`, false)],
    ['UTF-8 that says it is UTF-16', bytesOf(`<?xml version="1.0" encoding="UTF-16"?>${BODY}`)],
    [
      'a DOCTYPE',
      bytesOf(
        `<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 1.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd">${BODY}`,
      ),
    ],
  ];
  test.each(cases)('%s', (_, bytes) => expect(heads(bytes)).toBe(2));

  test('a declared single-byte encoding', () => {
    const text = `<?xml version="1.0" encoding="ISO-8859-1"?>${BODY.replace('Tune', 'Caf\u00e9')}`;
    expect(readScore(new Uint8Array(Buffer.from(text, 'latin1'))).score.parts[0]!.name).toBe('Caf\u00e9');
  });

  test('bytes that are not what they say are refused', () => {
    const bytes = bytesOf(TUNE.replace('Tune', '?'));
    bytes[bytes.indexOf(0x3f, 40)] = 0xff;
    expect(refused(() => readScore(bytes))[0]).toMatchObject({ code: 'wrong-encoding' });
    const unknown = bytesOf(`<?xml version="1.0" encoding="KLINGON"?>${BODY}`);
    expect(refused(() => readScore(unknown))[0]).toMatchObject({ code: 'unknown-encoding' });
  });
});

const container = (path: string): string =>
  `<?xml version="1.0"?><container><rootfiles><rootfile full-path="${path}" media-type="application/vnd.recordare.musicxml+xml"/></rootfiles></container>`;

const mxl = (files: Readonly<Record<string, string>>): Uint8Array =>
  zipSync(Object.fromEntries(Object.entries(files).map(([path, text]) => [path, strToU8(text)])));

describe('archives', () => {
  test('the container is followed', () => {
    const other = partWise(`${attributes()}${note('C4')}`);
    const files = { 'a.xml': other, 'META-INF/container.xml': container('deep/b.xml'), 'deep/b.xml': TUNE };
    expect(heads(mxl(files))).toBe(2);
  });

  test('of several root files, the MusicXML one is taken', () => {
    const list =
      '<container><rootfiles><rootfile full-path="a.pdf" media-type="application/pdf"/><rootfile full-path="b.xml" media-type="application/vnd.recordare.musicxml+xml"/></rootfiles></container>';
    expect(heads(mxl({ 'META-INF/container.xml': list, 'a.pdf': '%PDF', 'b.xml': TUNE }))).toBe(2);
  });

  // https://www.w3.org/2021/06/musicxml40/container-reference/elements/rootfile/ (media-type)
  test('a root file without a media type is a MusicXML one', () => {
    const pdf = '<rootfile full-path="a.pdf" media-type="application/pdf"/>';
    const plain = '<rootfile full-path="b.xml"/>';
    const later = '<rootfile full-path="c.xml" media-type="application/vnd.recordare.musicxml+xml"/>';
    const list = `<container><rootfiles>${pdf}${plain}${later}</rootfiles></container>`;
    const other = partWise(`${attributes()}${note('C4')}`);
    const files = { 'META-INF/container.xml': list, 'a.pdf': '%PDF', 'b.xml': TUNE, 'c.xml': other };
    expect(heads(mxl(files))).toBe(2);
  });

  test('a quotation mark in the name, which breaks the container, is no obstacle', () => {
    const list = "<container><rootfiles><rootfile full-path='Don't go.xml'/></rootfiles></container>";
    expect(heads(mxl({ 'META-INF/container.xml': list, "Don't go.xml": TUNE }))).toBe(2);
  });

  test.each([
    ['archive-without-container', mxl({ 'b.xml': TUNE })],
    ['archive-without-root-file', mxl({ 'META-INF/container.xml': container('c.xml'), 'b.xml': TUNE })],
    ['archive-without-root-file', mxl({ 'META-INF/container.xml': '<container/>', 'b.xml': TUNE })],
    ['damaged-archive', mxl({ 'META-INF/container.xml': container('b.xml'), 'b.xml': TUNE }).slice(0, 90)],
  ])('%s', (code, bytes) => expect(refused(() => readScore(bytes))[0]).toMatchObject({ code }));

  test('nothing is unpacked beyond the limit', () => {
    const bomb = mxl({ 'META-INF/container.xml': container('b.xml'), 'b.xml': ' '.repeat(10_000_000) });
    expect(bomb.length).toBeLessThan(20_000);
    expect(refused(() => readScore(bomb, { maxBytes: 1_000_000 }))[0]).toMatchObject({ code: 'too-large' });
    expect(refused(() => readScore(bytesOf(TUNE), { maxBytes: 100 }))[0]).toMatchObject({
      code: 'too-large',
    });
  });
});

describe('layouts', () => {
  test('time-wise scores read like part-wise ones, with parts that sit measures out', () => {
    const timeWise = `<score-timewise><part-list><score-part id="P1"><part-name>A</part-name></score-part><score-part id="P2"><part-name>B</part-name></score-part></part-list>
      <measure number="1"><part id="P1">${attributes()}${note('C4', 48)}</part></measure>
      <measure number="2"><part id="P1">${note('D4', 48)}</part><part id="P2">${attributes()}${note('E4', 48)}</part></measure>
    </score-timewise>`;
    const { parts } = read(timeWise);
    expect(parts.map(part => part.measures.map(each => each.voices.length))).toEqual([
      [1, 1],
      [0, 1],
    ]);
    expect(parts[1]!.measures[1]).toMatchObject({ number: '2', at: 48, length: 48 });
  });

  test('measures count by index where printed numbers repeat', () => {
    const xml = TUNE.replace('</part>', '<measure number="1" implicit="yes"></measure></part>');
    const measures = read(xml).parts[0]!.measures;
    expect(measures.map(({ index, number, implicit }) => [index, number, implicit])).toEqual([
      [0, '1', false],
      [1, '1', true],
    ]);
  });

  test('a part that is not in the list is read, with a warning', () => {
    const xml = scoreOf('', `<part id="X"><measure number="1">${attributes()}${note('C4')}</measure></part>`);
    const { score, diagnostics } = readScore(bytesOf(xml));
    expect(score.parts[0]).toMatchObject({ id: 'X', name: '' });
    expect(diagnostics).toMatchObject([{ code: 'unlisted-part', place: { part: 'X' } }]);
  });
});

describe('what is no score', () => {
  test.each([
    ['empty-file', ''],
    ['broken-xml', 'MThd'],
    ['broken-xml', '<score-partwise><part-list></score-partwise>'],
    ['broken-xml', TUNE.slice(0, -30)],
    ['not-musicxml', '<html><body/></html>'],
    ['not-musicxml', '<opus version="2.0"/>'],
    ['not-musicxml', '<constructor/>'],
    ['no-parts', '<score-partwise/>'],
    ['no-parts', scoreOf('<score-part id="P1"><part-name/></score-part>', '')],
  ])('%s: %s', (code, text) => {
    const [diagnostic] = refused(() => readScore(bytesOf(text)));
    expect(diagnostic).toMatchObject({ severity: 'error', code, hint: expect.any(String) });
  });

  test('broken XML is placed', () => {
    const [diagnostic] = refused(() => readScore(bytesOf('<score-partwise>\n  <part-list>\n  </oops>')));
    expect(diagnostic!.place).toMatchObject({ line: 3, column: expect.any(Number) });
  });

  test('entities are not expanded', () => {
    const xml = `<!DOCTYPE score-partwise [<!ENTITY a "aaaa"><!ENTITY b SYSTEM "file:///etc/passwd">]>${BODY}`;
    expect(heads(bytesOf(xml))).toBe(2);
    for (const name of ['a', 'b']) {
      const [diagnostic] = refused(() => readScore(bytesOf(xml.replace('Tune', `&${name};`))));
      expect(diagnostic).toMatchObject({ code: 'foreign-entity', place: { line: 1 } });
    }
  });

  test('depth is limited, and costs no call stack', () => {
    const deep = `<score-partwise>${'<a>'.repeat(100_000)}`;
    expect(refused(() => readScore(bytesOf(deep)))[0]).toMatchObject({ code: 'too-deep' });
  });

  test.each([
    ['too-many-elements', note('C4', 12, { rest: '<beam number="1">begin</beam>'.repeat(5000) })],
    ['tangled-voice', `${note('C4')}<backup><duration>12</duration></backup>`.repeat(5000)],
    ['bad-duration', '<forward><duration>1e15</duration></forward>'],
  ])('%s', (code, content) =>
    expect(refused(() => readPart(content))[0]).toMatchObject({ code, place: { line: 1 } }),
  );

  test('a chord of very many notes, and very many notes in a measure, fill no call stack', () => {
    const chord = note('C4', 1) + note('E4', 1, { before: '<chord/>' }).repeat(150_000);
    expect(notesIn(readMeasure(attributes() + chord))[0]!.heads).toHaveLength(150_001);
    expect(readPart(`${attributes()}${note('C4', 1).repeat(150_000)}`).measures[0]!.length).toBe(150_000);
  }, 30_000);

  test('parts that are new in every measure are refused', () => {
    const measures = Array.from({ length: 1500 }, (_, i) => `<measure><part id="p${i}"/></measure>`);
    const xml = `<score-timewise>${measures.join('')}</score-timewise>`;
    expect(refused(() => read(xml))[0]).toMatchObject({ code: 'too-many-parts' });
  });
});

test('the reader changes nothing that it is given', () => {
  const bytes = bytesOf(TUNE);
  const before = bytes.slice();
  readScore(bytes);
  expect(bytes).toEqual(before);
});
