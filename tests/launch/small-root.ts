/** A small copy of the program to launch: the real launcher, made-up commands, packages and npm; no network. */
import { spawn } from 'node:child_process'
import { cpSync, mkdirSync, symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { stampFor } from '../../src/launch/install.mjs'

const REPOSITORY = fileURLToPath(new URL('../..', import.meta.url))

/** Prints where it stands and what it was given, and ends with 3. */
const COMMAND = `
export const run = async (args: string[], context: { cwd: string }): Promise<number> => {
  console.log(JSON.stringify({ args, cwd: context.cwd }))
  if (args[0] === 'plain') throw Object.assign(new Error('In plain words.'), { plain: true, exitCode: 1 })
  if (args[0] === 'fault') throw new Error('a fault')
  if (args[0] === 'never') await new Promise(() => {})
  return 3
}
`

/** Stands in for npm: counts its runs, takes its time, and makes node_modules, or fails as npm does. */
const NPM = `
const { appendFileSync, mkdirSync, writeFileSync } = require('node:fs')
appendFileSync(process.env.TRIAL_LOG, JSON.stringify(process.argv.slice(2)) + '\\n')
if (process.env.TRIAL_FAILS) {
  console.error('npm error code ' + process.env.TRIAL_FAILS + '\\nnpm error no way to get there')
  process.exit(1)
}
mkdirSync('node_modules/half', { recursive: true })
setTimeout(() => writeFileSync('node_modules/half/whole', ''), Number(process.env.TRIAL_TIME ?? 0))
`

export const makeRoot = (root: string): void => {
  for (const name of ['src/commands', 'fake']) mkdirSync(join(root, name), { recursive: true })
  cpSync(join(REPOSITORY, 'src/launch'), join(root, 'src/launch'), { recursive: true })
  cpSync(join(REPOSITORY, 'src/launch.mjs'), join(root, 'src/launch.mjs'))
  writeFileSync(join(root, 'src/commands/build.ts'), COMMAND)
  writeFileSync(join(root, 'package.json'), '{"type": "module"}')
  writeFileSync(join(root, 'package-lock.json'), '{}')
  writeFileSync(join(root, 'fake/npm-cli.cjs'), NPM)
}

/** Packages that are there already: the real tsx, and stage programs that end with the given codes. */
export const makePackages = (
  root: string,
  codes: { readonly tsc?: number; readonly biome?: number; readonly vitest?: number } = {},
) => {
  const modules = join(root, 'node_modules')
  mkdirSync(modules)
  symlinkSync(join(REPOSITORY, 'node_modules/tsx'), join(modules, 'tsx'))
  const programs = [
    ['typescript', 'tsc', codes.tsc],
    ['@biomejs/biome', 'biome', codes.biome],
    ['vitest', 'vitest', codes.vitest],
  ] as const
  for (const [name, program, code = 0] of programs) {
    mkdirSync(join(modules, name), { recursive: true })
    writeFileSync(join(modules, name, 'package.json'), JSON.stringify({ bin: { [program]: './run.cjs' } }))
    const said = `console.log('${program}', JSON.stringify(process.argv.slice(2)), process.env.KETTLE_SOAK_MINUTES)`
    writeFileSync(join(modules, name, 'run.cjs'), `${said}\nprocess.exitCode = ${code}`)
  }
  writeFileSync(join(modules, '.kettle-and-kerf-install'), stampFor(root))
}

export interface Ended {
  readonly code: number | null
  readonly out: string
  readonly err: string
}

export const start = (root: string, args: readonly string[], env: Readonly<Record<string, string>> = {}) => {
  const child = spawn(process.execPath, [join(root, 'src/launch.mjs'), ...args], {
    cwd: root,
    stdio: ['ignore', 'pipe', 'pipe'],
    env: {
      PATH: process.env.PATH ?? '',
      TMPDIR: process.env.TMPDIR ?? '/tmp',
      npm_execpath: join(root, 'fake/npm-cli.cjs'),
      TRIAL_LOG: join(root, 'npm.log'),
      ...env,
    },
  })
  let out = ''
  let err = ''
  child.stdout.on('data', (part) => {
    out += part
  })
  child.stderr.on('data', (part) => {
    err += part
  })
  const end = new Promise<Ended>((done, fail) => {
    child.on('error', fail)
    child.on('close', (code) => done({ code, out, err }))
  })
  return { child, end }
}
