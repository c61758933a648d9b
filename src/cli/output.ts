/** What becomes of an arrangement: which sheets in which formats, how they look, and where they go. */
import { join } from 'node:path';
import { writeFiles } from '../batch/files.ts';
import type { Printing } from '../batch/job.ts';
import type { Output } from '../batch/outcome.ts';
import { formatNamed } from '../emit/formats.ts';
import { print } from './console.ts';
import { UsageError } from './exit.ts';
import { readFont } from './font.ts';
import type { Options, PRINTING } from './options/options.ts';
import { DEFAULT_SHEETS, layoutOf } from './options/sheets.ts';
import { painter } from './paint.ts';

export type OutputOptions = Options<(typeof PRINTING)[number]>;

/** Files below a folder, or standard output. */
export type Destination =
  | { readonly kind: 'folder'; readonly path: string }
  | { readonly kind: 'text' }
  | { readonly kind: 'single' };

/** Where outputs go. Throws a UsageError where formats and destination do not go together. */
export const destinationOf = ({ to, out, sheets }: OutputOptions): Destination => {
  if (out === '-') {
    if ((to?.length ?? 1) > 1 || (sheets?.length ?? 1) > 1) {
      throw new UsageError(
        '--out - takes a single sheet',
        'name one format with --to and one kind with --sheets',
      );
    }
    return { kind: 'single' };
  }
  if (out !== undefined) return { kind: 'folder', path: out };
  const files = to?.filter(name => name !== 'text') ?? [];
  if (files.length > 0) {
    throw new UsageError(
      `--to ${files.join(',')} writes files`,
      'say where with --out <folder>, or write --to text',
    );
  }
  return { kind: 'text' };
};

/** What is printed, and how it looks. */
export const printingOf = async (options: OutputOptions, destination: Destination): Promise<Printing> => ({
  formats: [...new Set(options.to ?? ['text'])].map(formatNamed),
  sheets: options.sheets ?? (destination.kind === 'folder' ? DEFAULT_SHEETS : ['tab']),
  style: {
    layout: layoutOf(options),
    width: options.width ?? (destination.kind === 'folder' ? undefined : process.stdout.columns) ?? 80,
    ascii: options.ascii ?? false,
    dpi: options.dpi ?? 150,
    transparent: options.transparent ?? false,
    font: options.font === undefined ? undefined : readFont(options.font),
    practice: {
      tempo: options.tempo,
      percent: options.slow,
      countIn: options.countIn,
      chords: options.accompany,
    },
    staves: options.staves === 2 ? 2 : 1,
    paint: await painter(options.color !== false && destination.kind !== 'folder'),
  },
});

/** Writes outputs and names the files. Throws a Refusal where they cannot be written. */
export const deliver = (outputs: readonly Output[], destination: Destination, quiet: boolean): void => {
  if (destination.kind === 'folder') {
    const files = outputs.map(({ name, content }) => ({ path: join(destination.path, name), content }));
    writeFiles(files);
    if (!quiet) print(files.map(({ path }) => `${path}\n`).join(''));
    return;
  }
  if (destination.kind === 'single' && outputs.length > 1) {
    throw new UsageError(
      `--out - takes a single sheet, and this makes ${outputs.length} (${outputs.map(({ name }) => name).join(', ')})`,
      'use --out <folder>',
    );
  }
  const contents = outputs.map(({ content }) => content);
  if (contents.every(each => typeof each === 'string')) {
    print(contents.map(each => (each.endsWith('\n') ? each : `${each}\n`)).join('\n'));
    return;
  }
  if (process.stdout.isTTY) {
    throw new UsageError('a terminal cannot show this format', 'use --out <folder>, or > and a file name');
  }
  for (const each of contents) print(each);
};
