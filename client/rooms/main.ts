// The page of whoever named no room, or has yet to choose one: asks the server for its rooms, until it
// answers, and lists them.

import { render } from 'preact'
import { html } from '../ui/html.ts'
import { keepTrying } from '../ui/keepTrying.ts'
import { type ListedRoom, roomsPage, screensOf } from './page.ts'
import { roomsWords } from './words.ts'

async function askForRooms(): Promise<readonly ListedRoom[]> {
  const answer = await fetch('/api/room')
  if (!answer.ok) throw new Error(`/api/room answered ${answer.status}`)
  const { rooms } = (await answer.json()) as { rooms: readonly ListedRoom[] }
  return rooms
}

async function start(root: HTMLElement): Promise<void> {
  render(html`<h1>${roomsWords.looking}</h1>`, root)
  const rooms = await keepTrying(askForRooms, (error) => console.error('no list of rooms', error))
  render(roomsPage(rooms, screensOf(location.pathname)), root)
}

const root = document.getElementById('rooms')
if (root) void start(root)
