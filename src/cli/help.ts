/** How help is laid out for the width of a terminal. */
import { Help } from 'commander';
import { fold } from '../emit/text/width.ts';
import { wrapped } from './width.ts';

/** With less room than this beside the names nothing can be read there, our judgement. */
const LEAST_ROOM = 28;
const INDENT = '      ';

/** The lists of options and commands: where a terminal is narrow, what one does stands under its name. */
export const HELP_LAYOUT: Partial<Help> = {
  minWidthToWrap: LEAST_ROOM,
  formatItem(term, termWidth, description, helper) {
    const width = helper.helpWidth ?? 80;
    if (width - termWidth - 4 >= LEAST_ROOM || description === '')
      return Help.prototype.formatItem.call(helper, term, termWidth, description, helper);
    const below = helper.boxWrap(description, width - INDENT.length);
    return `  ${term}\n${INDENT}${below.replaceAll('\n', `\n${INDENT}`)}`;
  },
};

/** What follows the lists: paragraphs filled anew, and indented lines, each by itself. */
export const helpText = (text: string, width: number): string =>
  text
    .replaceAll(/(?<=^\S.*)\n(?=\S)/gm, ' ')
    .split('\n')
    .map(line => (/^\S/.test(line) ? fold(line, width).join('\n') : wrapped(line, width)))
    .join('\n');
