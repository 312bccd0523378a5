// Ending a call: what became of it, in ready words or in one's own.

import type { ComponentChild } from 'preact'
import { noteMax } from '../../shared/board/constants.ts'
import type { OpenCall } from '../../shared/views/deskOpen.ts'
import { outcomesOfCalls } from '../ui/openWords.ts'
import type { Served } from './desk.ts'
import { form, textField, textOf } from './form.ts'
import { openWords } from './words.ts'

export function resolveForm(desk: Served, { request, kind }: OpenCall): ComponentChild {
  return form(desk, {
    id: 'resolve',
    kind: 'ask',
    title: openWords.resolveTitle,
    body: textField({
      name: 'note',
      label: openWords.resolveWords,
      max: noteMax,
      hint: outcomesOfCalls[kind],
    }),
    submit: openWords.save,
    onSubmit: (data) => {
      const note = textOf(data, 'note').trim()
      const told = note === '' ? {} : { private: { note } }
      void desk.actions.ask('resolve', { type: 'ResolveRequest', v: 1, request, ...told })
    },
  })
}
