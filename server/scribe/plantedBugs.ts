// Mistakes the scribe must not make, each behind a flag that only the tests set: a simulation that
// cannot find one of them proves nothing. A real room is opened with none.

export type ScribeBugs = {
  /** Answers and tells the screens first, and writes afterwards. */
  readonly answersBeforeFlush?: true
  /** Goes on taking commands after a failed write or flush. */
  readonly shrugsAtFailedFlush?: true
  /** Takes a repeated command for a new one. */
  readonly takesRepeatsAnew?: true
  /** Takes a number beyond the next one, so that a lost command is never asked for. */
  readonly allowsLaneGaps?: true
  /** Writes the record that names a private text before the text. */
  readonly namesPrivateTextFirst?: true
  /** Applies what time has made due only when somebody sends a command. */
  readonly sleepsThroughTime?: true
  /** Forgets in a snapshot which commands were settled. */
  readonly leavesLanesOutOfSnapshot?: true
  /** Sends a returning screen one record too few. */
  readonly resumesOneShort?: true
}
