/** Characters that a sheet's fonts lack, by where they stand. */
import type { Role } from '../../engrave/drawing/role.ts';
import { carried, type FaceName } from '../../engrave/font/face.ts';
import type { Page } from '../../engrave/page.ts';
import type { Diagnostic } from '../../score/diagnostic.ts';
import type { Fonts } from './fonts.ts';

/** Spaces and invisible characters need no font. */
const NEEDS_NONE = /^[\s\p{Cc}\p{DI}]$/u;

/** Where text stands, as a reader of the page would say; other roles hold digits only. */
const PLACES: Partial<Record<Role, string>> = {
  heading: 'the heading or the foot',
  lyric: 'the lyrics',
  chord: 'the chord symbols',
  words: 'the words over the staff',
  ending: 'the endings',
  sign: 'the signs over the staff',
};

const MOST = 12;

/** A combining mark is shown on a dotted circle, as is usual. */
const named = (character: string): string =>
  `${/\p{M}/u.test(character) ? '\u25cc' : ''}${character} (U+${character.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')})`;

/** The missing characters of each place, in the order of the page. */
function missing(pages: readonly Page[], has: Has): Map<string, Set<string>> {
  const found = new Map<string, Set<string>>();
  for (const { groups } of pages)
    for (const { marks } of groups)
      for (const mark of marks) {
        if (mark.kind !== 'text') continue;
        for (const each of mark.text.normalize('NFC')) {
          if (has(each, mark.face) || NEEDS_NONE.test(each)) continue;
          const place = PLACES[mark.role] ?? 'the notation';
          found.set(place, (found.get(place) ?? new Set()).add(each));
        }
      }
  return found;
}

type Has = (character: string, face: FaceName) => boolean;

function listed(found: ReadonlyMap<string, ReadonlySet<string>>): string {
  let room = MOST;
  const parts: string[] = [];
  for (const [place, characters] of found) {
    const shown = [...characters].sort().slice(0, Math.max(1, room));
    room -= shown.length;
    const more = characters.size - shown.length;
    parts.push(`${shown.map(named).join(', ')}${more > 0 ? ` and ${more} more` : ''} in ${place}`);
  }
  return parts.join('; ');
}

/** For pages that show such characters in a font of the reader's machine. */
export function leftToTheReader(pages: readonly Page[]): readonly Diagnostic[] {
  const found = missing(pages, carried);
  if (found.size === 0) return [];
  return [
    {
      severity: 'warning',
      code: 'characters-not-carried',
      message: `the sheets' own fonts lack ${listed(found)}`,
      hint: 'open the sheet where a font has them, or write it with --to pdf --font <file>',
    },
  ];
}

/** For output that can show nothing but what its fonts have. */
export function notShown(
  pages: readonly Page[],
  fonts: Fonts,
  given: string | undefined,
): readonly Diagnostic[] {
  const found = missing(pages, (character, face) => fonts(face).some(font => font.has(character)));
  if (found.size === 0) return [];
  return [
    {
      severity: 'warning',
      code: 'characters-not-shown',
      message: `${given ? `neither the sheets' own fonts nor ${given} have` : "the sheets' own fonts lack"} ${listed(found)}`,
      hint: 'an empty box stands for each; give a font file that has them with --font',
    },
  ];
}
