// Which room this page is for: named in its path, as in /nursery/hand, or the only one there is.

/** The room's id; null where the house has several and the path names none. */
export async function roomOfPage(path: string): Promise<string | null> {
  const parts = path.split('/').filter((part) => part !== '')
  if (parts.length > 1) return parts[0] ?? null
  const answer = await fetch('/api/room')
  if (!answer.ok) throw new Error(`/api/room answered ${answer.status}`)
  const { rooms } = (await answer.json()) as { rooms: readonly { readonly id: string }[] }
  return rooms.length === 1 ? (rooms[0]?.id ?? null) : null
}
