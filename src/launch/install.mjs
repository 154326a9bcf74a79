// Installs what the program needs, exactly as the lock file says, whenever that has changed; and the browser with it.
import { createHash } from 'node:crypto'
import {
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { delimiter, dirname, join } from 'node:path'
import { runChild } from './child.mjs'
import { takeLock } from './lock.mjs'
import { PlainError, writingTrouble } from './plain-error.mjs'
import { needsUnpacking, unpackBrowser } from './unpack-browser.mjs'

const STAMP = '.kettle-and-kerf-install'
const PATIENCE = 15 * 60_000 // [ms] to wait for another start that is installing

/** Makes the installed packages agree with the lock file; returns at once when they do. */
export const ensureInstalled = async (root, say = (line) => console.error(line)) => {
  if (isInstalled(root) && !needsUnpacking(root)) return
  const shop = join(root, '.installing')
  const lock = await lockShop(root, shop, say)
  if (!lock) return
  if (!lock.held)
    throw new PlainError(
      `Another start (process ${lock.holder.pid}) has been installing for a long time. Stop it and try again.`,
    )
  try {
    sweep(shop)
    if (!isInstalled(root)) await install(root, shop, say).catch((error) => refuse(error, root))
    const trouble = await unpackBrowser(root)
    if (trouble)
      say(
        `The browser that comes with the program could not be unpacked: ${trouble}. Printing needs another one.`,
      )
  } finally {
    lock.release()
  }
}

const refuse = (error, root) => {
  const words = writingTrouble(error)
  // what is not about a place is a fault of the program
  if (error.plain || words === error.message) throw error
  throw new PlainError(
    `The packages could not be put into ${root}: ${words}. Start again when that is put right.`,
  )
}

/** The lock; undefined when this user may not write here but only the browser is missing: others may still do. */
const lockShop = async (root, shop, say) => {
  try {
    mkdirSync(shop, { recursive: true })
    return await takeLock(join(shop, 'lock'), {
      wait: PATIENCE,
      onWait: ({ pid }) => say(`Another start (process ${pid}) is installing. Waiting for it.`),
    })
  } catch (error) {
    if (isInstalled(root)) return undefined
    throw new PlainError(`Nothing can be installed in ${root}: ${writingTrouble(error)}.`)
  }
}

/** Decided by content, since file times lie after a copy or a restored cache. */
export const isInstalled = (root) => {
  try {
    return readFileSync(join(root, 'node_modules', STAMP), 'utf8') === stampFor(root)
  } catch {
    return false
  }
}

/** Hash of all that decides what an installation holds. */
export const stampFor = (root) =>
  createHash('sha256')
    .update(readFileSync(join(root, 'package-lock.json')))
    .update(`\n${process.versions.node.split('.')[0]} ${process.platform} ${process.arch}`)
    .digest('hex')

const install = async (root, shop, say) => {
  const npm = findNpm()
  if (!npm)
    throw new PlainError(
      'npm was not found beside Node. Start this with "npm start", or install Node again from nodejs.org.',
    )
  say('Installing what the program needs. This happens once and takes up to a minute …')
  // Elsewhere first, so that a failure leaves what was there as it was.
  const staging = join(shop, `new-${process.pid}`)
  try {
    mkdirSync(staging, { recursive: true })
    for (const name of ['package.json', 'package-lock.json', '.npmrc']) {
      if (existsSync(join(root, name))) cpSync(join(root, name), join(staging, name))
    }
    // Hashed before the installation: a lock file that changes meanwhile asks for another one.
    const stamp = stampFor(staging)
    const { code, output } = await runChild(process.execPath, [npm, ...npmArguments], {
      keep: true,
      cwd: staging,
      env: npmEnvironment(),
    })
    const made = join(staging, 'node_modules')
    if (code > 128) throw Object.assign(new PlainError(STOPPED), { exitCode: code })
    if (code !== 0 || !existsSync(made)) throw new PlainError(installFailure(code, output))
    writeFileSync(join(made, STAMP), stamp)
    swapIn(made, join(root, 'node_modules'), join(shop, `old-${process.pid}`))
  } finally {
    sweep(shop)
  }
}

const STOPPED = 'Stopped before everything was installed. The next start does it again.'

const npmArguments = [
  'ci',
  '--include=dev', // NODE_ENV=production would drop the test tools
  '--include=optional',
  '--ignore-scripts',
  '--prefer-offline',
  '--no-audit',
  '--no-fund',
  '--global=false',
  '--dry-run=false',
  '--fetch-retries=2',
  '--fetch-retry-mintimeout=500', // [ms]: without a network say so soon
  '--fetch-retry-maxtimeout=3000',
]

/** What `npm start` hands down belongs to that npm and that folder, not to this one. */
const npmEnvironment = () => {
  const env = { ...process.env, NO_UPDATE_NOTIFIER: '1' }
  for (const name of Object.keys(env)) {
    if (
      /^npm_(package|lifecycle|command|node_execpath|config_(workspaces?|local_prefix|loglevel|json|omit|only)$)/i.test(
        name,
      )
    )
      delete env[name]
  }
  return env
}

/** npm's own file, run by this very Node: no shell and no other Node comes into it. */
export const findNpm = (env = process.env, node = process.execPath) => {
  const places = [
    /npm-cli\.[cm]?js$/.test(env.npm_execpath ?? '') ? env.npm_execpath : undefined,
    join(dirname(node), 'node_modules', 'npm', 'bin', 'npm-cli.js'),
    join(dirname(node), '..', 'lib', 'node_modules', 'npm', 'bin', 'npm-cli.js'),
    ...(env.PATH ?? env.Path ?? '')
      .split(delimiter)
      .flatMap((folder) => [
        folder && join(folder, 'npm'),
        folder && join(folder, 'node_modules', 'npm', 'bin', 'npm-cli.js'),
      ]),
    '/usr/share/nodejs/npm/bin/npm-cli.js',
  ]
  for (const place of places) {
    try {
      const file = place && realpathSync(place)
      if (file && /npm-cli\.[cm]?js$/.test(file)) return file
    } catch {
      // Not there: the next one.
    }
  }
  return undefined
}

const swapIn = (made, target, aside) => {
  if (existsSync(target)) {
    try {
      renameSync(target, aside)
    } catch (error) {
      // A mounted folder cannot be renamed: fill it in place.
      if (!['EBUSY', 'EXDEV', 'EPERM', 'EACCES'].includes(error.code)) throw error
      return fillInPlace(made, target)
    }
  }
  try {
    renameSync(made, target)
  } catch (error) {
    if (existsSync(aside)) renameSync(aside, target)
    throw error
  }
}

const fillInPlace = (made, target) => {
  for (const name of readdirSync(target)) rmSync(join(target, name), { recursive: true, force: true })
  const names = readdirSync(made).filter((name) => name !== STAMP)
  for (const name of [...names, STAMP])
    cpSync(join(made, name), join(target, name), { recursive: true, verbatimSymlinks: true })
}

/** What this or a killed start left; what a still ending npm writes into is left for the next start. */
const sweep = (shop) => {
  for (const name of readdirSync(shop)) {
    if (!/^(new|old)-\d+$/.test(name)) continue
    try {
      rmSync(join(shop, name), { recursive: true, force: true, maxRetries: 3 })
    } catch {
      // In use.
    }
  }
}

const installFailure = (code, output) => {
  const lines = output
    .split('\n')
    .filter((line) => /^npm (error|ERR!)/.test(line) && !/complete log|_logs/.test(line))
  const said = lines.map((line) => line.replace(/^npm (error|ERR!)\s*/, '').trim()).filter(Boolean)
  const offline =
    /ENOTFOUND|EAI_AGAIN|ECONNREFUSED|ECONNRESET|ETIMEDOUT|ENETUNREACH|ENOTCACHED|EIDLETIMEOUT/.test(output)
  const cause = offline
    ? 'The packages could not be fetched: this machine seems to have no way to the network. Connect it and start again.'
    : /ENOSPC|EDQUOT/.test(output)
      ? 'The disk is full. Free about 1 GB and start again.'
      : `The installation failed (code ${code}).`
  return [
    `${cause} Nothing that was installed before has been changed.`,
    ...said.slice(0, 4).map((line) => `  npm: ${line}`),
  ].join('\n')
}
