// The closing line of `npm test` tells the truth: what counts as failed in vitest's report.
import { expect, it } from 'vitest'
import { countOf } from './checks.mjs'

const loaded = { status: 'passed', assertionResults: [{ status: 'passed' }] }
const clean = {
  numPassedTests: 3,
  numFailedTests: 0,
  numPendingTests: 0,
  numTodoTests: 0,
  testResults: [loaded],
}

it('counts what passed', () => {
  expect(countOf(clean, 0)).toEqual({ passed: 3, failed: 0 })
})

it('counts a failed test once', () => {
  const file = { status: 'failed', assertionResults: [{ status: 'failed' }] }
  const report = { ...clean, numFailedTests: 1, testResults: [loaded, file] }
  expect(countOf(report, 1)).toEqual({ passed: 3, failed: 1 })
})

it('counts a file that did not load as failed', () => {
  const file = { status: 'failed', assertionResults: [] }
  const report = { ...clean, testResults: [loaded, file] }
  expect(countOf(report, 1)).toEqual({ passed: 3, failed: 1 })
})

it('counts skipped tests and plans for tests as failed', () => {
  const report = { ...clean, numPendingTests: 1, numTodoTests: 1 }
  expect(countOf(report, 0)).toEqual({ passed: 3, failed: 2 })
})

it('counts an error outside every test as failed', () => {
  expect(countOf(clean, 1)).toEqual({ passed: 3, failed: 1 })
})

it('counts a run of no test as failed', () => {
  expect(countOf({ ...clean, numPassedTests: 0 }, 0)).toEqual({ passed: 0, failed: 1 })
})
