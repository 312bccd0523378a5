// The rules' own two functions, as the session takes them. Only what wires a page or a program imports
// this; the session itself is handed a brain, so that a test can hand it another.

import { hashBoard } from '../../shared/board/boardHash.ts'
import { evolve } from '../../shared/rules/evolve.ts'
import type { Brain } from './ports.ts'

export const realBrain: Brain = { evolve, hashBoard }
