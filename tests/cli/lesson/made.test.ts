/** `fretward lesson`: everything that a lesson hands out, and a file to begin with. */
import { readFileSync } from 'node:fs';
import * as mupdf from 'mupdf';
import { describe, expect, it } from 'vitest';
import { MICHAEL, ROW, terminal } from '../terminal.ts';
import { withExamples } from './examples.ts';

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
});
