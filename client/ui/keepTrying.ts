// For the few things a page needs from the server before it has a link: tried again for as long as the
// page is open, because nobody stands beside a wall to reload it.

const pauseMs = 3_000

/** What `attempt` resolves with, however many attempts it takes; every failure is told. */
export async function keepTrying<T>(
  attempt: () => Promise<T>,
  tellFailure: (error: unknown) => void,
): Promise<T> {
  for (;;) {
    try {
      return await attempt()
    } catch (error) {
      tellFailure(error)
      await new Promise((resolve) => setTimeout(resolve, pauseMs))
    }
  }
}
