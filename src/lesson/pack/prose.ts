/** Words to the student as data: blocks of text, whatever they were written in and are printed as. */

/** A piece of text in one style. */
export interface Run {
  readonly text: string;
  readonly bold?: true;
  readonly italic?: true;
  /** Where it leads: a web or mail address. */
  readonly href?: string;
}

/** What stands on a line or runs on over several; a text may hold line feeds, which break it. */
export type Words = readonly Run[];

/** A paragraph, a heading, a list, … */
export type Block =
  | { readonly kind: 'paragraph'; readonly words: Words }
  | { readonly kind: 'heading'; readonly words: Words }
  | {
      readonly kind: 'list';
      /** Number of the first item; undefined where items are not counted. */
      readonly from: number | undefined;
      readonly items: readonly (readonly Block[])[];
    }
  | { readonly kind: 'quote'; readonly blocks: readonly Block[] };

/** A paragraph of plain words. */
export const paragraph = (text: string): Block => ({ kind: 'paragraph', words: [{ text }] });

/** A list of plain lines, not counted. */
export const listOf = (items: readonly string[]): Block => ({
  kind: 'list',
  from: undefined,
  items: items.map(item => [paragraph(item)]),
});
