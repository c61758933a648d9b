/** One lesson: read the tune, make the pack, draw it, and write its files in memory. */

import type { Format, SheetStyle } from '../emit/formats.ts';
import type { FileLink, IndexEdition } from '../emit/html.ts';
import { PAGE_WRITERS, type PageFormat } from '../emit/pages.ts';
import type { Section } from '../engrave/booklet/booklet.ts';
import type { PartOptions } from '../engrave/booklet/parts.ts';
import type { Page } from '../engrave/page.ts';
import type { PartsAsked } from '../lesson/pack/make.ts';
import type { Edition, Pack, PackAsked, PackWords, Part } from '../lesson/pack/pack.ts';
import { PARTS as PART_ROWS } from '../lesson/pack/parts.ts';
import type { Block } from '../lesson/pack/prose.ts';
import { type Diagnostic, Refusal } from '../score/diagnostic.ts';
import type { MelodyChoice } from '../score/melody.ts';
import type { Input } from './inputs.ts';
import { type Limits, loadTune, type Output } from './run.ts';

export interface LessonJob extends Omit<PackAsked, 'words' | 'details'> {
  readonly details: Omit<PartsAsked, 'cues'> & { readonly cues: CuesAsked };
  readonly tune: Input;
  readonly choice: MelodyChoice;
  readonly limits: Limits;
  readonly words: Omit<PackWords, 'notes'> & {
    /** Markdown. */
    readonly notes: string | undefined;
    /** BCP 47 tag of the language it is written in. */
    readonly language: string;
  };
  /** Of the files of single parts, and of the tune; booklets are PDF. */
  readonly formats: readonly Format[];
  readonly style: SheetStyle;
  /** How diagrams are drawn, beyond the layout of all sheets. */
  readonly diagrams: Pick<PartOptions, 'leftHanded' | 'show' | 'upright'>;
  /** Start of the names of its files. */
  readonly stem: string;
}

export interface CuesAsked {
  readonly every: number | undefined;
  /** How strings are called. */
  readonly strings: 'names' | 'numbers';
}

export interface LessonOutcome {
  readonly outputs: readonly Output[];
  /** About the tune, those carry the name of its file. */
  readonly diagnostics: readonly Diagnostic[];
}

/** Makes all files of a lesson. Throws a Refusal where one of them cannot be made. */
export const runLesson = async (job: LessonJob): Promise<LessonOutcome> => {
  const { fromMarkdown } = await import('../lesson/pack/markdown.ts');
  const { makePack } = await import('../lesson/pack/pack.ts');
  const said = job.words;
  const words = { ...said, notes: said.notes === undefined ? [] : fromMarkdown(said.notes) };
  const named = (diagnostics: readonly Diagnostic[]): readonly Diagnostic[] =>
    diagnostics.map(each => ({ ...each, place: { file: job.tune.name, ...each.place } }));
  try {
    const { tune, diagnostics } = await loadTune(job.tune, job.choice, job.limits);
    const cues = { every: job.details.cues.every, say: await speaker(job) };
    const made = makePack(tune, { ...job, words, details: { ...job.details, cues } });
    const files = await filesOf(made.pack, job);
    return {
      outputs: files.outputs,
      diagnostics: [...named([...diagnostics, ...made.diagnostics]), ...withoutRepeats(files.diagnostics)],
    };
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    throw new Refusal(...named(error.diagnostics));
  }
};

/** Cues as blocks of text; title and edition stand over them anyway. */
const speaker = async ({ details }: LessonJob): Promise<PartsAsked['cues']['say']> => {
  const [{ cuesToText }, { fromMarkdown }] = await Promise.all([
    import('../emit/text/cues.ts'),
    import('../lesson/pack/markdown.ts'),
  ]);
  const style = { strings: details.cues.strings, markup: 'markdown', width: 80, ascii: false } as const;
  return cues => fromMarkdown(cuesToText(cues, style)).slice(2);
};

interface Drawn {
  readonly part: Part;
  readonly pages: readonly Page[];
  readonly files: readonly FileLink[];
}

interface Made {
  readonly outputs: readonly Output[];
  readonly diagnostics: readonly Diagnostic[];
}

const filesOf = async (pack: Pack, job: LessonJob): Promise<LessonOutcome> => {
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
    const track = await writeTune(pack, edition, start, job);
    outputs.push(...track.outputs);
    diagnostics.push(...track.diagnostics);
    const booklet = await bind(pack, edition, parts, job);
    outputs.push({ name: `${start}.booklet.pdf`, content: booklet });
    editions.push(indexEdition(edition, parts, track.files, `${start}.booklet.pdf`));
  }
  const { indexToHtml } = await import('../emit/html.ts');
  const { tune, words } = pack;
  const content = indexToHtml({
    language: job.words.language,
    ...words,
    lines: [[tune.title, tune.composer].filter(Boolean).join(' · ')].filter(line => line !== ''),
    rights: tune.rights,
    editions,
  });
  return { outputs: [...outputs, { name: 'index.html', content }], diagnostics };
};

/** The pages of a part, and its files in all formats that show it. */
const drawPart = async (
  part: Part,
  stem: string,
  { style, diagrams, formats }: LessonJob,
): Promise<Drawn & Made> => {
  const { partPages } = await import('../engrave/booklet/parts.ts');
  const { pages, diagnostics: drawing } = partPages(part, { ...style.layout, ...diagrams });
  const outputs: Output[] = [];
  const files: FileLink[] = [];
  const diagnostics: Diagnostic[] = [...drawing];
  for (const { name, extension } of formats) {
    if (!isPageFormat(name)) continue;
    const written = await PAGE_WRITERS[name](pages, style);
    diagnostics.push(...written.diagnostics);
    written.pages.forEach((content, index) => {
      const output = { name: `${stem}${index > 0 ? `.${index + 1}` : ''}.${extension}`, content };
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

const isPageFormat = (name: string): name is PageFormat => name in PAGE_WRITERS;

/** The tune itself in all formats that are not pages, once for an edition. */
const writeTune = async (
  pack: Pack,
  { arrangement }: Edition,
  stem: string,
  { style, formats }: LessonJob,
) => {
  const outputs: Output[] = [];
  const files: FileLink[] = [];
  const diagnostics: Diagnostic[] = [];
  for (const format of formats.filter(each => each.per === 'edition')) {
    const { pages, diagnostics: own } = await format.render(pack.tune, arrangement, 'tab', style);
    const name = `${stem}.${format.extension}`;
    outputs.push({ name, content: pages[0]! });
    files.push({
      href: encodeURIComponent(name),
      text: `${TUNE_FILES[format.name] ?? 'The tune'} (${format.extension.toUpperCase()})`,
    });
    diagnostics.push(...own);
  }
  return { outputs, files, diagnostics };
};

const TUNE_FILES: Readonly<Record<string, string>> = {
  midi: 'Practice track',
  musicxml: 'The tune with its fingering',
};

/** The booklet of an edition. What its fonts lack, the parts have said. */
const bind = async (pack: Pack, edition: Edition, parts: readonly Drawn[], { style }: LessonJob) => {
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
    summary: PART_ROWS[part.name].summary,
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

/** The same warning for the second part or edition is said once. */
const withoutRepeats = (diagnostics: readonly Diagnostic[]): readonly Diagnostic[] => {
  const seen = new Set<string>();
  return diagnostics.filter(each => {
    const key = JSON.stringify(each);
    return !seen.has(key) && seen.add(key);
  });
};
