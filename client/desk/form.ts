// The one form that is open: its fields keep what is typed by themselves until it is sent, so that the
// page can be redrawn every second under somebody's fingers. What a form means is its own file's.

import type { ComponentChild } from 'preact'
import { html } from '../ui/html.ts'
import type { Desk } from './desk.ts'
import { formWords } from './nestWords.ts'
import { isAskOff, press } from './press.ts'
import { headWords } from './words.ts'

type FormParts = {
  readonly id: string
  readonly title: string
  readonly help?: string
  readonly body: ComponentChild
  readonly submit: string
  /** A record is kept even while the room is not live; an ask is not. */
  readonly kind: 'ask' | 'report'
  readonly onSubmit: (data: FormData) => void
}

/** A form with its heading, its fields, and the two ways out of it. */
export function form(desk: Desk, parts: FormParts): ComponentChild {
  const { id, title, help, body, submit, kind, onSubmit } = parts
  const isOff = kind === 'ask' && isAskOff(desk)
  const send = (event: SubmitEvent) => {
    event.preventDefault()
    if (event.currentTarget instanceof HTMLFormElement) onSubmit(new FormData(event.currentTarget))
  }
  return html`<form class="form" data-testid=${`form-${id}`} onSubmit=${send} key=${id}>
    <h3>${title}</h3>
    ${help ? html`<p class="soft">${help}</p>` : null}
    <div class="fields">${body}</div>
    ${desk.ui.notice === null ? null : html`<p class="notice" role="alert" data-testid="notice">${desk.ui.notice}</p>`}
    <p class="acts">
      <button type="submit" class="act main" data-testid=${`${id}-save`} disabled=${isOff}>
        ${desk.ui.asking === id ? headWords.asking : submit}
      </button>
      ${cancel(desk)}
    </p>
  </form>`
}

export const cancel = (desk: Desk): ComponentChild =>
  press({
    id: 'cancel',
    text: headWords.cancel,
    onPress: () => desk.change({ form: null, notice: null }),
  })

export const textOf = (data: FormData, name: string): string => {
  const value = data.get(name)
  return typeof value === 'string' ? value : ''
}

type Field = { readonly name: string; readonly label: string }

export const textField = ({
  name,
  label,
  start,
  max,
  hint,
  isNeeded,
}: Field & {
  readonly start?: string
  readonly max: number
  /** Ready words to choose from; anything else may be typed. */
  readonly hint?: readonly string[]
  readonly isNeeded?: boolean
}): ComponentChild => html`<label class="field">
  <span>${label}</span>
  <input
    name=${name}
    data-testid=${`field-${name}`}
    defaultValue=${start ?? ''}
    maxlength=${max}
    autocomplete="off"
    required=${isNeeded ?? false}
    list=${hint ? `${name}-ready` : undefined}
  />
  ${hint ? html`<datalist id=${`${name}-ready`}>${hint.map((one) => html`<option value=${one} key=${one} />`)}</datalist>` : null}
</label>`

export type Option = { readonly value: string; readonly text: string }

/** Without a start nothing is chosen, and something must be. */
export const choiceField = ({
  name,
  label,
  options,
  start,
}: Field & {
  readonly options: readonly Option[]
  readonly start?: string
}): ComponentChild => html`<label class="field">
  <span>${label}</span>
  <select name=${name} data-testid=${`field-${name}`} required=${start === undefined}>
    ${start === undefined ? html`<option value="" key="choose">${formWords.choose}</option>` : null}
    ${options.map(({ value, text }) => html`<option value=${value} key=${value} selected=${value === start}>${text}</option>`)}
  </select>
</label>`

export const tickField = ({
  name,
  label,
  value,
  isOn,
}: Field & {
  readonly value: string
  readonly isOn: boolean
}): ComponentChild => html`<label class="tick">
  <input type="checkbox" name=${name} value=${value} defaultChecked=${isOn} data-testid=${`tick-${value}`} />
  <span>${label}</span>
</label>`
