/** What README and guide say is typed as they say it, in their order, by somebody who stands where they stand. */
import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, describe, expect, it } from 'vitest'
import type { Context } from '../../src/commands/options.ts'
import { runCommand } from '../commands/run-command.ts'
import { isSoak } from '../long.ts'

const root = fileURLToPath(new URL('../../', import.meta.url))
const read = (name: string): string => readFileSync(join(root, name), 'utf8')
const README = read('README.md')
const GUIDE = read('DEVELOPERS.md')
const scripts = Object.keys((JSON.parse(read('package.json')) as { scripts: Record<string, string> }).scripts)

/** Lines that are set apart, and what stands in back quotes with its words; taken apart as a shell does. */
const examples = [
  ...README.matchAll(/(?:^ {4,}npm (start)$|(?:^ {4,}|`)npm (start|run ([a-z-]+)) -- ([^`\n]+))(?:`|$)/gm),
].map(([line, alone, start = alone, script, rest = '']) => ({
  line: line.replaceAll('`', '').trim(),
  command: start === 'start' ? 'build' : (script ?? ''),
  args: [...rest.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, plain]) => quoted ?? plain ?? ''),
}))

/** What takes a browser is typed in the soak; the commands themselves are tried every day elsewhere. */
const PRINTS = ['build', 'recall']
const base = mkdtempSync(join(tmpdir(), 'readme-'))
const cwd = join(base, 'program')
mkdirSync(cwd)
let child: ChildProcess | undefined
afterAll(() => {
  child?.kill('SIGKILL')
  rmSync(base, { recursive: true, force: true })
})

/** Nobody sits here to be asked, and the demo's own output is left alone. */
const also = (command: string, args: readonly string[]): string[] => {
  if (command === 'new') return ['--yes']
  const isDemo = !args.some((arg) => arg.startsWith('../'))
  return PRINTS.includes(command) && isDemo ? ['--out', join(base, `demo-${command}`)] : []
}

type Command = (args: string[], context: Context) => Promise<number>

describe('by hand: the examples of the README', () => {
  it('are all of its commands, and no other is in none', () => {
    const typed = new Set(examples.map(({ command }) => command))
    expect([...typed].sort()).toEqual([
      'build',
      'check',
      'new',
      'preview',
      'printed',
      'recall',
      'upgrade',
      'what-if',
    ])
    const shown = scripts.filter((name) => !['start', 'test', 'soak', 'tidy'].includes(name))
    expect(shown.filter((name) => !typed.has(name))).toEqual([])
  })

  it.each(examples.filter(({ command }) => command !== 'preview' && (isSoak || !PRINTS.includes(command))))(
    '$line',
    async ({ command, args }) => {
      const { run } = (await import(`../../src/commands/${command}.ts`)) as { run: Command }
      const { code, out, err } = await runCommand(run, [...args, ...also(command, args)], cwd)
      expect(err.replace(/^(stopped|conflict|to write): .*\n/gm, '')).toBe('')
      expect(out).not.toBe('')
      expect(code).toBe(0)
    },
    300_000,
  )

  it.each(examples.filter(({ command }) => command === 'preview'))('$line', async ({ args }) => {
    child = spawn(process.execPath, [join(root, 'src/launch.mjs'), 'preview', ...args], {
      env: { ...process.env, INIT_CWD: cwd },
      stdio: ['ignore', 'pipe', 'inherit'],
    })
    let out = ''
    child.stdout?.on('data', (part) => {
      out += part
    })
    while (!/http:\S+/.test(out) && child.exitCode === null) await new Promise((done) => setTimeout(done, 50))
    child.kill('SIGINT')
    expect(await once(child, 'exit')).toEqual([0, null])
    expect(out).toMatch(/http:\/\/(127\.0\.0\.1|localhost):\d+/)
  })

  it('leave a folder of one’s own with what was added, and nothing else beside it', () => {
    const own = join(base, 'my-binder')
    expect(existsSync(join(own, 'records/printed.yaml'))).toBe(true)
    expect(readdirSync(join(own, 'recipes')).length).toBe(2)
    expect(readdirSync(base).filter((name) => name.startsWith('my-binder'))).toEqual(['my-binder'])
  })
})

describe('by hand: what README and guide point to', () => {
  it('is there', () => {
    const links = [...README.matchAll(/\]\(((?!http)[^)#]+)\)/g)].map(([, path = '']) => path)
    const paths = [...GUIDE.matchAll(/`((?:src|tests|layouts|content|\.ci)\/[\w./-]+)`/g)].map(
      ([, path = '']) => path,
    )
    expect(links.length).toBeGreaterThan(10)
    expect(paths.length).toBeGreaterThan(60)
    const isThere = (path: string): boolean => existsSync(join(root, path))
    // a name in capitals is whoever's who reads
    expect([...links, ...paths].filter((path) => !isThere(path) && !/\b[A-Z]+\b/.test(path))).toEqual([])
  })

  it('is a command', () => {
    const named = [...GUIDE.matchAll(/npm run ([a-z-]+)/g), ...README.matchAll(/npm run ([a-z-]+)/g)].map(
      ([, name = '']) => name,
    )
    expect(named.filter((name) => !scripts.includes(name))).toEqual([])
  })
})
