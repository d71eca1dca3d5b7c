/** All that a command may touch of the world outside, so that tests can stand in for it. */
export interface Io {
  /** Results. */
  stdout: (text: string) => void;
  /** Talk, problems, progress. */
  stderr: (text: string) => void;
  /** Whether a person watches. */
  isTTY: { stdout: boolean; stderr: boolean };
  env: Readonly<Record<string, string | undefined>>;
  /** Folder that relative paths start from; '' is the process's own. */
  cwd: string;
}
