// Why a start ends: one plain sentence for the person at the terminal and the process's exit code.
// Thrown anywhere on the way to a served room, said and turned into the exit code by main.ts alone.

/** 2: the words after `npm start --` were wrong. 1: they were right and the start failed. */
export type ExitCode = 1 | 2

export class StartFailure extends Error {
  readonly exitCode: ExitCode

  constructor(sentence: string, exitCode: ExitCode = 1) {
    super(sentence)
    this.exitCode = exitCode
  }
}
