// Watching a room: hello, welcome, records and beats, and the word NOT LIVE. This is all a wall needs
// and all it loads: by itself it sends a hello and nothing else. What writes (`session.ts`) stands on top
// of it, sends through it once it is welcomed, and gets the frames that are not about the board.

import type { InstantMs, LengthMs, PersonId } from '../../shared/base/values.ts'
import type {
  Beat,
  FaultCode,
  FromScreen,
  FromServer,
  HouseCondition,
  ScreenKind,
  ToOne,
  Welcome,
} from '../../shared/wire/frames.ts'
import { notLiveMs, protocolVersion } from '../../shared/wire/limits.ts'
import { ConfirmedBoard, type Misfit, type VersionSeen } from './confirmedBoard.ts'
import { Connection, type ConnectionPorts } from './connection.ts'
import type { Brain, Told } from './ports.ts'
import type { Liveness, NotLiveWhy, RoomSnapshot } from './roomSnapshot.ts'
import { RoomTime } from './roomTime.ts'
import { Subscribers } from './subscribers.ts'

export type RoomPorts = ConnectionPorts & {
  readonly brain: Brain
  readonly room: string
  readonly screen: ScreenKind
  /** For tests: every version as it comes to stand. */
  readonly seen?: (seen: VersionSeen) => void
}

/** What the writing side is told. The wall has none. */
export interface RoomFollower {
  /** Asked for each hello. */
  token(): string | null
  welcomed(welcome: Welcome): void
  lost(): void
  frame(frame: ToOne): void
}

const nobody: RoomFollower = {
  token: () => null,
  welcomed: () => undefined,
  lost: () => undefined,
  frame: () => undefined,
}

export class RoomWatch {
  readonly #ports: RoomPorts
  readonly #follower: RoomFollower
  readonly #connection: Connection
  readonly #confirmed: ConfirmedBoard
  readonly #time: RoomTime
  readonly #subscribers: Subscribers<RoomSnapshot>
  #isWaiting = false
  #isWelcomed = false
  #wantsWhole = false
  #isSilent = false
  #refused: Exclude<NotLiveWhy, 'silent'> | null = null
  #asked: Told = { epoch: 0, version: 0 }
  #house: readonly HouseCondition[] = []
  #device: Welcome['device'] = null
  #cancelSilence: () => void = () => undefined

