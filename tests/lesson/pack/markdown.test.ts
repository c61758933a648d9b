import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { proseToHtml } from '../../../src/emit/html/prose.ts';
import { fromMarkdown } from '../../../src/lesson/pack/markdown.ts';

const html = (text: string): string => proseToHtml(fromMarkdown(text), 'h3').html;

describe('Markdown', () => {
  it('has paragraphs, styles, headings, lists and quotes', () => {
    expect(html('One *two*\nthree **four**.\n\n## Five\n\n> six')).toBe(
      '<p>One <em>two</em> three <strong>four</strong>.</p>\n<h3>Five</h3>\n<blockquote><p>six</p></blockquote>',
    );
    expect(html('- one\n- two\n\n3. three\n4. four')).toBe(
      '<ul><li>one</li><li>two</li></ul>\n<ol start="3"><li>three</li><li>four</li></ol>',
    );
    expect(html('one\\\ntwo')).toBe('<p>one<br>two</p>');
    expect(html('B♭ & **F♯**')).toBe('<p>B♭ &amp; <strong>F♯</strong></p>');
  });

  it('links to pages and letters alone', () => {
    expect(html('[a](https://example.org/?a=1&b=2)')).toBe(
      '<p><a href="https://example.org/?a=1&amp;b=2">a</a></p>',
    );
    expect(html('[a](mailto:a@example.org)')).toContain('href="mailto:');
    for (const address of [
      'javascript:alert(1)',
      'JaVaScRiPt:alert(1)',
      'data:text/html,x',
      'file:///etc',
      'x.html',
    ])
      expect(html(`[a](${address})`), address).toBe('<p>a</p>');
  });

  it('shows markup as the characters that it is', () => {
    expect(html('a <b onclick="x()">c</b>')).toBe('<p>a &lt;b onclick=&quot;x()&quot;&gt;c&lt;/b&gt;</p>');
    expect(html('<script>alert(1)</script>')).toBe('<p>&lt;script&gt;alert(1)&lt;/script&gt;</p>');
    expect(html('![a picture](https://example.org/a.png)')).toBe('<p>a picture</p>');
    expect(html('`<i>`')).toBe('<p>&lt;i&gt;</p>');
  });

  it('lets through no tag and no attribute but its own, whatever is written', () => {
    const pieces = fc.constantFrom(
      '<',
      '>',
      '"',
      "'",
      '&',
      '*',
      '**',
      '`',
      '[',
      ']',
      '(',
      ')',
      '!',
      '\n',
      '\n\n',
      '- ',
      '1. ',
      '> ',
      '# ',
      'a',
      'b ',
      '\\',
      '<script>',
      '</p>',
      'javascript:',
      'https://e.org/',
      '<!--',
      '-->',
      '&lt;',
      '~',
      '|',
    );
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 40 }), words => {
        const tags = html(words.join('')).match(/<[^>]*>/g) ?? [];
        for (const tag of tags)
          expect(tag).toMatch(
            /^<(\/?(p|h3|ul|ol|li|blockquote|em|strong)|br|ol start="\d+"|a href="(https?:\/\/|mailto:)[^"<>]*"|\/a)>$/,
          );
      }),
      { numRuns: 2000 },
    );
  });
});
