/** `fretward lesson` and `fretward schema`, as a teacher types them. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import * as mupdf from 'mupdf';
import { describe, expect, it } from 'vitest';
import { browser, hasBrowser } from '../support/browser.ts';
import { MICHAEL, ROW, type Terminal, terminal } from './terminal.ts';

const LESSONS = fileURLToPath(new URL('../../examples/lessons/', import.meta.url));

/** A terminal in which the example lessons lie as they do in the project. */
const withExamples = (): Terminal => {
  const here = terminal();
  for (const tune of [MICHAEL, 'amazing-grace']) here.tune(tune, `tunes/${tune}.musicxml`);
  for (const name of ['frets-4-to-8', 'two-windows'])
    here.write(`lessons/${name}.yaml`, readFileSync(join(LESSONS, `${name}.yaml`)));
  return here;
};

const PARTS = ['chords', 'cues', 'names', 'neck', 'quiz', 'scale', 'tab'];

describe('fretward lesson', () => {
  it('writes every part, a booklet for each edition, a practice track and the page', async () => {
    const here = withExamples();
    const { stdout, stderr, status } = await here.run('fretward lesson lessons/frets-4-to-8.yaml');
    expect(status, stderr).toBe(0);
    const folder = 'lessons/frets-4-to-8';
    const of = (id: string) => [
      `frets-4-to-8.${id}.booklet.pdf`,
      ...PARTS.map(part => `frets-4-to-8.${id}.${part}.pdf`),
      `frets-4-to-8.${id}.mid`,
    ];
    const files = [...of('ukulele'), ...of('ukulele-low-g'), 'index.html'].sort();
    expect(here.files(folder)).toEqual(files);
    expect(stdout.trim().split('\n').sort()).toEqual(files.map(file => `${folder}/${file}`));
    // Every link of the page leads to a file that was written.
    const links = [...here.read(`${folder}/index.html`).matchAll(/href="([^"#][^"]*)"/g)].map(
      match => match[1],
    );
    expect(links.sort()).toEqual(files.filter(file => file !== 'index.html'));
  });

  it('writes the same bytes again', { timeout: 60_000 }, async () => {
    const here = withExamples();
    for (const out of ['a', 'b']) await here.run(`fretward lesson lessons/*.yaml --out ${out} -q`);
    expect(here.files('a')).toHaveLength(19 + 21);
    const { stdout, status } = await here.run('diff -r a b');
    expect([stdout, status]).toEqual(['', 0]);
  });

  it('gives the booklet a list of its parts, and as many pages as it says', async () => {
    const here = withExamples();
    await here.run('fretward lesson lessons/frets-4-to-8.yaml --out out -q');
    const bytes = readFileSync(here.path('out/frets-4-to-8/frets-4-to-8.ukulele.booklet.pdf'));
    const document = mupdf.Document.openDocument(bytes, 'application/pdf');
    const outline = document.loadOutline()!;
    expect(outline.map(({ title }) => title)).toEqual([
      'Frets 4 to 8 in C',
      'Warm-up scale',
      'To read',
      'With note names',
      'With tablature',
      'Chords',
      'On the neck',
      'In words',
    ]);
    expect(document.countPages()).toBe(8);
    outline.forEach((item, index) => {
      expect(item.page).toBe(index);
    });
    const cover = document.loadPage(0).toStructuredText('preserve-whitespace').asText();
    for (const text of [
      'Frets 4 to 8 in C',
      'Saltmarsh Ukulele Club',
      'In this booklet',
      'Where the editions differ',
    ])
      expect(cover).toContain(text);
  });

  it('tells other programs what it tells the teacher', async () => {
    const here = terminal(MICHAEL);
    here.write('a.yaml', `{tune: ${MICHAEL}.musicxml, frets: 4-8, open: never, to: json, parts: [tab]}`);
    const { stderr } = await here.run('fretward lesson a.yaml');
    const { warnings } = JSON.parse(here.read('a/a.ukulele.json'));
    expect(warnings.map((each: { code: string }) => each.code)).toContain('note-outside-window');
    for (const each of warnings) expect(stderr).toContain(each.message);
  });

  it('begins a file that makes a lesson once it names a tune', async () => {
    const here = terminal(ROW);
    expect((await here.run('fretward lesson --init monday')).stdout).toBe('monday.yaml\n');
    const again = await here.run('fretward lesson --init monday.yaml');
    expect([again.status, again.stderr]).toEqual([
      1,
      'monday.yaml: error: there is such a file already (lesson-exists)\n    choose another name\n',
    ]);
    await here.run(`sed -i 's/my-tune/${ROW}/' monday.yaml`);
    const made = await here.run('fretward lesson monday.yaml');
    expect(made.status, made.stderr).toBe(0);
    // What stands there as a comment is a key as well.
    await here.run("sed -i -E 's/^# ([a-z-]+): true$/\\1: false/' monday.yaml");
    const more = await here.run('fretward lesson monday.yaml');
    expect(more.status, more.stderr).toBe(0);
  });

  it('says line, column and the nearest right key', async () => {
    const here = terminal(ROW);
    here.write(
      'bad.yaml',
      [
        `tune: ${ROW}.musicxml`,
        'fret: 4-8',
        'paper: a5',
        'parts: [scale, quizz]',
        'one-place: yes',
        'octaves: 9',
        'notes:',
      ].join('\n'),
    );
    const { stderr, status } = await here.run('fretward lesson bad.yaml');
    expect(status).toBe(1);
    expect(stderr).toBe(`bad.yaml, line 2, column 1: error: there is no key "fret" here (lesson-unknown-key)
    | fret: 4-8
    is "frets" meant?
bad.yaml, line 3, column 8: error: "paper" does not take "a5" (lesson-bad-value)
    | paper: a5
    is a4 meant? use one of a4, letter
bad.yaml, line 4, column 16: error: "parts" does not take "quizz" (lesson-bad-value)
    | parts: [scale, quizz]
    is quiz meant? use one of scale, quiz, names, blank, tab, chords, neck, cues, drill
bad.yaml, line 5, column 12: error: "one-place" does not take "yes" (lesson-bad-value)
    | one-place: yes
    write true or false
bad.yaml, line 6, column 10: error: "octaves" does not take "9" (lesson-bad-value)
    | octaves: 9
    write a whole number from 1 to 5
bad.yaml, line 7, column 7: error: "notes" does not take this (lesson-bad-value)
    | notes:
    write a value after the colon
`);
    expect(here.files()).toEqual(['bad.yaml', `${ROW}.musicxml`]);
  });

  it.each([
    ['tune: ../x.musicxml', 'column 7: error: ../x.musicxml lies outside the folder of the lesson'],
    ['tune: /etc/passwd', 'column 7: error: /etc/passwd lies outside'],
    ['tune: link/x.musicxml', 'column 7: error: link/x.musicxml lies outside'],
    ['tune: none.musicxml', 'column 7: error: there is no file none.musicxml'],
    [`{tune: ${ROW}.musicxml, out: ../out}`, 'column 45: error: ../out lies outside'],
    [`{tune: ${ROW}.musicxml, font: ../f.ttf}`, 'column 46: error: ../f.ttf lies outside'],
    [`{tune: ${ROW}.musicxml, instrument: [../i.json]}`, 'error: ../i.json lies outside'],
    [`{tune: ${ROW}.musicxml, instrument: banjo}`, 'column 52: error: there is no instrument "banjo"'],
    [`{tune: ${ROW}.musicxml, to: text}`, 'error: a lesson is not written as text'],
    [
      `tune: ${ROW}.musicxml\nfrets: 4-30`,
      'line 2, column 8: error: frets 4-30 are no window on Ukulele, high G (window-off-the-neck)\n    | frets: 4-30\n    the neck has frets 0 to 18: write 4-18',
    ],
    [`tune: ${ROW}.musicxml\nfrets: 8-4`, 'line 2, column 8: error: "frets" does not take "8-4"'],
    [
      `tune: ${ROW}.musicxml\ntuning: x`,
      'line 2, column 9: error: "tuning" does not take "x": "x" is not a note with an octave',
    ],
    [
      `tune: ${ROW}.musicxml\npart: Flute`,
      'line 2, column 7: error: there is no part "Flute" (unknown-part)\n    | part',
    ],
    [`tune: ${ROW}.musicxml\nkey: H major`, 'line 2, column 6: error: '],
    [
      `tune: ${ROW}.musicxml\noctaves: 5`,
      'line 2, column 10: error: Ukulele, high G does not have 5 octaves',
    ],
    ['lesson: A', 'error: the lesson names no tune'],
    ['tune: a: b', 'error: this is not YAML'],
    ['tune: a\ntune: b', 'error: this key stands here a second time'],
    ['', 'error: the lesson names no tune'],
  ])('refuses %s', async (text, message) => {
    const here = terminal(ROW);
    await here.run('ln -s .. link');
    here.write('a.yaml', text);
    const { stdout, stderr, status } = await here.run('fretward lesson a.yaml');
    expect([status, stdout]).toEqual([1, '']);
    expect(stderr).toContain(message);
    expect(stderr).not.toMatch(/\n\s+at /);
  });

  it('makes the good lessons beside a bad one', async () => {
    const here = terminal(ROW);
    here.write('bad.yaml', 'tunes: x');
    here.write('good.yaml', `tune: ${ROW}.musicxml`);
    const { status } = await here.run('fretward lesson bad.yaml good.yaml none.yaml');
    expect(status).toBe(1);
    expect(here.files('good')).toContain('index.html');
  });
});

describe('a lesson of which an edition cannot be made', () => {
  const reason = 'B3 cannot be played on Ukulele, high G: pickup beat 1';

  it('has all sheets of the other one; message, page and booklet say what is missing', async () => {
    const here = terminal(MICHAEL);
    const lesson = `tune: ${MICHAEL}.musicxml\nfrets: 4-8\ntranspose: -1\nparts: [scale, quiz]\n`;
    here.write('a.yaml', `${lesson}instrument: [ukulele, ukulele-low-g]\n`);
    const line = 'fretward lesson a.yaml';
    const { stdout, stderr, status } = await here.run(line);
    expect(status).toBe(1);
    expect(stderr).toContain(`beat 1: error: ukulele is left out: ${reason}`);
    const made = ['booklet.pdf', 'mid', 'quiz.pdf', 'scale.pdf'].map(end => `a.ukulele-low-g.${end}`);
    expect(here.files('a')).toEqual([...made, 'index.html']);
    expect(stdout.trim().split('\n').sort()).toEqual(here.files('a').map(file => `a/${file}`));

    const page = here.read('a/index.html');
    expect(page).toContain('<a href="#edition-ukulele">Ukulele, high G</a>');
    expect(page).toContain(`There are no sheets for Ukulele, high G:</p>`);
    expect(page).toContain(reason);
    const links = [...page.matchAll(/href="([^"#][^"]*)"/g)].map(match => match[1]);
    expect(links.sort()).toEqual(made);

    const booklet = readFileSync(here.path('a/a.ukulele-low-g.booklet.pdf'));
    const cover = mupdf.Document.openDocument(booklet, 'application/pdf').loadPage(0);
    const words = cover.toStructuredText('preserve-whitespace').asText().replace(/\s+/g, ' ');
    expect(words).toContain(`There are no sheets for Ukulele, high G: – ${reason}`);

    // It is not forgotten when the sheets are up to date.
    for (const again of [line, `${line} --verify`]) {
      expect(await here.run(again)).toEqual({ stdout: '', stderr, status: 1 });
    }
    // What is made is what is made without the other edition, but for what is said of it.
    here.write('b/a.yaml', `${lesson.replace('tune: ', 'within: ..\ntune: ../')}instrument: ukulele-low-g\n`);
    await here.run('fretward lesson b/a.yaml');
    expect(
      (await here.run('for f in mid quiz.pdf scale.pdf; do cmp {a,b/a}/a.ukulele-low-g.$f; done')).stdout,
    ).toBe('');
  });

  it('is counted among several', async () => {
    const here = terminal(MICHAEL, ROW);
    here.write(
      'a.yaml',
      `{tune: ${MICHAEL}.musicxml, transpose: -1, instrument: 'ukulele, ukulele-low-g', parts: quiz}`,
    );
    here.write('b.yaml', `{tune: ${ROW}.musicxml, parts: quiz}`);
    const { stderr, status } = await here.run('fretward lesson a.yaml b.yaml');
    expect(status).toBe(1);
    expect(stderr).toContain('2 lessons: 2 written; 1 without one of the editions\n');
  });
});

describe('fretward schema lesson', () => {
  it('takes the examples and refuses what the command refuses', async () => {
    const [{ Ajv2020 }, { parse }] = await Promise.all([import('ajv/dist/2020.js'), import('yaml')]);
    const here = withExamples();
    const { stdout } = await here.run('fretward schema lesson');
    const valid = new Ajv2020({ allowUnionTypes: true }).compile(JSON.parse(stdout));
    for (const name of ['frets-4-to-8', 'two-windows']) {
      expect(valid(parse(here.read(`lessons/${name}.yaml`))), JSON.stringify(valid.errors)).toBe(true);
    }
    const tune = 'a.musicxml';
    expect(valid({ tune, capo: 2, 'one-place': true, parts: 'scale, tab', frets: '4-8' })).toBe(true);
    for (const bad of [
      {},
      { tune, fret: '4-8' },
      { tune, paper: 'a5' },
      { tune, parts: ['quizz'] },
      { tune, 'one-place': 'yes' },
    ])
      expect(valid(bad), JSON.stringify(bad)).toBe(false);
  });

  it('knows no other schema', async () => {
    const { stderr, status } = await terminal().run('fretward schema lessn');
    expect([status, stderr]).toEqual([
      2,
      'error: schema does not take "lessn" (usage)\n    is lesson meant? use one of lesson, arrangement\n',
    ]);
  });
});

describe.skipIf(!hasBrowser)('the page of a lesson in a browser', () => {
  it.each([
    ['on a phone', 390, 844],
    ['on a desk', 1280, 900],
  ])('shows every sheet %s, and asks for nothing', { timeout: 60_000 }, async (_, width, height) => {
    const here = withExamples();
    await here.run('fretward lesson lessons/two-windows.yaml --out out -q');
    const context = await browser(width, height);
    const page = await context.newPage();
    const asked: string[] = [];
    const said: string[] = [];
    page.on('request', request => asked.push(request.url()));
    page.on('console', message => said.push(message.text()));
    page.on('pageerror', error => said.push(error.message));
    const url = `file://${here.path('out/two-windows/index.html')}`;
    await page.goto(url);
    expect(asked.filter(each => !each.startsWith('data:'))).toEqual([url]);
    expect(said).toEqual([]);
    expect(await page.title()).toContain('Two windows in G');
    // Nothing sticks out at the side.
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(width);
    const drawings = page.getByRole('img');
    expect(await drawings.count()).toBe(2 * 8);
    for (const drawing of await drawings.all()) {
      const box = (await drawing.boundingBox())!;
      expect(box.width).toBeGreaterThan(Math.min(width, 700) * 0.85);
      expect(box.height).toBeGreaterThan(50);
    }
    // Glyphs that are defined once are found by each drawing.
    const drawn = (await page.evaluate(
      `[...document.querySelectorAll('svg[role=img]')].map(svg => [...svg.querySelectorAll('use')].every(use => use.getBBox().width > 0))`,
    )) as boolean[];
    expect(drawn.every(Boolean)).toBe(true);
    const faces = (await page.evaluate(
      `document.fonts.ready.then(fonts => [...fonts].filter(font => font.status === 'error').length)`,
    )) as number;
    expect(faces).toBe(0);
    // By keyboard, the first stop leads past the notes.
    await page.keyboard.press('Tab');
    expect(await page.evaluate('document.activeElement.textContent')).toBe('To the sheets');
    expect(await page.getByRole('link', { name: 'Booklet' }).count()).toBe(2);
    expect(await contrasts(page)).toBeGreaterThanOrEqual(4.5);
  });
});

/** The least contrast of text on white (WCAG 2.2, "contrast ratio" and "relative luminance"). */
const contrasts = async (page: { evaluate: (script: string) => Promise<unknown> }): Promise<number> => {
  const colours = (await page.evaluate(
    `[...new Set([...document.querySelectorAll('body *:not(svg *)')].map(each => getComputedStyle(each).color))]`,
  )) as string[];
  const ratios = colours.map(colour => {
    const [r, g, b] = colour.match(/\d+/g)!.map(each => {
      const part = Number(each) / 255;
      return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
    }) as [number, number, number];
    return 1.05 / (0.2126 * r + 0.7152 * g + 0.0722 * b + 0.05);
  });
  return Math.min(...ratios);
};
