/**
 * Input that is made to do harm, or is simply broken. The program refuses it by a code, or reads what
 * can be read; it opens no other file, fills no memory, and never ends with a fault of its own. (What
 * provokes each code at its simplest stands in provoked.test.ts.)
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { zipSync } from 'fflate';
import { describe, expect, it, onTestFinished } from 'vitest';
import { isRoot, ROW, TUNES, terminal } from './terminal.ts';

const xml = readFileSync(`${TUNES}/${ROW}.musicxml`, 'utf8');
const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

const CONTAINER = (path: string): string =>
  `<container><rootfiles><rootfile full-path="${path}"/></rootfiles></container>`;
const mxl = (entries: Readonly<Record<string, string | Uint8Array>>, path = 'score.musicxml'): Uint8Array =>
  zipSync(
    Object.fromEntries(
      Object.entries({ 'META-INF/container.xml': CONTAINER(path), ...entries }).map(([name, content]) => [
        name,
        typeof content === 'string' ? bytes(content) : content,
      ]),
    ),
  );

/** The archive with every size that its headers tell changed (APPNOTE 4.3.7 and 4.3.12: uncompressed size at 22 and 24). */
const lying = (archive: Uint8Array, size: number): Uint8Array => {
  const result = Buffer.from(archive);
  for (let at = 0; at < result.length - 4; at++) {
    const signature = result.readUInt32LE(at);
    if (signature === 0x04034b50) result.writeUInt32LE(size, at + 22);
    if (signature === 0x02014b50) result.writeUInt32LE(size, at + 24);
  }
  return result;
};

const doctype = (inside: string, use: string): string =>
  xml
    .replace(/<!DOCTYPE[^>]*>/, '')
    .replace('?>', `?><!DOCTYPE score-partwise [${inside}]>`)
    .replace(/<work-title>[^<]*/, `<work-title>${use}`);

const BOMB = [
  '<!ENTITY a0 "ha">',
  ...Array.from({ length: 30 }, (_, n) => `<!ENTITY a${n + 1} "&a${n};&a${n};">`),
].join('');

const measures = xml.slice(xml.indexOf('<measure'), xml.lastIndexOf('</measure>') + '</measure>'.length);
const firstNote = /<note>[\s\S]*?<\/note>/.exec(measures)![0];
const withNotes = (count: number): string => xml.replace(firstNote, firstNote.repeat(count));

describe.each<[string, string | Uint8Array, string]>([
  ['entities that multiply', doctype(BOMB, '&a30;'), 'foreign-entity'],
  [
    'an entity that names a file',
    doctype('<!ENTITY f SYSTEM "file:///etc/passwd">', '&f;'),
    'foreign-entity',
  ],
  [
    'an entity that names an address',
    doctype('<!ENTITY f SYSTEM "http://127.0.0.1:9/x">', '&f;'),
    'foreign-entity',
  ],
  [
    'elements nested ten thousand deep',
    `<score-partwise>${'<a>'.repeat(10_000)}${'</a>'.repeat(10_000)}</score-partwise>`,
    'too-deep',
  ],
  [
    'an archive that unpacks to 100 MB',
    mxl({ 'score.musicxml': new Uint8Array(100 * 2 ** 20) }),
    'too-large',
  ],
  ['an archive that says it holds 4 GiB', lying(mxl({ 'score.musicxml': xml }), 0xffff_fffe), 'too-large'],
  [
    'an archive that names a file above itself',
    mxl({ 'score.musicxml': xml }, '../../../../etc/passwd'),
    'archive-without-root-file',
  ],
  ['half an archive', mxl({ 'score.musicxml': xml }).slice(0, 700), 'damaged-archive'],
  ['half a file', xml.slice(0, xml.length / 2), 'broken-xml'],
  ['binary noise', Uint8Array.from({ length: 5000 }, (_, index) => (index * 7919) % 251), 'wrong-encoding'],
  [
    'Latin letters that claim to be UTF-8',
    Buffer.from(xml.replace('Row, Row', 'Ré, Ré'), 'latin1'),
    'wrong-encoding',
  ],
  ['a duration that is no number', xml.replace(/<duration>\d+/, '<duration>NaN'), 'bad-duration'],
])('%s', (_name, content, code) => {
  it(`is refused with ${code}, and nothing is written`, async () => {
    const term = terminal();
    term.write('bad.musicxml', content);
    const { stderr, stdout, status } = await term.run(
      'fretward arrange bad.musicxml --out out --json-errors',
    );
    expect(status, stderr).toBe(1);
    const errors = stderr
      .trim()
      .split('\n')
      .filter(line => line.includes('"error"'))
      .map(line => JSON.parse(line));
    expect(errors.map(each => each.code)).toEqual([code]);
    expect(errors[0].place.file).toBe('bad.musicxml');
    expect(errors[0].hint).toBeTruthy();
    expect(stdout).toBe('');
    expect(term.files('out')).toEqual([]);
  });
});

