// Which pages may talk to this server: its own, under the names a browser on this machine has for it.
// Asked at the socket's handshake and before pairing. Nothing is answered across origins, so there are
// no CORS headers anywhere: another site's page gets no answer it could read.

/** The only address served: off this machine a room needs TLS first. */
export const loopbackHost = '127.0.0.1'

/** In the order a person is shown them; the first is the one printed. */
export const ownOrigins = (port: number): readonly string[] => [
  `http://${loopbackHost}:${port}`,
  `http://localhost:${port}`,
]

export const isOwnOrigin = (origin: string | undefined, port: number): boolean =>
  origin !== undefined && ownOrigins(port).includes(origin)

/**
 * Whether a socket's handshake may go on. A browser sends an Origin with every handshake and cannot
 * leave it out; a program that sends none (a simulated person, a test) could as well send ours, so
 * refusing it would protect nobody.
 */
export const mayOpenSocket = (origin: string | undefined, port: number): boolean =>
  origin === undefined || isOwnOrigin(origin, port)
