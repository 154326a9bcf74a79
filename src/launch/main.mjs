// The way of every command: install when needed, run it, say in plain words what went wrong.
import { existsSync } from 'node:fs'
import { dirname, resolve } from 'node:path'
import { fileURLToPath } from 'node:url'
import { COMMANDS, helpText } from './commands.mjs'
import { ensureInstalled } from './install.mjs'
import { PlainError, readerGone } from './plain-error.mjs'
import { runSoak, runTest, runTidy } from './stages.mjs'

const ROOT = resolve(dirname(fileURLToPath(import.meta.url)), '..', '..')
const LINGER = 3_000 // [ms] that an open handle may keep a finished command alive

export const launch = async ([name, ...args]) => {
  for (const stream of [process.stdout, process.stderr]) stream.on('error', goOnWhenNobodyReads)
  process.on('uncaughtException', (error) => finish(explain(error), true))
  process.on('unhandledRejection', (error) => finish(explain(error), true))
  process.on('beforeExit', endUnfinished)
  try {
    finish(await run(name, args), false)
  } catch (error) {
    finish(explain(error), false)
  }
}

const run = async (name, args) => {
  if (name === undefined || ['help', '--help', '-h'].includes(name)) {
    console.log(helpText())
    return 0
  }
  const command = COMMANDS.find((each) => each.name === name)
  if (!command) throw new PlainError(`There is no command "${name}".\n\n${helpText()}`)
  await ensureInstalled(ROOT)
  if (name === 'test') return runTest(ROOT, args)
  if (name === 'soak') return runSoak(ROOT, args)
  if (name === 'tidy') return runTidy(ROOT, args, helpFiles)
  return runInProcess(name, args)
}

const helpFiles = async () => {
  await readTypeScript()
  const { helpFiles: files } = await import(new URL('../schema/help/help-files.ts', import.meta.url).href)
  return files()
}

const readTypeScript = async () => {
  const { register } = await import('tsx/esm/api')
  register()
}

/** In this very process: nothing is started, so a warm start costs what the command costs. */
const runInProcess = async (name, args) => {
  const file = new URL(`../commands/${name}.ts`, import.meta.url)
  if (!existsSync(file))
    throw new PlainError(`The command "${name}" is missing from this copy of the program.`)
  await readTypeScript()
  const { run: command } = await import(file.href)
  // npm runs scripts in the program's folder and says in INIT_CWD where the person stood.
  return command(args, { cwd: process.env.INIT_CWD ?? process.cwd() })
}

const explain = (error) => {
  const plain = error?.plain ? error.message : readerGone(error)
  if (process.env.KETTLE_DEBUG === '1') console.error(error)
  else if (plain !== undefined) console.error(plain)
  else
    console.error(
      `The program failed: ${error?.message ?? error}\nThis is a fault of the program. KETTLE_DEBUG=1 shows where it happened.`,
    )
  return Number.isInteger(error?.exitCode) ? error.exitCode : 2
}

/** Nothing is left that could go on, and no end was said: what was waited for will never come. */
const endUnfinished = () =>
  finish(
    explain(new Error('it ended before its work was done, as something that it waited for never came.')),
    true,
  )

const finish = (code, now) => {
  process.off('beforeExit', endUnfinished)
  process.exitCode = code
  if (now) process.exit(code)
  setTimeout(() => process.exit(code), LINGER).unref()
}

/** `npm start | head` is not a fault, and its binder is still wanted; EIO: the terminal was closed. */
const goOnWhenNobodyReads = (error) => {
  if (error.code !== 'EPIPE' && error.code !== 'EIO') throw error
}
