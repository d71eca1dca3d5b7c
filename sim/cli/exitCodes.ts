/** What the command line answers to the shell. */
export const EXIT = {
  /** Ran, whatever the verdict. */
  ran: 0,
  /** A defect, the disk, or a balance that does not close. */
  failed: 1,
  /** Bad usage or bad input. */
  badInput: 2,
  /** Ran, a promise is broken, and --must-keep was given. */
  promiseBroken: 3,
  interrupted: 130,
} as const;