describe.each<[string, string | Uint8Array]>([
  ['a byte order mark', bytes(`\ufeff${xml}`)],
  ['UTF-16', Buffer.from(`\ufeff${xml}`, 'utf16le')],
  ['the same part twice in its list', xml.replace(/<score-part [\s\S]*?<\/score-part>/, '$&$&')],
  ['two parts by one name', xml.replace(/<part id[\s\S]*<\/part>/, '$&$&')],
  ['two measures by one number', xml.replace('<measure number="2"', '<measure number="1"')],
  ['a document type that is nowhere', doctype('', 'Row')],
  [
    'an archive with a path that climbs beside the score',
    mxl({ 'score.musicxml': xml, '../../evil.txt': 'evil' }),
  ],
])('%s', (_name, content) => {
  it('is read all the same', async () => {
    const term = terminal();
    term.write('in/tune.musicxml', content);
    const { stderr, status } = await term.run('fretward arrange in -s tab --out out -q');
    expect({ stderr, status }).toEqual({ stderr: '', status: 0 });
    expect(term.files('out')).toEqual(['tune.ukulele.tab.txt']);
    expect(term.files()).toEqual(['in/tune.musicxml', 'out/tune.ukulele.tab.txt']);
  });
});

describe('what a file names', () => {
  const named = (what: string): string =>
    `<!DOCTYPE score-partwise SYSTEM "${what}" [<!ENTITY % d SYSTEM "${what}"> %d; <!ENTITY f SYSTEM "${what}">]>`;
  const naming = (what: string): string =>
    xml.replace(/<!DOCTYPE[^>]*>/, '').replace('?>', `?>${named(what)}`);

  it('on another machine is never fetched', async () => {
    let asked = 0;
    const server = createServer((_, response) => {
      asked += 1;
      response.end('<!ENTITY f "found">');
    });
    await new Promise<void>(done => server.listen(0, '127.0.0.1', done));
    onTestFinished(() => void server.close());
    const term = terminal();
    const { port } = server.address() as AddressInfo;
    term.write('a.musicxml', naming(`http://127.0.0.1:${port}/a.dtd`));
    expect(await term.run('fretward arrange a.musicxml -q > a.txt')).toMatchObject({ stderr: '', status: 0 });
    expect(asked).toBe(0);
  });

  it('on this machine is never opened: a pipe that nobody writes to would hold it up', async () => {
    const term = terminal();
    term.write('a.musicxml', naming('pipe'));
    const line = 'mkfifo pipe && timeout 30 fretward arrange a.musicxml -q > a.txt';
    expect(await term.run(line)).toMatchObject({ stderr: '', status: 0 });
  });
});

