/** The files of a pack: its parts in every format, a booklet for each edition, and the page for the class. */
import type { FileLink, IndexEdition } from '../emit/html.ts';
import { isPageFormat, PAGE_WRITERS } from '../emit/pages.ts';
import type { Section } from '../engrave/booklet/booklet.ts';
import type { Page } from '../engrave/page.ts';
import type { Edition, Pack, Part } from '../lesson/pack/pack.ts';
import { PARTS } from '../lesson/pack/parts.ts';
import type { Block } from '../lesson/pack/prose.ts';
import type { Diagnostic } from '../score/diagnostic.ts';
import type { Tune } from '../score/tune.ts';
import type { LessonJob } from './job.ts';
import { INDEX, pageName } from './names.ts';
import type { Output } from './outcome.ts';

interface Drawn {
  readonly part: Part;
  readonly pages: readonly Page[];
  readonly files: readonly FileLink[];
}

/** How the files of a lesson look and are called. */
export interface FilesAsked extends Pick<LessonJob, 'words' | 'formats' | 'style' | 'diagrams'> {
  /** Start of their names. */
  readonly stem: string;
}

interface Files {
  readonly outputs: readonly Output[];
  readonly diagnostics: readonly Diagnostic[];
}

/** Every file of a pack, in memory; `said` is what reading the tune had to say. */
export const filesOf = async (pack: Pack, job: FilesAsked, said: readonly Diagnostic[]): Promise<Files> => {
  const outputs: Output[] = [];
  const diagnostics: Diagnostic[] = [];
  const editions: IndexEdition[] = [];
  for (const edition of pack.editions) {
    const start = `${job.stem}.${edition.arrangement.instrument.id}`;
    const parts: Drawn[] = [];
    for (const part of edition.parts) {
      const drawn = await drawPart(part, `${start}.${part.name}`, job);
      outputs.push(...drawn.outputs);
      diagnostics.push(...drawn.diagnostics);
      parts.push(drawn);
    }
    const track = await writeTune(pack.tune, edition, start, job, said);
    outputs.push(...track.outputs);
    diagnostics.push(...track.diagnostics);
    const booklet = await bind(pack, edition, parts, job);
    outputs.push({ name: `${start}.booklet.pdf`, content: booklet });
    editions.push(indexEdition(edition, parts, track.files, `${start}.booklet.pdf`));
  }
  const [{ indexToHtml }, { tuneLine }] = await Promise.all([
    import('../emit/html.ts'),
    import('../engrave/booklet/booklet.ts'),
  ]);
  const { tune, words } = pack;
  const content = indexToHtml({
    language: job.words.language,
    ...words,
    lines: tuneLine(pack),
    rights: tune.rights,
    editions,
    missing: pack.missing.map(({ instrument: { id, name }, reasons }) => ({ id, name, reasons })),
  });
  return { outputs: [...outputs, { name: INDEX, content }], diagnostics };
};

/** The pages of a part, and its files in all formats that show it. */
const drawPart = async (
  part: Part,
  stem: string,
  { style, diagrams, formats }: FilesAsked,
): Promise<Drawn & Files> => {
  const { partPages } = await import('../engrave/booklet/parts.ts');
  const { pages, diagnostics: drawing } = partPages(part, { ...style.layout, ...diagrams });
  const outputs: Output[] = [];
  const files: FileLink[] = [];
  const diagnostics: Diagnostic[] = [...drawing];
  for (const format of formats) {
    const { name } = format;
    if (!isPageFormat(name)) continue;
    const written = await PAGE_WRITERS[name](pages, style);
    diagnostics.push(...written.diagnostics);
    written.pages.forEach((content, index) => {
      const output = { name: pageName(stem, format, index + 1), content };
      const page = written.pages.length > 1 ? `, page ${index + 1}` : '';
      outputs.push(output);
      files.push({
        href: encodeURIComponent(output.name),
        text: `${part.title}${page} (${name.toUpperCase()})`,
      });
    });
  }
  return { part, pages, files, outputs, diagnostics };
};

/** The tune itself in all formats that are not pages, once for an edition. */
const writeTune = async (
  tune: Tune,
  { arrangement, said: arranging }: Edition,
  stem: string,
  { style, formats }: FilesAsked,
  reading: readonly Diagnostic[],
) => {
  const outputs: Output[] = [];
  const files: FileLink[] = [];
  const diagnostics: Diagnostic[] = [];
  for (const format of formats.filter(each => each.per === 'edition')) {
    const { pages, diagnostics: own } = await format.render(tune, arrangement, 'tab', style, [
      ...reading,
      ...arranging,
    ]);
    const name = `${stem}.${format.extension}`;
    outputs.push({ name, content: pages[0]! });
    files.push({
      href: encodeURIComponent(name),
      text: TUNE_FILES[format.name] ?? `The tune (${format.name})`,
    });
    diagnostics.push(...own);
  }
  return { outputs, files, diagnostics };
};

const TUNE_FILES: Readonly<Record<string, string>> = {
  midi: 'Practice track (MIDI)',
  musicxml: 'The tune with its fingering (MusicXML)',
  mxl: 'The tune with its fingering (MusicXML, compressed)',
  json: 'The tune with its fingering (JSON, for programs)',
};

/** The booklet of an edition. What its fonts lack, the parts have said. */
const bind = async (pack: Pack, edition: Edition, parts: readonly Drawn[], { style }: FilesAsked) => {
  const { bookletPages } = await import('../engrave/booklet/booklet.ts');
  const sections = parts
    .filter(({ pages }) => pages.length > 0)
    .map(({ part, pages }): Section => ({ title: part.title, pages }));
  const { pages } = await PAGE_WRITERS.pdf(bookletPages(pack, edition, sections, style.layout), style);
  return pages[0]!;
};

const indexEdition = (
  edition: Edition,
  parts: readonly Drawn[],
  files: readonly FileLink[],
  booklet: string,
): IndexEdition => ({
  id: edition.arrangement.instrument.id,
  name: edition.arrangement.instrument.name,
  booklet: { href: encodeURIComponent(booklet), text: 'Booklet: all sheets in one (PDF)' },
  parts: parts.map(({ part, pages, files }) => ({
    title: part.title,
    summary: PARTS[part.name].summary,
    // Words are read as words; everything else is looked at.
    pages: wordsOf(part).length > 0 ? [] : pages,
    words: wordsOf(part),
    files,
  })),
  files,
  differences: edition.differences,
});

const wordsOf = ({ contents }: Part): readonly Block[] =>
  contents.flatMap(content => (content.kind === 'cues' ? content.words : []));
