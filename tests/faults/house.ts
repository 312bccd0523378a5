// The house the server stands in: one folder, one port, and one process after the other.

import { originOf, type ServerPlace, ServerProcess } from './serverProcess.ts'

export class House {
  readonly #place: ServerPlace
  #server: ServerProcess

  private constructor(place: ServerPlace, server: ServerProcess) {
    this.#place = place
    this.#server = server
  }

  /** Starts the first server, on any free port; the later ones get the same. */
  static async open(place: Omit<ServerPlace, 'port'>): Promise<House> {
    const server = new ServerProcess({ ...place, port: 0 })
    return new House({ ...place, port: await server.serves() }, server)
  }

  get origin(): string {
    return originOf(this.#place.port)
  }

  /** The kill itself, at this very moment; `isDown` tells when it is over. */
  strike(): void {
    this.#server.strike()
  }

  async isDown(): Promise<void> {
    await this.#server.ended()
  }

  /** Starts a server; it does not serve yet. */
  begin(): void {
    this.#server = new ServerProcess(this.#place)
  }

  /** Throws, with the end of its log, when the server will not serve. */
  async serves(): Promise<void> {
    await this.#server.serves()
  }

  /** Asks the server to end; its exit code. */
  end(): Promise<number | null> {
    return this.#server.end()
  }
}
