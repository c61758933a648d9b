/** `fretward completion`: a script that lets a shell complete what is typed. */
import type { Command } from 'commander';
import { print } from '../console.ts';
import { defined } from '../define.ts';
import { EXIT } from '../exit.ts';
import { outlineOf } from '../outline.ts';
import { completionFor, SHELLS, type Shell } from '../shells.ts';

const EXAMPLES = `  eval "$(fretward completion bash)"
      in ~/.bashrc
  fretward completion zsh > ~/.zfunc/_fretward
      in a folder of yours that is in $fpath
  fretward completion fish > ~/.config/fish/completions/fretward.fish
      where fish looks for it; make the folder first`;

export const define = defined({
  argument: ['<shell>', 'which shell', SHELLS],
  examples: EXAMPLES,
});

export const run = async (
  [shell]: readonly string[],
  _typed: Readonly<Record<string, unknown>>,
  everything: () => Promise<Command>,
): Promise<number> => {
  print(completionFor(shell as Shell, outlineOf(await everything())));
  return EXIT.done;
};
