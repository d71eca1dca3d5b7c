import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, realpathSync, renameSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));

/**
 * The program as it was at a commit, built in the temporary folder, once; ends the process with a message where git
 * or the commit is missing.
 *
 * in: commit; finish, what else is to be made there, once
 * out: its folder
 */
export function checkout(commit: string, finish: (folder: string) => void = () => {}): string {
  const before = join(tmpdir(), `longnight-${commit}`);
  if (existsSync(before)) return before;
  const tar = archive(commit);
  const folder = mkdtempSync(`${before}-`);
  execFileSync('tar', ['-x', '-C', folder], { input: tar });
  const { dependencies } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as {
    dependencies: Record<string, string>;
  };
  const here = Object.keys(dependencies).every((name) => existsSync(join(root, 'node_modules', name)));
  if (here) symlinkSync(realpathSync(join(root, 'node_modules')), join(folder, 'node_modules'));
  else execFileSync('npm', ['ci', '--ignore-scripts'], { cwd: folder, stdio: 'inherit' });
  execFileSync('npm', ['run', '--silent', 'build'], { cwd: folder, stdio: 'inherit' });
  finish(folder);
  renameSync(folder, before);
  return before;
}

function archive(commit: string): Buffer {
  try {
    return execFileSync('git', ['archive', commit], {
      cwd: root,
      maxBuffer: 2 ** 28,
      stdio: ['ignore', 'pipe', 'ignore'],
    });
  } catch (error) {
    const noGit = (error as NodeJS.ErrnoException).code === 'ENOENT';
    console.error(
      noGit
        ? `git is not here, so there is no commit ${commit} to compare with: install git, in a clone.`
        : `Commit ${commit}, to compare with, is not here: this is no clone, or a shallow one (git fetch --unshallow).`,
    );
    return process.exit(1);
  }
}
