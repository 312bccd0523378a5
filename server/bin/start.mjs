#!/usr/bin/env node
// `npm start`: installs and builds where needed (launch.mjs), then runs the server in this same
// process, so that arguments, signals and the exit code are the server's own.
import { onSupportedNode } from './nodeVersion.mjs'

onSupportedNode(async () => {
  const { prepareServer, projectRoot } = await import('./launch.mjs')
  const { sayFailure } = await import('./plainly.mjs')
  const server = await prepareServer(projectRoot).catch(sayFailure)
  if (server === undefined) return
  process.env.NODE_ENV = process.env.NODE_ENV || 'production'
  // Outside the catch above: what the server throws is the server's to say and ends the process.
  await import(server)
})
