#!/usr/bin/env node
// `npm run build`: packages and the build of these sources, without starting anything. Unlike a
// start it fails when the sources do not build, whatever older build stands. Prints its folder.
import { onSupportedNode } from './nodeVersion.mjs'

onSupportedNode(async () => {
  const { prepareBuild, projectRoot } = await import('./launch.mjs')
  const { sayFailure } = await import('./plainly.mjs')
  await prepareBuild(projectRoot).then((build) => console.log(build), sayFailure)
})
