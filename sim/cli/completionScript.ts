import type { Command } from './Command.ts';
import { COMMON_OPTIONS, OPTIONS, type OptionFacts, type OptionName } from './options.ts';

export const SHELLS = ['bash', 'zsh'] as const;

/**
 * The script that makes a shell complete commands, options, the values of a choice and the files of scenarios. It asks
 * nobody: all it knows stands in it.
 *
 * in: shell; commands, in the order of the help
 */
export function completionScript(shell: (typeof SHELLS)[number], commands: readonly Command[]): string {
  return shell === 'bash' ? bashScript(commands) : zshScript(commands);
}

/** Options that every command takes beside its own. */
const OF_ALL = ['--help'];

function optionsOf({ options }: Command): OptionName[] {
  return [...options, ...COMMON_OPTIONS];
}

/** What a value or a word is completed with. */
type Kind = 'folder' | 'file' | 'nothing' | readonly string[];

function kindOf({ unit, choices }: OptionFacts): Kind {
  if (choices !== undefined) return choices;
  return unit === 'folder' || unit === 'file' ? unit : 'nothing';
}

/** What the words of a command are: scenarios, files of any kind, a folder, one of a few words. */
function wordsOf({ words: [word = ''] }: Command): Kind | 'scenario' {
  if (word.includes('SCENARIO')) return 'scenario';
  if (word.includes('FOLDER')) return 'folder';
  if (word.includes('FILE')) return 'file';
  return word.includes('SHELL') ? SHELLS : 'nothing';
}

const BASH_WAYS = {
  folder: '_longnight_found -d',
  file: '_longnight_found -f',
  scenario: "_longnight_found -d; _longnight_found -f -X '!*.yaml'; _longnight_found -f -X '!*.yml'",
  nothing: ':',
} as const;

function bashScript(commands: readonly Command[]): string {
  const way = (kind: Kind | 'scenario') =>
    typeof kind === 'string' ? BASH_WAYS[kind] : `_longnight_found -W '${kind.join(' ')}'`;
  const ofWay = new Map<string, string[]>();
  for (const [name, facts] of Object.entries(OPTIONS) as [OptionName, OptionFacts][]) {
    if (facts.unit === undefined || facts.optional === true) continue;
    const own = way(kindOf(facts));
    ofWay.set(own, [...(ofWay.get(own) ?? []), `--${name}`]);
  }
  const values = [...ofWay].map(([own, names]) => `    ${names.join('|')}) ${own}; return ;;`);
  const names = [...commands.map(({ name }) => name), 'help', '--help', '--version'];
  const own = commands.flatMap((command) => {
    const options = [...optionsOf(command).map((option) => `--${option}`), ...OF_ALL].join(' ');
    return [
      `    ${command.name})`,
      `      if [[ $word == -* ]]; then _longnight_found -W '${options}'; else ${way(wordsOf(command))}; fi ;;`,
    ];
  });
  return `# Completes longnight in bash: source <(longnight completion bash)
_longnight() {
  local word=\${COMP_WORDS[COMP_CWORD]} before=\${COMP_WORDS[COMP_CWORD-1]}
  if [[ $word == = ]]; then word=; elif [[ $before == = ]]; then before=\${COMP_WORDS[COMP_CWORD-2]}; fi
  local IFS=$'\\n'
  COMPREPLY=()
  _longnight_found() { COMPREPLY+=($(IFS=' '; compgen "$@" -- "$word")); }
  if (( COMP_CWORD == 1 )); then _longnight_found -W '${names.join(' ')}'; return; fi
  compopt -o filenames 2>/dev/null
  case $before in
${values.join('\n')}
  esac
  case \${COMP_WORDS[1]} in
    help) _longnight_found -W '${commands.map(({ name }) => name).join(' ')}' ;;
${own.join('\n')}
  esac
}
complete -F _longnight longnight
`;
}

const ZSH_WAYS = {
  folder: '_files -/',
  file: '_files',
  scenario: '_files -g "*.(yaml|yml)(-.)"',
  nothing: ' ',
} as const;

function zshScript(commands: readonly Command[]): string {
  const way = (kind: Kind | 'scenario') =>
    typeof kind === 'string' ? ZSH_WAYS[kind] : `(${kind.join(' ')})`;
  const optionSpec = (name: OptionName) => {
    const facts: OptionFacts = OPTIONS[name];
    const about = facts.about.replace(/[[\]:\\]/g, '\\$&');
    if (facts.unit === undefined) return quoted(`--${name}[${about}]`);
    const value = facts.unit.split(',', 1)[0]!.replace(/[:\\]/g, '\\$&');
    return quoted(
      `*--${name}[${about}]${facts.optional === true ? '::' : ':'}${value}:${way(kindOf(facts))}`,
    );
  };
  const own = commands.flatMap((command) => [
    `    ${command.name})`,
    '      _arguments \\',
    ...optionsOf(command).map((option) => `        ${optionSpec(option)} \\`),
    `        ${quoted('--help[what it does, and its options]')} \\`,
    `        ${quoted(`*:word:${way(wordsOf(command))}`)} ;;`,
  ]);
  return `#compdef longnight
# Completes longnight in zsh: source <(longnight completion zsh)
_longnight() {
  local -a commands
  commands=(
${commands.map(({ name, about }) => `    ${quoted(`${name}:${about.replace(/[:\\]/g, '\\$&')}`)}`).join('\n')}
  )
  if (( CURRENT == 2 )); then _describe command commands; return; fi
  shift words
  (( CURRENT-- ))
  case $words[1] in
    help) _describe command commands ;;
${own.join('\n')}
  esac
}
if [[ $zsh_eval_context[-1] == loadautofunc ]]; then _longnight "$@"; else compdef _longnight longnight; fi
`;
}

function quoted(text: string): string {
  return `'${text.replaceAll("'", "'\\''")}'`;
}