describe('a file of this size', () => {
  it('a measure with ten thousand notes is arranged, every one of them', async () => {
    const term = terminal();
    term.write('long.musicxml', withNotes(10_000));
    const { stderr, status } = await term.run('fretward arrange long.musicxml --to midi,json --out out -q');
    expect({ stderr, status }).toEqual({ stderr: '', status: 0 });
    const { notes } = JSON.parse(term.read('out/long.ukulele.json')) as { notes: readonly unknown[] };
    expect(notes).toHaveLength(9_999 + xml.match(/<note>/g)!.length);
  });

  it('a million notes are refused, in plain XML and in a small archive', async () => {
    const measure = `<measure>${'<note><rest/><duration>1</duration></note>'.repeat(1000)}</measure>`;
    const million = `<score-partwise><part-list/><part id="P1">${measure.repeat(1000)}</part></score-partwise>`;
    const term = terminal();
    term.write('a.musicxml', million);
    term.write('b.mxl', mxl({ 'score.musicxml': million }));
    const { stderr, status } = await term.run('fretward arrange a.musicxml b.mxl --json-errors');
    const said = stderr
      .trim()
      .split('\n')
      .map(line => JSON.parse(line));
    expect(said.map(each => each.code)).toEqual(['too-many-notes', 'too-many-notes']);
    expect(status).toBe(1);
  });

  it('is refused by --max-bytes and --max-notes, which say so', async () => {
    const term = terminal(ROW);
    const small = await term.run(`fretward arrange ${ROW}.musicxml --max-bytes 10k`);
    expect(small.status).toBe(1);
    expect(small.stderr).toContain('(too-large)');
    const few = await term.run(`fretward arrange ${ROW}.musicxml --max-notes 20`);
    expect(few.status).toBe(1);
    expect(few.stderr).toContain('more than the 20 that are read (too-many-notes)');
    expect(
      (await term.run(`fretward arrange ${ROW}.musicxml --max-notes 200 --max-bytes 1M -q`)).status,
    ).toBe(0);
  });

  it('is read no further than allowed, though it has no end', async () => {
    const { stderr, status } = await terminal().run('timeout 60 fretward arrange /dev/zero --max-bytes 1M');
    expect(status).toBe(1);
    expect(stderr).toContain('/dev/zero: error:');
    expect(stderr).toContain('(too-large)');
  });
});

describe('a full disk', () => {
  /** A folder on a disk of 60 KiB; undefined where none can be made. */
  const smallDisk = (folder: string): string | undefined => {
    mkdirSync(folder);
    const mount = ['-t', 'tmpfs', '-o', 'size=60k', 'tmpfs', folder];
    if (!isRoot || spawnSync('mount', mount).status !== 0) return undefined;
    onTestFinished(() => void spawnSync('umount', [folder]));
    return folder;
  };

  it('takes none of the sheets of a tune that has no room, and says so (skipped without a disk to fill)', async context => {
    const term = terminal(ROW);
    if (!smallDisk(term.path('disk'))) return context.skip('no right to mount one');
    term.write('a.yaml', `tune: ${ROW}.musicxml`);
    for (const line of [
      `arrange ${ROW}.musicxml --to svg --out disk/out`,
      'lesson a.yaml --out disk/lesson',
    ]) {
      const { stderr, status } = await term.run(`fretward ${line}`);
      expect(stderr).toContain('error: the disk is full (cannot-write)');
      expect(status).toBe(1);
    }
    expect((await term.run('find disk -type f')).stdout).toBe('');
  });
});

it.each([
  'inspect',
  'survey',
  'explain',
  'difficulty',
  'check',
  'cues',
  'arrange',
  'chords',
  'neck',
  'scale --for',
])('words in a file steer no terminal: fretward %s', async command => {
  const here = terminal();
  // U+009B begins what a terminal obeys (ECMA-48, 5.4).
  const evil = xml
    .replace(/<work-title>[^<]*/, '<work-title>Row \u009b31m\u0085boat')
    .replace(/<part-name>[^<]*/, '<part-name>\u009b2J')
    .replace(/<measure number="2"/, '<measure number="2\u009b"');
  here.write('evil.musicxml', evil);
  const { stdout, stderr } = await here.run(`fretward ${command} evil.musicxml`);
  expect(stdout).not.toBe('');
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what it is about.
  expect(stdout + stderr).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f]/);
});
