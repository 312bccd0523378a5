// Who answers for whom: the trainees with their mentors, and the choice of one.

import type { ComponentChild } from 'preact'
import type { PersonId } from '../../../shared/base/values.ts'
import {
  type MentorShown,
  mentorsFor,
  type TraineeShown,
  traineesView,
} from '../../../shared/views/mentorsView.ts'
import { html } from '../../ui/html.ts'
import { choice, second } from '../../ui/press.ts'
import { formerHelper } from '../../ui/words.ts'
import { leadWords } from '../callWords.ts'
import { frame } from '../frame.ts'
import type { Served } from '../hand.ts'
import { handWords } from '../words.ts'

const isOff = (hand: Served): boolean => hand.ui.isAsking || !hand.snapshot.canAsk

function trainees(hand: Served, all: readonly TraineeShown[]): ComponentChild {
  const row = ({ person, name, mentor, mentorName, isMentorAway }: TraineeShown) =>
    second({
      id: `trainee-${person}`,
      text: name ?? formerHelper,
      small: leadWords.mentorOf(mentor && (mentorName ?? formerHelper), isMentorAway),
      onPress: () => hand.go({ type: 'mentors', trainee: person }),
    })
  return frame(hand, {
    id: 'mentors',
    body: html`<h1>${all.length === 0 ? leadWords.noTrainees : leadWords.mentorsTitle}</h1>
      <div class="rows">${all.map(row)}</div>`,
    dock: second({ id: 'back', text: handWords.back, onPress: () => hand.go({ type: 'more' }) }),
  })
}

function choose(hand: Served, trainee: TraineeShown): ComponentChild {
  const set = (mentor: PersonId | null) => () =>
    void hand.actions.lead.setMentor(trainee.person, mentor)
  const mentors = mentorsFor(hand.board, hand.names, trainee.person)
  const row = ({ person, name, isHere }: MentorShown) =>
    choice({
      id: `mentor-${person}`,
      text: name ?? formerHelper,
      small: isHere ? leadWords.mentorHere : leadWords.mentorAway,
      isOn: trainee.mentor === person,
      isOff: isOff(hand),
      onPress: set(person),
    })
  return frame(hand, {
    id: 'mentor',
    body: html`<h1>${leadWords.mentorTitle(trainee.name ?? formerHelper)}</h1>
      ${mentors.length === 0 ? html`<p class="why">${leadWords.noMentors}</p>` : null}
      <div class="rows">
        ${mentors.map(row)}
        ${choice({
          id: 'mentor-none',
          text: leadWords.nobodyAnswers,
          isOn: trainee.mentor === null,
          isOff: isOff(hand),
          onPress: set(null),
        })}
      </div>`,
    dock: second({
      id: 'back',
      text: handWords.back,
      onPress: () => hand.go({ type: 'mentors', trainee: null }),
    }),
  })
}

export function mentorsPage(hand: Served, who: PersonId | null): ComponentChild {
  const all = traineesView(hand.board, hand.names)
  const trainee = all.find(({ person }) => person === who)
  return trainee ? choose(hand, trainee) : trainees(hand, all)
}
