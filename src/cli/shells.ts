/** Completion scripts: commands, their options, and the words that options take, for each shell. */
import type { CommandOutline, OptionOutline } from './outline.ts';

export const SHELLS = ['bash', 'zsh', 'fish'] as const;
export type Shell = (typeof SHELLS)[number];

/** The completion script of a shell. */
export const completionFor = (shell: Shell, commands: readonly CommandOutline[]): string =>
  SCRIPTS[shell](commands);

const flagsOf = ({ short, long }: OptionOutline): readonly string[] => (short ? [short, long] : [long]);

/** What an option completes to: words, folders, files, or nothing that a shell could know. */
const kindOf = ({ value = '', words }: OptionOutline): 'words' | 'folder' | 'file' | 'anything' => {
  if (words.length > 0) return 'words';
  if (value === '<folder>') return 'folder';
  return /^<(file|tune)>$/.test(value) ? 'file' : 'anything';
};

/** Programmable completion (GNU Bash manual, 8.6). */
const bash = (commands: readonly CommandOutline[]): string => {
  const cases = commands.map(({ name, options, words }) => {
    const valued = options
      .filter(option => option.value !== undefined)
      .map(
        option => `        ${flagsOf(option).join('|')}) ${BASH_VALUES[kindOf(option)](option)}; return ;;\n`,
      );
    const flags = options.flatMap(flagsOf).join(' ');
    return `    ${name})
      case "$before" in
${valued.join('')}      esac
      if [[ "$word" == -* ]]; then COMPREPLY=($(compgen -W "${flags}" -- "$word"))
      else ${words.length > 0 ? `COMPREPLY=($(compgen -W "${words.join(' ')}" -- "$word"))` : 'COMPREPLY=($(compgen -f -- "$word"))'}; fi ;;
`;
  });
  const names = [...commands.map(({ name }) => name), 'help'].join(' ');
  return `# fretward completion for bash; in ~/.bashrc: eval "$(fretward completion bash)"
_fretward() {
  local word="\${COMP_WORDS[COMP_CWORD]}" before="\${COMP_WORDS[COMP_CWORD-1]}"
  local IFS=$' \\t\\n'
  COMPREPLY=()
  if [ "$COMP_CWORD" -eq 1 ]; then
    COMPREPLY=($(compgen -W "${names} --help --version" -- "$word"))
    return
  fi
  case "\${COMP_WORDS[1]}" in
    help) COMPREPLY=($(compgen -W "${names}" -- "$word")) ;;
${cases.join('')}  esac
}
complete -o filenames -F _fretward fretward
`;
};

const BASH_VALUES = {
  words: ({ words }: OptionOutline) => `COMPREPLY=($(compgen -W "${words.join(' ')}" -- "$word"))`,
  folder: () => 'COMPREPLY=($(compgen -d -- "$word"))',
  file: () => 'COMPREPLY=($(compgen -f -- "$word"))',
  anything: () => ':',
};

/** The _arguments function (zsh manual, 20.4). */
const zsh = (commands: readonly CommandOutline[]): string => {
  const inBrackets = (help: string): string => help.replace(/[[\]\\:]/g, '\\$&').replaceAll("'", "'\\''");
  const specs = (option: OptionOutline): readonly string[] => {
    const value =
      option.value === undefined ? '' : `:${option.value.slice(1, -1)}:${ZSH_VALUES[kindOf(option)](option)}`;
    return flagsOf(option).map(flag => `'*${flag}[${inBrackets(option.help)}]${value}'`);
  };
  const cases = commands.map(({ name, options, words }) => {
    const last = words.length > 0 ? `'1:which:(${words.join(' ')})'` : "'*:file:_files'";
    return `    ${name})
      _arguments ${[...options.flatMap(specs), last].join(' \\\n        ')} ;;
`;
  });
  return `#compdef fretward
# fretward completion for zsh: save it as _fretward in a folder of $fpath
_fretward() {
  local -a commands=(
${commands.map(({ name, summary }) => `    '${name}:${inBrackets(summary)}'\n`).join('')}  )
  if (( CURRENT == 2 )); then
    _describe command commands
    return
  fi
  local command="$words[2]"
  shift words
  (( CURRENT-- ))
  case "$command" in
${cases.join('')}  esac
}
if [ "$funcstack[1]" = "_fretward" ]; then _fretward "$@"; else compdef _fretward fretward; fi
`;
};

const ZSH_VALUES = {
  words: ({ words }: OptionOutline) => `(${words.join(' ')})`,
  folder: () => '_files -/',
  file: () => '_files',
  anything: () => ' ',
};

/** The complete command (fish documentation, "complete"). */
const fish = (commands: readonly CommandOutline[]): string => {
  const quoted = (text: string): string => `'${text.replace(/[\\']/g, '\\$&')}'`;
  const lines = commands.flatMap(({ name, summary, options, words }) => [
    `complete -c fretward -n __fish_use_subcommand -f -a ${name} -d ${quoted(summary)}`,
    ...(words.length > 0
      ? [`complete -c fretward -n '__fish_seen_subcommand_from ${name}' -f -a ${quoted(words.join(' '))}`]
      : []),
    ...options.map(option => {
      const short = option.short ? ` -s ${option.short.slice(1)}` : '';
      const value = option.value === undefined ? '' : FISH_VALUES[kindOf(option)](option);
      return `complete -c fretward -n '__fish_seen_subcommand_from ${name}' -l ${option.long.slice(2)}${short}${value} -d ${quoted(option.help)}`;
    }),
  ]);
  return `# fretward completion for fish: save it as ~/.config/fish/completions/fretward.fish\n${lines.join('\n')}\n`;
};

const FISH_VALUES = {
  words: ({ words }: OptionOutline) => ` -x -a '${words.join(' ')}'`,
  folder: () => " -x -a '(__fish_complete_directories)'",
  file: () => ' -r',
  anything: () => ' -x',
};

const SCRIPTS: Readonly<Record<Shell, (commands: readonly CommandOutline[]) => string>> = { bash, zsh, fish };
