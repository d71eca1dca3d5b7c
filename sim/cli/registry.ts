import type { Command } from './Command.ts';
import { checkCommand } from './commands/check.ts';
import { compareCommand } from './commands/compare.ts';
import { fitCommand } from './commands/fit.ts';
import { runCommand } from './commands/run.ts';
import { weatherCommand } from './commands/weather.ts';

/** Every command, in the order of the help. A new one is a file in commands/ and a line here. */
export const COMMANDS: readonly Command[] = [
  runCommand,
  compareCommand,
  weatherCommand,
  fitCommand,
  checkCommand,
];
