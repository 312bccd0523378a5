// The smallest tool: answers with its arguments as JSON and ends with their number. With `wait` it
// stays until a signal comes, and then ends with 77. Run by processes.test.ts through run.mjs.
const args: readonly string[] = process.argv.slice(2)

if (args[0] === 'wait') {
  const staying = setInterval(() => undefined, 1000)
  const end = () => {
    clearInterval(staying)
    process.exitCode = 77
  }
  process.once('SIGTERM', end)
  process.once('SIGINT', end)
} else {
  process.exitCode = args.length
}
// Last: whoever reads the answer may send the signal at once.
console.log(JSON.stringify(args))
