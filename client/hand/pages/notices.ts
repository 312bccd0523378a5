// What the lead is told and has not read: a quiet list, each with one press. Nothing here sounds.

import type { ComponentChild } from 'preact'
import { type NoticeShown, noticesView } from '../../../shared/views/noticesView.ts'
import { html } from '../../ui/html.ts'
import { noticeLine } from '../../ui/openWords.ts'
import { second } from '../../ui/press.ts'
import { formerHelper } from '../../ui/words.ts'
import { noticeWords } from '../callWords.ts'
import { frame } from '../frame.ts'
import type { Served } from '../hand.ts'
import { home, type Page } from '../page.ts'
import { handWords } from '../words.ts'

/** The line that opens the list; none while all is read. */
export function noticesLine(hand: Served): ComponentChild {
  const count = noticesView(hand.board, hand.names, hand.person).length
  if (count === 0) return null
  return second({
    id: 'notices',
    text: noticeWords.lines(count),
    onPress: () => hand.go({ type: 'notices' }),
  })
}

/** Where something can be done about it. */
function placeOf({ request, nest }: NoticeShown): Page | null {
  if (request) return { type: 'call', request }
  return nest ? { type: 'nest', nest: nest.nest } : null
}

function row(hand: Served, notice: NoticeShown): ComponentChild {
  const place = placeOf(notice)
  const words = noticeLine[notice.why](notice.nest?.label ?? '', notice.name ?? formerHelper)
  return html`<li key=${notice.no} class="card" data-testid=${`notice-${notice.why}`}>
    <p><b>${hand.say.time(notice.atMs)}</b> ${words}</p>
    <div class="pair">
      ${
        place
          ? second({
              id: `notice-open-${notice.no}`,
              text: noticeWords.open,
              onPress: () => hand.go(place),
            })
          : null
      }
      ${second({
        id: `notice-read-${notice.no}`,
        text: noticeWords.read,
        isOff: hand.ui.isAsking || !hand.snapshot.canAsk,
        onPress: () => void hand.actions.lead.acknowledge(notice.no),
      })}
    </div>
  </li>`
}

export function noticesPage(hand: Served): ComponentChild {
  const notices = noticesView(hand.board, hand.names, hand.person)
  return frame(hand, {
    id: 'notices',
    body: html`<h1>${notices.length === 0 ? noticeWords.none : noticeWords.title}</h1>
      <ul class="rows">${notices.map((notice) => row(hand, notice))}</ul>`,
    dock: second({ id: 'back', text: handWords.back, onPress: () => hand.go(home) }),
  })
}
