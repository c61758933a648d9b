/** Characters that the carried fonts lack: left to the reader's fonts, and named. */
import type { Diagnostic } from '../../score/diagnostic.ts';
import { carried } from '../font/face.ts';
import type { Page } from '../page.ts';

export function uncarried(pages: readonly Page[]): Diagnostic[] {
  const found = new Set<string>();
  for (const { groups } of pages)
    for (const { marks } of groups)
      for (const mark of marks)
        if (mark.kind === 'text')
          for (const each of mark.text) if (!carried(each, mark.face)) found.add(each);
  if (found.size === 0) return [];
  const names = [...found]
    .sort()
    .slice(0, 12)
    .map(each => `${each} (U+${each.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')})`);
  const more = found.size > names.length ? ` and ${found.size - names.length} more` : '';
  return [
    {
      severity: 'warning',
      code: 'characters-not-carried',
      message: `the sheets' own fonts have no ${names.join(', ')}${more}`,
      hint: 'they are shown in a font of the machine that opens the sheet, if it has one',
    },
  ];
}
