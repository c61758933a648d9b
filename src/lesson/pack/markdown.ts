/**
 * Markdown (CommonMark, from memory) → blocks of text, by the lexer of `marked`. What a page for students
 * has no use for becomes what it says: HTML its own characters, a picture its description, code its text.
 * No markup passes through: blocks hold text alone.
 */
import { marked, type Token, type Tokens } from 'marked';
import type { Block, Run, Words } from './prose.ts';

type Style = Omit<Run, 'text'>;

/** The blocks of a Markdown text. */
export const fromMarkdown = (text: string): readonly Block[] => blocksOf(marked.lexer(text, { gfm: false }));

const blocksOf = (tokens: readonly Token[]): readonly Block[] => tokens.flatMap(blockOf);

const blockOf = (token: Token): readonly Block[] => {
  switch (token.type) {
    case 'space':
    case 'def':
    case 'hr':
      return [];
    case 'heading':
      return [{ kind: 'heading', words: wordsOf((token as Tokens.Heading).tokens) }];
    case 'list':
      return [listBlock(token as Tokens.List)];
    case 'blockquote':
      return [{ kind: 'quote', blocks: blocksOf((token as Tokens.Blockquote).tokens) }];
    case 'code':
      return [{ kind: 'paragraph', words: [{ text: (token as Tokens.Code).text }] }];
    case 'html':
      return [{ kind: 'paragraph', words: [{ text: token.raw.trim() }] }];
    default:
      return [
        { kind: 'paragraph', words: wordsOf('tokens' in token && token.tokens ? token.tokens : [token]) },
      ];
  }
};

const listBlock = ({ ordered, start, items }: Tokens.List): Block => ({
  kind: 'list',
  from: ordered ? Number(start) : undefined,
  items: items.map(item => blocksOf(item.tokens)),
});

const wordsOf = (tokens: readonly Token[] | undefined, style: Style = {}): Words =>
  (tokens ?? []).flatMap(token => runsOf(token, style));

const runsOf = (token: Token, style: Style): Words => {
  switch (token.type) {
    case 'strong':
      return wordsOf((token as Tokens.Strong).tokens, { ...style, bold: true });
    case 'em':
      return wordsOf((token as Tokens.Em).tokens, { ...style, italic: true });
    case 'link':
      return wordsOf((token as Tokens.Link).tokens, withLink(style, (token as Tokens.Link).href));
    case 'br':
      return [{ ...style, text: '\n' }];
    case 'html':
      return [{ ...style, text: token.raw }];
    default: {
      if ('tokens' in token && token.tokens) return wordsOf(token.tokens, style);
      const text = 'text' in token ? String(token.text) : token.raw;
      // A line feed in the source is a space; only two spaces or a backslash before it break the line.
      return [{ ...style, text: token.type === 'codespan' ? text : text.replace(/\s*\n\s*/g, ' ') }];
    }
  }
};

/** Only addresses that open a page or a letter; anything else stays plain text. */
const withLink = (style: Style, href: string): Style =>
  /^(https?:\/\/|mailto:)/i.test(href) ? { ...style, href } : style;
