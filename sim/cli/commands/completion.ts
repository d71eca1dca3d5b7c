import type { Arguments } from '../Command.ts';
import { COMMANDS } from '../commands.ts';
import { completionScript, SHELLS } from '../completionScript.ts';
import { EXIT, type Io } from '../Io.ts';
import { usageMistake } from '../usageProblem.ts';

/** Prints the script that makes a shell complete what is typed; nothing is written. */
export async function completionCommand(args: Arguments, io: Io): Promise<number> {
  const [typed] = args.words;
  const shell = SHELLS.find((each) => each === typed);
  if (shell === undefined)
    throw usageMistake(`the shell ${typed}`, SHELLS.join(' or '), 'longnight completion bash');
  io.stdout(completionScript(shell, COMMANDS));
  return EXIT.ran;
}
