/** One lesson: read the tune, make the pack, draw it, and write its files in memory. */
import type { Format, SheetStyle } from '../emit/formats.ts';
import type { PartOptions } from '../engrave/booklet/parts.ts';
import type { PartsAsked } from '../lesson/pack/make.ts';
import type { PackAsked, PackWords } from '../lesson/pack/pack.ts';
import { type Diagnostic, Refusal } from '../score/diagnostic.ts';
import type { MelodyChoice } from '../score/melody.ts';
import type { Input } from './inputs.ts';
import { filesOf } from './lesson-files.ts';
import { type Limits, loadTune, type Output } from './run.ts';
import { inFile, withoutRepeats } from './said.ts';

export interface LessonJob extends Omit<PackAsked, 'words' | 'details'> {
  readonly details: Omit<PartsAsked, 'cues'> & { readonly cues: CuesAsked };
  readonly tune: Input;
  readonly choice: MelodyChoice;
  readonly limits: Limits;
  readonly words: Omit<PackWords, 'lesson' | 'notes'> & {
    /** The title of the tune where it is undefined. */
    readonly lesson: string | undefined;
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

interface CuesAsked {
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
  try {
    const { tune, diagnostics } = await loadTune(job.tune, job.choice, job.limits);
    const words = {
      ...job.words,
      lesson: job.words.lesson ?? tune.title ?? job.stem,
      notes: job.words.notes === undefined ? [] : fromMarkdown(job.words.notes),
    };
    const cues = { every: job.details.cues.every, say: await speaker(job) };
    const made = makePack(tune, { ...job, words, details: { ...job.details, cues } });
    const files = await filesOf(made.pack, { ...job, style: withFooter(job.style, words) }, diagnostics);
    return {
      outputs: files.outputs,
      diagnostics: [
        ...inFile(job.tune.name, [...diagnostics, ...made.diagnostics]),
        ...withoutRepeats(files.diagnostics),
      ],
    };
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    throw new Refusal(...inFile(job.tune.name, error.diagnostics));
  }
};

/** Sheets of a pack say what they belong to, at the foot; where nothing is said, room is kept for the page number. */
const withFooter = (style: SheetStyle, { group, lesson }: PackWords): SheetStyle => {
  const footer = style.layout.footer ?? [group, lesson].filter(Boolean).join(' · ');
  return { ...style, layout: { ...style.layout, footer: footer === '' ? ' ' : footer } };
};

/** Cues as blocks of text; title and edition stand over them anyway. */
const speaker = async ({ details }: LessonJob): Promise<PartsAsked['cues']['say']> => {
  const [{ cuesToText, keepTogether }, { fromMarkdown }] = await Promise.all([
    import('../emit/text/cues.ts'),
    import('../lesson/pack/markdown.ts'),
  ]);
  const style = { strings: details.cues.strings, markup: 'markdown', width: 80, ascii: false } as const;
  return cues => fromMarkdown(keepTogether(cuesToText(cues, style))).slice(2);
};
