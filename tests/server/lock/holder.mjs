// A process of its own that leaves a lock behind: it listens at the path it is given, says so, and
// waits to be killed.
import { createServer } from 'node:net'

createServer().listen(process.argv[2], () => process.stdout.write('held\n'))
