// How far a figure of the trade can be trusted, and where it was seen. Every default the program
// shows carries both, so that a supervisor can judge it before relying on it.

/**
 * read: seen in the named source. derived: arithmetic on read figures.
 * practice: common practice, no published source. memory: unverified, never checked against.
 */
export type Trust = 'read' | 'derived' | 'practice' | 'memory'

/** `source` names a page, a paper, or says "common practice, no source". */
export type Sourced = { readonly source: string; readonly trust: Trust }

/** The source of everything nestling rooms do without having written it down. */
export const commonPractice: Sourced = { source: 'common practice, no source', trust: 'practice' }
