// Which import is forbidden, and what to do about one. Two kinds: `forbiddenImports` look at single
// imports (dependency-cruiser reads them, types counted), `forbiddenReach` at what a screen loads in
// the end, where `import type` loads nothing. Each has a planted breach in plantedBreaches.ts.
//
//   base <- board <- care <- rules <- plan <- views <- wire      server | client | tests, demo-data
import type { IForbiddenRuleType } from 'dependency-cruiser'

export type ImportRule = IForbiddenRuleType & { readonly name: string; readonly comment: string }

export const forbiddenImports: readonly ImportRule[] = [
  {
    name: 'shared-stands-alone',
    comment:
      'The rules would run differently on server and screen. Pass what they need as an argument.',
    from: { path: '^shared/' },
    to: { path: '^(server|client|tests|demo-data)/' },
  },
  {
    name: 'shared-touches-nothing',
    comment:
      'The rules would do I/O or carry a framework. Keep it in server/ or client/ and hand in its result.',
    from: { path: '^shared/' },
    to: { dependencyTypes: ['core'] },
  },
  {
    name: 'shared-needs-few-packages',
    comment:
      'Both sides would load one more package. Only zod and date-fns have a place under the rules.',
    from: { path: '^shared/' },
    to: { path: 'node_modules/', pathNot: 'node_modules/(zod|date-fns|@date-fns/tz)/' },
  },
  {
    name: 'base-is-the-ground',
    comment: 'Values know no birds. Move what is about the room up to board/.',
    from: { path: '^shared/base/' },
    to: { path: '^shared/(?!base/)' },
  },
  {
    name: 'board-stands-on-base',
    comment: 'Shapes know no rules. Move the decision to rules/, or the constant down here.',
    from: { path: '^shared/board/' },
    to: { path: '^shared/(?!base/|board/)' },
  },
  {
    name: 'care-stands-on-board',
    comment: "The trade's sums know no room rules. Let rules/ call the sum instead.",
    from: { path: '^shared/care/' },
    to: { path: '^shared/(?!base/|board/|care/)' },
  },
  {
    name: 'rules-stand-on-care',
    comment: 'A rule that asks a plan or a view turns the floors round. Move the shared part down.',
    from: { path: '^shared/rules/' },
    to: { path: '^shared/(plan|views|wire)/' },
  },
  {
    name: 'plan-stands-on-rules',
    comment: 'The planner knows no screens and no messages. Move the shared part down.',
    from: { path: '^shared/plan/' },
    to: { path: '^shared/(views|wire)/' },
  },
  {
    name: 'views-know-no-wire',
    comment: 'What a screen shows does not depend on how it came. Move the shape to views/.',
    from: { path: '^shared/views/' },
    to: { path: '^shared/wire/' },
  },
  {
    name: 'server-and-client-are-strangers',
    comment: 'They meet in shared/wire only. Move what both need to shared/.',
    from: { path: '^(server|client)/' },
    to: { path: '^(server|client)/', pathNot: '^$1/' },
  },
  {
    name: 'nothing-stands-on-tests',
    comment: 'The program would ship its tests. Move what both need out of tests/.',
    from: { path: '^(server|client|shared|demo-data)/' },
    to: { path: '^tests/' },
  },
  {
    name: 'client-runs-in-a-browser',
    comment:
      'There is no node in a browser. Use the port of client/session, or move it to server/.',
    from: { path: '^client/' },
    to: { dependencyTypes: ['core'] },
  },
  {
    name: 'screens-are-apart',
    comment: 'Wall, hand and desk are loaded one by one. Move the shared piece to ui/ or stores/.',
    from: { path: '^client/(wall|hand|desk)/' },
    to: { path: '^client/(wall|hand|desk)/', pathNot: '^client/$1/' },
  },
  {
    name: 'session-has-no-screen',
    comment:
      'Simulated people run the session without a DOM. Let the screen subscribe to the session.',
    from: { path: '^client/session/' },
    to: { path: ['^client/(?!session/)', 'node_modules/(preact|@preact|htm)/'] },
  },
  {
    name: 'nobody-imports-main',
    comment: 'A main file starts things when it is loaded. Import the part it wires instead.',
    from: { path: '^(server|client|shared|demo-data)/' },
    to: { path: '(^|/)main\\.ts$' },
  },
  {
    name: 'no-cycles',
    comment:
      'Two files that need each other, by types too, are one thing or hide a third. Split it out.',
    from: {},
    to: { circular: true },
  },
  {
    name: 'zod-at-the-edges',
    comment: 'Messages are parsed once, where they come in. Take the parsed type instead.',
    from: { path: '^(shared|server|client|demo-data)/', pathNot: '^(shared/(board|wire)|server)/' },
    to: { path: 'node_modules/zod/' },
  },
  {
    name: 'zones-in-rules-only',
    comment: 'Zone arithmetic is decided once, in rules/ or server/. Take the instant instead.',
    from: { path: '^(shared|client|demo-data)/', pathNot: '^shared/rules/' },
    to: { path: 'node_modules/(date-fns|@date-fns)/' },
  },
  {
    name: 'no-test-packages-in-the-program',
    comment: 'It would be missing from what is shipped. Make it a dependency, or do without.',
    from: { path: '^(server|client|shared)/', pathNot: '^server/bin/compile[.]mjs$' },
    to: { dependencyTypes: ['npm-dev'] },
  },
  {
    name: 'packages-are-declared',
    comment: 'It is there by luck, through another package. Add it to package.json, exact version.',
    from: {},
    to: { dependencyTypes: ['npm-no-pkg', 'npm-unknown'] },
  },
  {
    name: 'imports-lead-somewhere',
    comment: 'The file or package does not exist. Mend the path.',
    from: {},
    to: { couldNotResolve: true },
  },
]

export interface ReachRule {
  readonly name: string
  /** What a breach means and what to do. */
  readonly comment: string
  readonly from: RegExp
  readonly to: RegExp
}

export const forbiddenReach: readonly ReachRule[] = [
  {
    name: 'zod-stays-out-of-the-browser',
    comment:
      'A screen would load the whole schema library. Use import type, or move the constant to a file without zod.',
    from: /^client\//,
    to: /node_modules\/zod\//,
  },
  {
    name: 'the-wall-only-reads',
    comment: 'The wall could send. Split the reading part out of the file that also writes.',
    from: /^client\/wall\//,
    to: /^client\/(session\/outbox|hand\/)/,
  },
]
