import type { Command } from './Command.ts';

/**
 * The examples that lead a help text.
 *
 * in: commands, all; command, whose help it is (the first example of each where undefined)
 * out: lines, each example under what it is for, ending in a line break
 */
export function helpExamples(commands: readonly Command[], command: Command | undefined): string {
  const examples = command?.examples ?? commands.flatMap((each) => each.examples.slice(0, 1));
  return `Examples\n${examples.map(([typed, purpose]) => `  # ${purpose}\n  ${typed}\n`).join('')}`;
}
