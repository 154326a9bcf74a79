/** That a trial sees what the test runner would see: what passes, what fails, what never ends. */
import { describe, expect, test } from 'vitest'
import { bundled, readProgram } from './bundles.ts'
import { type TestFile, testFile } from './one-file.ts'

const LIMIT = 500
const nobody = () => false
const small = (body: string, chosen: (number: number) => boolean = nobody): TestFile =>
  testFile(
    'small.test.ts',
    `const { describe, test, it, expect, beforeAll, beforeEach } = testing\n${body}`,
    chosen,
  )

/** Names of those tests that fail. */
const failing = async (file: TestFile): Promise<string[]> => {
  const open = file.open(LIMIT)
  const failed: string[] = []
  for (const [index, name] of open.names.entries())
    await open.run(index, LIMIT).catch((error: { code?: string }) => failed.push(error.code ?? name))
  return failed
}

describe('by hand: one file of tests', () => {
  test('says which of its tests fail, whoever waits for what', async () => {
    const file = small(`
      let begun = 0
      describe('outer', () => {
        beforeAll(async () => { begun += 1 })
        beforeEach(() => { begun += 10 })
        test('one', () => expect(begun).toBe(11))
        it('two', async () => { await null; expect(begun).toBe(21) })
        test('wrong', () => expect(begun).toBe(0))
        test('late', async () => { await null; throw new Error('late') })
      })
      test.each([[1, 1], [1, 2]])('each', (one, other) => expect(one).toBe(other))
      describe.each([3, 4])('row', (row) => test('is three', () => expect(row).toBe(3)))
    `)
    expect(await failing(file)).toEqual(['outer > wrong', 'outer > late', 'each [1]', 'row [1] > is three'])
    // and once more as new
    expect(await failing(file)).toHaveLength(4)
  })

  test('breaks off what hangs, even where it catches everything', async () => {
    const file = small(`test('hangs', () => { for (;;) try { for (;;); } catch {} })`)
    expect(await failing(file)).toEqual(['ERR_SCRIPT_EXECUTION_TIMEOUT'])
  })

  test('cannot be loaded where loading throws', () =>
    expect(() => small(`throw new Error('broken')`).open(LIMIT)).toThrow('broken'))
})

describe('by hand: a calculator and its tests in one script', () => {
  const program = readProgram()
  const own = program.mutants.filter(({ file }) => file === 'src/numerics/quadrature.ts')
  let now = 0

  test('pass without a mutant, and notice most of them', async () => {
    const body = await bundled(program, 'tests/numerics/quadrature.test.ts')
    const file = testFile('tests/numerics/quadrature.test.ts', body, (number) => number === now)
    expect(await failing(file)).toEqual([])
    let noticed = 0
    for (const { number } of own) {
      now = number
      const failed = await failing(file).catch((): string[] => ['loading'])
      if (failed.length > 0) noticed += 1
    }
    expect(own.length).toBeGreaterThan(10)
    expect(noticed).toBeGreaterThan(own.length / 2)
  })
})
