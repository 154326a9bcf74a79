// The commands that are made of other programs: test, soak and tidy.
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { runChild } from './child.mjs'
import { PlainError } from './plain-error.mjs'

const CHECKED = ['src', 'tests', 'package.json', '.eleventy.js']
const RULES = '--config-path=.ci/biome-rules.json'

const checkedIn = (root) => CHECKED.filter((name) => existsSync(join(root, name)))

/** Types and style side by side, then the tests; all of them run, the first that fails decides the exit code. */
export const runTest = async (root, args) => {
  const early = await Promise.all([
    stage(root, 'types', 'typescript', 'tsc', ['-p', '.'], true),
    stage(root, 'style', '@biomejs/biome', 'biome', ['check', RULES, ...checkedIn(root)], true),
  ])
  const tests = await stage(
    root,
    'tests',
    'vitest',
    'vitest',
    ['run', '--config', 'tests/vitest.config.ts', ...args],
    false,
  )
  const all = [...early, tests]
  console.log(
    all
      .map(({ name, code, seconds }) => `${name}: ${code === 0 ? 'fine' : 'FAILED'} (${seconds} s)`)
      .join(', '),
  )
  return all.find(({ code }) => code !== 0)?.code ?? 0
}

/** The long trial, bounded in time. */
export const runSoak = async (root, args) => {
  const { minutes, rest } = readMinutes(args)
  const env = { ...process.env, KETTLE_SOAK_MINUTES: String(minutes) }
  const { code } = await stage(
    root,
    'soak',
    'vitest',
    'vitest',
    ['run', '--config', 'tests/soak/vitest.config.ts', ...rest],
    false,
    env,
  )
  return code
}

/** What the program says of a maker's files lies beside those of the demo as it would lie beside anybody's. */
const writeHelp = (root, files) => {
  const folder = join(root, 'content/help')
  mkdirSync(folder, { recursive: true })
  for (const name of readdirSync(folder)) if (!files.has(name)) rmSync(join(folder, name))
  for (const [name, text] of files) writeFileSync(join(folder, name), text)
}

/** Style of what was named, or of everything and then the help of the demo, which is asked for when it is wanted. */
export const runTidy = async (root, args, helpFiles) => {
  const { code } = await stage(
    root,
    'tidy',
    '@biomejs/biome',
    'biome',
    ['check', '--write', RULES, ...(args.length > 0 ? args : checkedIn(root))],
    false,
  )
  if (args.length === 0) writeHelp(root, await helpFiles())
  return code
}

/** `--minutes N`, or KETTLE_SOAK_MINUTES, or 10; whatever else was typed goes on to the test runner. */
export const readMinutes = (args, env = process.env) => {
  const { values, tokens } = parseArgs({
    args,
    strict: false,
    tokens: true,
    options: { minutes: { type: 'string' } },
  })
  const typed = values.minutes ?? env.KETTLE_SOAK_MINUTES ?? '10'
  const minutes = Number(typed)
  if (!(minutes > 0 && minutes <= 24 * 60))
    throw new PlainError(`--minutes needs a number above 0, not "${typed}".`)
  const token = tokens.find((each) => each.kind === 'option' && each.name === 'minutes')
  const taken = token ? (token.inlineValue ? 1 : 2) : 0
  return { minutes, rest: token ? [...args.slice(0, token.index), ...args.slice(token.index + taken)] : args }
}

const stage = async (root, name, packageName, program, args, keep, env = process.env) => {
  const started = performance.now()
  const { code, output } = await runChild(
    process.execPath,
    [programOf(root, packageName, program), ...args],
    { keep, cwd: root, env },
  )
  const seconds = ((performance.now() - started) / 1000).toFixed(1)
  if (keep && code !== 0) console.log(`--- ${name}\n${output.trimEnd()}\n`)
  return { name, code, seconds }
}

const programOf = (root, packageName, program) => {
  const folder = join(root, 'node_modules', packageName)
  const { bin } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'))
  return join(folder, typeof bin === 'string' ? bin : bin[program])
}
