// Somebody may have fed it: who is asked, since when and about which feed; and the three answers where
// they are this person's to give.

import type { ComponentChild } from 'preact'
import type { BirdId } from '../../shared/base/values.ts'
import type { OpenDoubt } from '../../shared/views/deskOpen.ts'
import { html } from '../ui/html.ts'
import { bandWords, capital } from '../ui/words.ts'
import type { Served } from './desk.ts'
import { form, tickField } from './form.ts'
import { formWords } from './nestWords.ts'
import { openCard, toNest } from './openCard.ts'
import { press } from './press.ts'
import { nameOr, openWords } from './words.ts'

function whoIsAsked(desk: Served, doubt: OpenDoubt): string {
  if (doubt.isMine) return openWords.yours
  if (doubt.kind === 'twice') return openWords.lookFirst
  if (!doubt.hasOwner) return openWords.nobodyAsked
  const since = desk.say.time(doubt.raisedAtMs)
  const name = nameOr(doubt.ownerName)
  return doubt.isQuiet ? openWords.asked(name, since) : openWords.askedAndOpen(name, since)
}

function titleOf(desk: Served, { kind, label, aboutAtMs }: OpenDoubt): string {
  const time = desk.say.time(aboutAtMs)
  if (kind === 'twice') return openWords.twice(label, time)
  return kind === 'setAside' ? openWords.aside(label, time) : openWords.perhaps(label, time)
}

function answers(desk: Served, { nest, no }: OpenDoubt): ComponentChild {
  const say = (said: 'all' | 'none') => () =>
    void desk.actions.report({
      type: 'SayWhatHappened',
      v: 1,
      nest,
      claimNo: no,
      said: { type: said },
    })
  return html`
    ${press({ id: `all-${no}`, text: openWords.all, onPress: say('all') })}
    ${press({ id: `some-${no}`, text: openWords.some, onPress: () => desk.change({ form: { type: 'whichFed', nest, no }, notice: null }) })}
    ${press({ id: `none-${no}`, text: openWords.none, onPress: say('none') })}
  `
}

function whichForm(desk: Served, { nest, no, label, birds }: OpenDoubt): ComponentChild {
  return form(desk, {
    id: 'which-fed',
    kind: 'report',
    title: openWords.whichTitle(label),
    body: birds.map((bird) =>
      tickField({ name: 'bird', label: capital(bandWords(bird)), value: bird.bird, isOn: false }),
    ),
    submit: formWords.saveAnswer,
    onSubmit: (data) => {
      const fed = data.getAll('bird').map((bird) => bird as BirdId)
      const said =
        fed.length === 0 ? { type: 'none' as const } : { type: 'some' as const, birds: fed }
      void desk.actions.report({ type: 'SayWhatHappened', v: 1, nest, claimNo: no, said })
    },
  })
}

export function doubtCard(desk: Served, doubt: OpenDoubt): ComponentChild {
  const { nest, no } = doubt
  const { form: open } = desk.ui
  const isAnswering = open?.type === 'whichFed' && open.nest === nest && open.no === no
  return openCard({
    id: `doubt-${nest}-${no}`,
    kind: 'plain',
    mark: doubt.kind === 'twice' ? 'twoMouths' : 'brokenMouth',
    title: titleOf(desk, doubt),
    lines: [whoIsAsked(desk, doubt)],
    link: toNest(desk, doubt),
    acts: doubt.isMine ? answers(desk, doubt) : null,
    form: isAnswering ? whichForm(desk, doubt) : null,
  })
}
