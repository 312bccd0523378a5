// Every change to the secrets as a pure step from one state of the file to the next, so that each is
// written whole or not at all. Who may ask for one is not decided here.

import type { InstantMs, LengthMs, PersonId } from '../../shared/base/values.ts'
import { peopleMax } from '../../shared/board/constants.ts'
import {
  type Code,
  codeLifeMs,
  codesMax,
  type Device,
  devicesPerRoomMax,
  firstLockMs,
  lockMaxMs,
  mayReportMs,
  type Pin,
  type SecretsData,
  type SignIn,
  signedInMaxMs,
  silentMs,
  wrongPinsToLock,
  wrongPinsToUnpair,
} from './secretsFile.ts'

/** How long a lock still holds. One that ends later than any may was set before the clock went back. */
export function lockedForMs(pin: Pin | null, nowMs: InstantMs): LengthMs {
  const leftMs = (pin?.lockedUntilMs ?? 0) - nowMs
  return leftMs > 0 && leftMs <= lockMaxMs ? leftMs : 0
}

const lockMsAfter = (wrongRunning: number): LengthMs =>
  wrongRunning < wrongPinsToLock
    ? 0
    : Math.min(lockMaxMs, firstLockMs * 2 ** (wrongRunning - wrongPinsToLock))

export const isUsable = (code: Code, nowMs: InstantMs): boolean =>
  nowMs < code.expiresAtMs && code.expiresAtMs - nowMs <= codeLifeMs

export const isSignedIn = ({ signedInAtMs, signedOutAtMs }: SignIn, nowMs: InstantMs): boolean =>
  signedOutAtMs === null && nowMs - signedInAtMs < signedInMaxMs

/** When a sign-in ended, by a tap or by itself. */
const endedAtMs = ({ signedInAtMs, signedOutAtMs }: SignIn): InstantMs =>
  signedOutAtMs ?? signedInAtMs + signedInMaxMs

export const mayStillReport = (signIn: SignIn, nowMs: InstantMs): boolean =>
  nowMs - endedAtMs(signIn) < mayReportMs

/** Null when the room has as many devices as it may and none of them is silent. */
export function withDevice(data: SecretsData, device: Omit<Device, 'id'>): SecretsData | null {
  const here = data.devices.filter(({ room }) => room === device.room)
  const longestSilent = [...here].sort((a, b) => a.lastSeenAtMs - b.lastSeenAtMs)[0]
  const isFull = here.length >= devicesPerRoomMax
  const isSilent = device.pairedAtMs - (longestSilent?.lastSeenAtMs ?? 0) >= silentMs
  if (isFull && !isSilent) return null
  const staying = isFull ? data.devices.filter((one) => one !== longestSilent) : data.devices
  const lastDeviceNo = data.lastDeviceNo + 1
  return { ...data, lastDeviceNo, devices: [...staying, { id: `d${lastDeviceNo}`, ...device }] }
}

export const withoutDevice = (data: SecretsData, id: string): SecretsData => ({
  ...data,
  devices: data.devices.filter((device) => device.id !== id),
})

const changedDevice = (data: SecretsData, id: string, change: (old: Device) => Device) => ({
  ...data,
  devices: data.devices.map((device) => (device.id === id ? change(device) : device)),
})

export interface WhoWhere {
  readonly device: string
  readonly room: string
  readonly person: PersonId
}

const isOf =
  ({ room, person }: { readonly room: string; readonly person: PersonId }) =>
  (pin: Pin): boolean =>
    pin.room === room && pin.person === person

/** The right PIN, or a new one chosen: the person is in, and nothing wrong is counted any more. */
export function withSignIn(data: SecretsData, who: WhoWhere, nowMs: InstantMs): SecretsData {
  const mine = { person: who.person, signedInAtMs: nowMs, signedOutAtMs: null }
  const pins = data.pins.map((pin) =>
    isOf(who)(pin) ? { ...pin, wrongRunning: 0, lockedUntilMs: 0 } : pin,
  )
  return changedDevice({ ...data, pins }, who.device, (device) => {
    const others = device.people.filter(
      (other) => other.person !== who.person && mayStillReport(other, nowMs),
    )
    return { ...device, wrongRunning: 0, people: [mine, ...others].slice(0, peopleMax) }
  })
}

export const withSignOut = (
  data: SecretsData,
  { device, person }: Pick<WhoWhere, 'device' | 'person'>,
  nowMs: InstantMs,
): SecretsData =>
  changedDevice(data, device, (old) => ({
    ...old,
    people: old.people.map((one) =>
      one.person === person && isSignedIn(one, nowMs) ? { ...one, signedOutAtMs: nowMs } : one,
    ),
  }))

/** A wrong PIN: the person's lock grows with each, and the device is unpaired in the end. */
export function withWrongPin(data: SecretsData, who: WhoWhere, nowMs: InstantMs): SecretsData {
  const pins = data.pins.map((pin) => {
    if (!isOf(who)(pin)) return pin
    const wrongRunning = pin.wrongRunning + 1
    return { ...pin, wrongRunning, lockedUntilMs: nowMs + lockMsAfter(wrongRunning) }
  })
  return withWrongTry({ ...data, pins }, who.device)
}

export function withWrongTry(data: SecretsData, device: string): SecretsData {
  const counted = changedDevice(data, device, (old) => ({
    ...old,
    wrongRunning: old.wrongRunning + 1,
  }))
  const isTooMany = counted.devices.some(
    ({ id, wrongRunning }) => id === device && wrongRunning >= wrongPinsToUnpair,
  )
  return isTooMany ? withoutDevice(counted, device) : counted
}

export const withPin = (data: SecretsData, pin: Omit<Pin, 'wrongRunning' | 'lockedUntilMs'>) => ({
  ...data,
  pins: [
    ...data.pins.filter((other) => !isOf(pin)(other)),
    { ...pin, wrongRunning: 0, lockedUntilMs: 0 },
  ],
})

export const withoutPin = (data: SecretsData, who: Pick<WhoWhere, 'room' | 'person'>) => ({
  ...data,
  pins: data.pins.filter((pin) => !isOf(who)(pin)),
})

/** Codes that are over are dropped in passing, and the oldest when there are too many. */
export const withCode = (data: SecretsData, code: Code, nowMs: InstantMs): SecretsData => ({
  ...data,
  codes: [...data.codes.filter((other) => isUsable(other, nowMs)), code].slice(-codesMax),
})

export const withoutCode = (data: SecretsData, code: Code): SecretsData => ({
  ...data,
  codes: data.codes.filter((other) => other.hash !== code.hash || other.room !== code.room),
})