  constructor(ports: RoomPorts, follower: RoomFollower = nobody) {
    this.#ports = ports
    this.#follower = follower
    this.#time = new RoomTime(ports.timers)
    this.#subscribers = new Subscribers(ports.complain)
    this.#confirmed = new ConfirmedBoard(
      ports.brain,
      ports.complain,
      ports.seen ?? (() => undefined),
    )
    this.#connection = new Connection(ports, {
      opened: () => this.#sayHello(),
      frame: (frame) => this.#take(frame),
      lost: () => this.#lost(),
    })
  }

  /** From now on ten seconds without a word are a silence, whether a link has been tried or not. */
  awaitWord(): void {
    if (this.#isWaiting) return
    this.#isWaiting = true
    this.#armSilence()
  }

  start(): void {
    this.awaitWord()
    this.#connection.start()
  }

  stop(): void {
    this.#cancelSilence()
    this.#isWaiting = false
    this.#isWelcomed = false
    this.#connection.stop()
  }

  /** Called at every change from now on; returns the function that ends it. */
  subscribe(tell: (snapshot: RoomSnapshot) => void): () => void {
    return this.#subscribers.add(tell)
  }

  snapshot(): RoomSnapshot {
    const { board, epoch, version, names } = this.#confirmed
    return {
      board,
      epoch,
      version,
      names,
      liveness: this.#liveness(),
      house: this.#house,
      device: this.#device,
      roomNowMs: this.#time.nowMs(),
      speed: this.#time.speed,
    }
  }

  roomNowMs(): InstantMs | null {
    return this.#time.nowMs()
  }

  // For the writing side.

  get isLive(): boolean {
    return this.#isWelcomed && this.#refused === null
  }

  get epoch(): number {
    return this.#confirmed.epoch
  }
  get version(): number {
    return this.#confirmed.version
  }
  get signedIn(): readonly PersonId[] {
    return this.#device?.signedIn ?? []
  }

  heardBefore(monoMs: number): InstantMs | null {
    return this.#time.heardBefore(monoMs)
  }

  /** The room's time so much real time ago; null before anything was heard. */
  roomAgoMs(agoMs: LengthMs): InstantMs | null {
    const nowMs = this.#time.nowMs()
    return nowMs === null ? null : nowMs - this.#time.roomLengthMs(agoMs)
  }

  get told(): Told {
    return this.#confirmed.told
  }

  tell(told: Told): void {
    this.#confirmed.tell(told)
  }

  send(frame: FromScreen): void {
    if (this.#isWelcomed) this.#connection.send(frame)
  }

  /** Starts over with a new hello. */
  reconnect(): void {
    this.#connection.drop()
  }

  #sayHello(): void {
    const { epoch, version } = this.#confirmed
    this.#asked = this.#wantsWhole ? { epoch: 0, version: 0 } : { epoch, version }
    const token = this.#follower.token()
    this.#connection.send({
      type: 'hello',
      protocol: protocolVersion,
      room: this.#ports.room,
      screen: this.#ports.screen,
      ...(token === null ? {} : { token }),
      ...this.#asked,
    })
  }

  /** What a frame sets off may be our mistake; a new link and a whole board mend more than a dead page. */
  #take(frame: FromServer): void {
    try {
      if (this.#isWelcomed) this.#takeWelcomed(frame)
      else this.#takeFirst(frame)
    } catch (error) {
      this.#ports.complain(`a ${frame.type} frame could not be taken`, error)
      this.#startOver()
    }
    this.#tellAll()
  }

  /** Before the welcome only two things mean anything; a record of before has no board to stand on. */
  #takeFirst(frame: FromServer): void {
    if (frame.type === 'fault') this.#refuse(frame.code)
    if (frame.type !== 'welcome') return
    if (frame.protocol !== protocolVersion) this.#refuse('protocolOther')
    else this.#welcome(frame)
  }

  #welcome(welcome: Welcome): void {
    const misfit = this.#confirmed.welcome(welcome, this.#asked)
    if (misfit !== null) {
      this.#misfit(misfit)
      return
    }
    this.#isWelcomed = true
    this.#wantsWhole = false
    this.#refused = null
    this.#house = []
    this.#device = welcome.device
    this.#time.welcomed(welcome.nowMs, welcome.speed)
    this.#heard()
    this.#follower.welcomed(welcome)
  }

  #takeWelcomed(frame: FromServer): void {
    if (frame.type === 'welcome') return
    this.#heard()
    if (frame.type === 'record') this.#misfit(this.#confirmed.record(frame))
    else if (frame.type === 'beat') this.#beat(frame)
    else {
      if (frame.type === 'signedIn' && this.#device !== null) {
        this.#device = { ...this.#device, signedIn: frame.people }
      }
      this.#follower.frame(frame)
    }
  }

  #beat(beat: Beat): void {
    this.#time.heard(beat.nowMs)
    this.#house = beat.house
    const misfit = this.#confirmed.beat(beat)
    if (misfit === null) this.#connection.steady()
    else this.#misfit(misfit)
  }

  #misfit(misfit: Misfit | null): void {
    if (misfit === null) return
    this.#ports.complain('the board is asked for anew', misfit)
    if (misfit === 'behind' || misfit === 'otherBoard') this.#refused = misfit
    this.#startOver()
  }

  #refuse(code: FaultCode): void {
    this.#refused = code
    this.#connection.drop()
  }

  #startOver(): void {
    this.#wantsWhole = true
    this.#connection.drop()
  }

  #lost(): void {
    if (this.#isWelcomed) {
      this.#isWelcomed = false
      this.#follower.lost()
    }
    this.#tellAll()
  }

  #heard(): void {
    this.#isSilent = false
    this.#connection.heard()
    this.#armSilence()
  }

  /** Runs through lost links and new attempts: only the room's own word ends a silence. */
  #armSilence(): void {
    this.#cancelSilence()
    this.#cancelSilence = this.#ports.timers.after(notLiveMs, () => {
      this.#isSilent = true
      this.#tellAll()
    })
  }

  #liveness(): Liveness {
    if (this.#refused !== null) return this.#notLive(this.#refused)
    if (this.#isSilent) return this.#notLive('silent')
    return { status: this.#isWelcomed ? 'live' : 'connecting' }
  }

  #notLive(why: NotLiveWhy): Liveness {
    return { status: 'notLive', sinceMs: this.#time.lastHeardMs(), why }
  }

  #tellAll(): void {
    this.#subscribers.tellAll(this.snapshot())
  }
}
