// What a start prints on stdout: where to look, how to sign in, and what this program does not do. It
// is for the person at the terminal; the log goes elsewhere.

import type { Role } from '../../shared/board/constants.ts'

export type PrintedRoom = {
  readonly id: string
  readonly title: string
  /** Only where anybody may know them. */
  readonly demoSignIns: readonly {
    readonly name: string
    readonly role: Role
    readonly pin: string
  }[]
  /** For the first person of a room in which nobody has a PIN yet. */
  readonly firstCode: string | null
}

export type Printed = {
  /** Such as `http://127.0.0.1:7310`. */
  readonly origin: string
  readonly rooms: readonly PrintedRoom[]
  /** Rooms of the folder that are not served, each with a sentence that says why. */
  readonly refused: readonly { readonly id: string; readonly why: string }[]
  readonly hasMadeDemo: boolean
  readonly codeLifeMinutes: number
}

const roleNames: Readonly<Record<Role, string>> = {
  trainee: 'trainee',
  volunteer: 'volunteer',
  lead: 'shift lead',
  permitHolder: 'permit holder',
  vet: 'vet',
}

export function printedText(printed: Printed): string {
  const made = printed.hasMadeDemo
    ? ['There was no room in this folder, so the demo rooms were made.', '']
    : []
  const rooms = printed.rooms.flatMap((room) => roomLines(printed, room))
  return [
    ...made,
    ...rooms,
    ...printed.refused.flatMap(({ id, why }) => [`The room ${id} is not served. ${why}`, '']),
    ...(printed.rooms.length + printed.refused.length > 1
      ? [`All rooms are listed at ${printed.origin}/`, '']
      : []),
    'Nobody outside the room is ever called, at night no more than by day.',
    '',
  ].join('\n')
}

function roomLines(printed: Printed, { id, title, demoSignIns, firstCode }: PrintedRoom): string[] {
  const { origin, codeLifeMinutes } = printed
  return [
    title,
    `  wall      ${origin}/${id}/wall`,
    `  handheld  ${origin}/${id}/hand`,
    `  desk      ${origin}/${id}/desk`,
    ...(demoSignIns.length === 0
      ? []
      : ['  This is a demo: people and birds are invented. Sign in as']),
    ...demoSignIns.map(
      ({ name, role, pin }) => `    ${name.padEnd(8)} PIN ${pin}  ${roleNames[role]}`,
    ),
    ...(firstCode === null
      ? []
      : [
          `  One-time code of the permit holder: ${firstCode}, good for ${codeLifeMinutes} minutes`,
        ]),
    '',
  ]
}
