// Who is at the desk: a name, then a PIN; at the first sign-in a one-time code and a PIN of one's own.
// Somebody already signed in on this device is a click away.

import type { ComponentChild } from 'preact'
import { type NameTile, signInView } from '../../shared/views/signInView.ts'
import { html } from '../ui/html.ts'
import { roleWords } from '../ui/words.ts'
import type { Desk } from './desk.ts'
import { textOf } from './form.ts'
import { press } from './press.ts'
import type { SigningIn } from './ui.ts'
import { headWords, nameOr, signInWords } from './words.ts'

function tile(desk: Desk, one: NameTile): ComponentChild {
  const choose = () =>
    one.isSignedIn
      ? desk.actions.serve(one.person)
      : desk.change({ signingIn: { person: one.person, how: 'pin' }, notice: null })
  return html`<li key=${one.person}>
    <button type="button" class="tile" data-testid=${`tile-${one.person}`} onClick=${choose}>
      <b>${nameOr(one.name)}</b>
      <small>${one.isSignedIn ? signInWords.signedIn : roleWords[one.role]}</small>
    </button>
  </li>`
}

const secret = (name: string, label: string): ComponentChild => html`<label class="field">
  <span>${label}</span>
  <input
    type="password"
    name=${name}
    data-testid=${`field-${name}`}
    inputmode="numeric"
    autocomplete="off"
    pattern="[0-9]{4,10}"
    required
  />
</label>`

function enter(desk: Desk, { person, how }: SigningIn, data: FormData): void {
  const pin = textOf(data, 'pin')
  if (how === 'pin') void desk.actions.signIn(person, pin)
  else if (pin !== textOf(data, 'again')) desk.change({ notice: signInWords.differ })
  else void desk.actions.redeem(person, { code: textOf(data, 'code'), pin })
}

function pinForm(desk: Desk, signingIn: SigningIn): ComponentChild {
  const { person, how } = signingIn
  const name = desk.say.person(person)
  const send = (event: SubmitEvent) => {
    event.preventDefault()
    const { currentTarget: filled } = event
    if (filled instanceof HTMLFormElement) enter(desk, signingIn, new FormData(filled))
  }
  const other = how === 'pin' ? 'code' : 'pin'
  return html`<form class="form" data-testid="form-sign-in" onSubmit=${send} key=${how}>
    <h2>${how === 'pin' ? signInWords.pinOf(name) : signInWords.codeOf(name)}</h2>
    <div class="fields">
      ${
        how === 'pin'
          ? secret('pin', signInWords.pin)
          : html`${secret('code', signInWords.code)} ${secret('pin', signInWords.newPin)}
            ${secret('again', signInWords.newPinAgain)}`
      }
    </div>
    ${desk.ui.notice === null ? null : html`<p class="notice" role="alert" data-testid="notice">${desk.ui.notice}</p>`}
    <p class="acts">
      <button type="submit" class="act main" data-testid="enter" disabled=${desk.ui.asking !== null}>
        ${desk.ui.asking === null ? signInWords.enter : headWords.asking}
      </button>
      ${press({ id: 'use-other', text: other === 'code' ? signInWords.useCode : signInWords.usePin, onPress: () => desk.change({ signingIn: { person, how: other }, notice: null }) })}
      ${press({ id: 'other-person', text: signInWords.other, onPress: () => desk.change({ signingIn: null, notice: null }) })}
    </p>
  </form>`
}

export function signInPage(desk: Desk): ComponentChild {
  const { signingIn } = desk.ui
  const tiles = signInView(desk.board, desk.names, desk.snapshot.signedIn)
  return html`<main class="sign-in" data-testid="page-sign-in">
    ${
      signingIn
        ? html`<section>${pinForm(desk, signingIn)}</section>`
        : html`<section>
            <h2>${signInWords.title}</h2>
            ${tiles.length === 0 ? html`<p>${signInWords.nobody}</p>` : null}
            <ul class="tiles">
              ${tiles.map((one) => tile(desk, one))}
            </ul>
          </section>`
    }
  </main>`
}
