import { createHash, type Hash } from 'node:crypto';
import {
  closeSync,
  copyFileSync,
  linkSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readdirSync,
  renameSync,
  rmdirSync,
  rmSync,
  statSync,
  writeSync,
} from 'node:fs';
import { hostname } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { kill, pid } from 'node:process';
import { DAY_MS } from '../common/time.ts';

/**
 * Files that grow piece by piece in a folder of their own beside their target, until all of them are moved into place at
 * once: what is half-written never takes the place of an earlier result. What a killed process left there, not finished,
 * is taken away: that of one which is gone, or of which nothing was touched for a day.
 */
export class UnfinishedFiles {
  private readonly folder: string;
  /** The outermost folder that was made for these. */
  private readonly made: string | undefined;
  private readonly workshop: string;
  private readonly files = new Map<string, { file: number; digest: Hash }>();

  /**
   * in: folder, made where it is not there
   * throws: Error of the disk (no permission, no space), as all that follows
   */
  constructor(folder: string) {
    this.folder = resolve(folder);
    this.made = mkdirSync(this.folder, { recursive: true });
    this.workshop = openWorkshop(this.folder);
  }

  /** Begins a file, empty as yet. in: name, folders before it where it is to lie in some */
  begin(name: string): void {
    const path = join(this.workshop, name);
    mkdirSync(dirname(path), { recursive: true });
    this.files.set(name, { file: openSync(path, 'wx'), digest: createHash('sha256') });
  }

  /** Adds to the end of a file that was begun. */
  append(name: string, piece: string | Uint8Array): void {
    const { file, digest } = this.files.get(name)!;
    const bytes = typeof piece === 'string' ? Buffer.from(piece, 'utf8') : piece;
    digest.update(bytes);
    for (let done = 0; done < bytes.length; ) done += writeSync(file, bytes, done);
  }

  /** SHA-256 of each file as it stands, hexadecimal, by name. */
  sums(): Record<string, string> {
    return Object.fromEntries(
      [...this.files].map(([name, { digest }]) => [name, digest.copy().digest('hex')]),
    );
  }

  /**
   * Moves all files into place, in the order in which they were begun; where that fails half-way, the files of an earlier
   * time are put back.
   *
   * in: folder, on the same disk, made where it is not there; known, names of all files that may stand there from an
   *   earlier time: those not written now are taken away
   */
  moveInto(folder: string, known: readonly string[]): void {
    mkdirSync(folder, { recursive: true });
    const names = [...this.files.keys()];
    this.close();
    moveIntoPlace(this.workshop, folder, names, known);
  }

  /**
   * Moves all files into place in one step: a folder that they lie in and nothing else.
   *
   * in: name, of that folder; target, where it is to stand, not there yet
   */
  moveFolder(name: string, target: string): void {
    this.close();
    renameSync(join(this.workshop, name), target);
  }

  /** Where a file is until it is moved. */
  pathOf(name: string): string {
    return join(this.workshop, name);
  }

  /** Takes away what is not in place, and folders made for it that are left empty. */
  discard(): void {
    this.close();
    rmSync(this.workshop, { recursive: true, force: true });
    if (this.made === undefined) return;
    try {
      for (let empty = this.folder; empty.length >= this.made.length; empty = dirname(empty))
        rmdirSync(empty);
    } catch {
      // Something stands in it, or it is gone by now.
    }
  }

  private close(): void {
    for (const { file } of this.files.values()) closeSync(file);
    this.files.clear();
  }
}

const UNFINISHED = /^\.unfinished-(?:([0-9a-f]+)-(\d+)-)?/;
/** This machine, in a few letters: the number of a process says nothing on another. */
const MACHINE = createHash('sha256').update(hostname()).digest('hex').slice(0, 8);

/** A folder for files that are not finished; those that killed processes left behind are taken away. */
function openWorkshop(folder: string): string {
  const workshop = mkdtempSync(join(folder, `.unfinished-${MACHINE}-${pid}-`));
  const now_ms = statSync(workshop).mtimeMs;
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    const other = join(folder, entry.name);
    const [unfinished, machine, owner] = UNFINISHED.exec(entry.name) ?? [];
    if (unfinished === undefined || !entry.isDirectory() || other === workshop) continue;
    try {
      const gone = machine === MACHINE && !isRunning(Number(owner));
      if (gone || lastTouched_ms(other) < now_ms - DAY_MS) rmSync(other, { recursive: true, force: true });
    } catch {
      // Somebody else's, or gone by now: it hinders nobody.
    }
  }
  return workshop;
}

function lastTouched_ms(folder: string): number {
  const paths = [folder, ...readdirSync(folder).map((name) => join(folder, name))];
  return Math.max(...paths.map((path) => statSync(path).mtimeMs));
}

function isRunning(owner: number): boolean {
  try {
    return kill(owner, 0);
  } catch (error) {
    // It runs, and is another user's.
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

/** Renames new files over those of an earlier time, and takes away what was not written now; all of it, or nothing. */
function moveIntoPlace(
  workshop: string,
  folder: string,
  files: readonly string[],
  known: readonly string[],
): void {
  const isFile = (name: string) => statSync(join(folder, name), { throwIfNoEntry: false })?.isFile() === true;
  const earlier = known.filter(isFile);
  for (const name of earlier) keepAs(join(folder, name), join(workshop, `earlier-${name}`));
  const moved: string[] = [];
  const folders: string[] = [];
  try {
    for (const name of files) {
      const made = mkdirSync(dirname(join(folder, name)), { recursive: true });
      if (made !== undefined) folders.push(made);
      renameSync(join(workshop, name), join(folder, name));
      moved.push(name);
    }
    for (const name of earlier) {
      if (!files.includes(name)) rmSync(join(folder, name));
    }
  } catch (error) {
    for (const name of moved) {
      if (earlier.includes(name)) renameSync(join(workshop, `earlier-${name}`), join(folder, name));
      else rmSync(join(folder, name), { force: true });
    }
    for (const made of folders) rmSync(made, { recursive: true, force: true });
    throw error;
  }
}

/** Keeps a file under another name too, at once however large it is; as a copy where the disk knows no links. */
function keepAs(path: string, other: string): void {
  try {
    linkSync(path, other);
  } catch {
    copyFileSync(path, other);
  }
}
