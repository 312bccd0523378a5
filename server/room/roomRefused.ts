// Why a room is not served, as one type: `main.ts` says it in a sentence and ends the start.

const sentences = {
  notFounded: 'there is no room in this folder',
  alreadyFounded: 'there is a room in this folder already',
  notWritable: 'the room can be read but nothing can be written to it',
  rulesFailed: 'the start of the room could not be decided; the log says why',
} as const

export class RoomRefused extends Error {
  readonly code: keyof typeof sentences

  constructor(code: keyof typeof sentences, dir: string) {
    super(`${dir}: ${sentences[code]}`)
    this.name = 'RoomRefused'
    this.code = code
  }
}
