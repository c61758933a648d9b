/** One lesson: read the tune, make the pack, draw it, and write its files in memory. */
import type { SheetStyle } from '../emit/formats.ts';
import type { PartsAsked } from '../lesson/pack/make.ts';
import type { PackWords } from '../lesson/pack/pack.ts';
import { afterSaying } from '../score/diagnostic.ts';
import type { Input } from './inputs.ts';
import type { LessonJob } from './job.ts';
import { filesOf } from './lesson-files.ts';
import { type Made, numbersOf, type Outcome, outcomeOf } from './outcome.ts';
import { loadTune } from './run.ts';
import { withoutRepeats } from './said.ts';

/** Makes all files of a lesson out of its tune, in memory; their names start with the input's stem. */
export const runLesson = (tune: Input, job: LessonJob): Promise<Outcome> =>
  outcomeOf(tune, () => makeFiles(tune, job));

const makeFiles = async (input: Input, job: LessonJob): Promise<Made> => {
  const [{ fromMarkdown }, { makePack }] = await Promise.all([
    import('../lesson/pack/markdown.ts'),
    import('../lesson/pack/pack.ts'),
  ]);
  const { tune, diagnostics } = await loadTune(input, job.choice, job.limits);
  const words = {
    ...job.words,
    lesson: job.words.lesson ?? tune.title ?? input.stem,
    notes: job.words.notes === undefined ? [] : fromMarkdown(job.words.notes),
  };
  const cues = { every: job.details.cues.every, say: await speaker(job) };
  const made = await afterSaying(diagnostics, () =>
    makePack(tune, { ...job, words, details: { ...job.details, cues } }),
  );
  const look = { ...job, stem: input.stem, style: withFooter(job.style, words) };
  const files = await filesOf(made.pack, look, diagnostics);
  return {
    outputs: files.outputs,
    editions: made.arranged.map(numbersOf),
    leftOut: made.pack.missing.map(({ instrument }) => instrument.id),
    diagnostics: [...diagnostics, ...made.diagnostics, ...withoutRepeats(files.diagnostics)],
  };
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
