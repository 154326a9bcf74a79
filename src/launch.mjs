// Starts every command: refuses a Node that is too old, then hands over. Kept to words that an old Node can read.
var version = process.versions.node.split('.').map(Number)
if (version[0] < 20 || (version[0] === 20 && version[1] < 19)) {
  console.error(
    'This needs Node 20.19 or later and was started with Node ' +
      process.versions.node +
      '. Get a newer one from nodejs.org.',
  )
  process.exitCode = 2
} else {
  import('./launch/main.mjs').then((main) => main.launch(process.argv.slice(2)))
}
