// Calls and offers: calling help, coming or not, what became of it; taking or passing on what one is
// asked; a bird that was missing and is found.

import type { NestId, RequestId } from '../../shared/base/values.ts'
import type { Acting } from './acting.ts'
import { home } from './page.ts'

export class CallActions {
  readonly #acting: Acting

  constructor(acting: Acting) {
    this.#acting = acting
  }

  /** One tap, from wherever somebody is; the page stays what it was. */
  async help(nest: NestId | null): Promise<void> {
    const where = nest === null ? {} : { nest }
    await this.#acting.report({ type: 'CallHelp', v: 1, ...where })
  }

  take(request: RequestId): Promise<boolean> {
    return this.#acting.ask({ type: 'TakeRequest', v: 1, request }, home)
  }

  decline(request: RequestId): Promise<boolean> {
    return this.#acting.ask({ type: 'DeclineRequest', v: 1, request }, home)
  }

  /** Over, with what became of it; `note` is null where there is nothing to tell. */
  resolve(request: RequestId, note: string | null): Promise<boolean> {
    const words = note === null ? {} : { private: { note } }
    return this.#acting.ask({ type: 'ResolveRequest', v: 1, request, ...words }, home)
  }

  /** A call made by mistake: it ends where one is, and nobody is asked for words. */
  undo(request: RequestId): Promise<boolean> {
    return this.#acting.ask({ type: 'ResolveRequest', v: 1, request }, null)
  }

  declineOffer(nest: NestId): Promise<boolean> {
    return this.#acting.ask({ type: 'DeclineOffer', v: 1, nest }, home)
  }

  async found(nest: NestId): Promise<void> {
    await this.#acting.report({ type: 'BirdFound', v: 1, nest })
  }
}
