/** fixtures/NAME.yaml: the bar, the grid, and the mould that follows from them. */
import { z } from 'zod'
import { count, name, oneOf, quantity, words } from './fields.ts'

const trim = quantity('length', { min: '0 mm', max: '60 mm' }).optional()
const panel = name()

export const THREADS = ['1/4-20', 'M6'] as const

export const fixtureFile = z.strictObject({
  title: words({ max: 60 }),
  bar: z.strictObject({
    'along-length': quantity('length', { min: '10 mm', max: '300 mm' }),
    'along-width': quantity('length', { min: '10 mm', max: '300 mm' }),
    thickness: quantity('length', { min: '8 mm', max: '150 mm' }),
    'size-is': oneOf(['green', 'cured'])
      .optional()
      .describe('Green: as it is cut. Cured: as it is sold; the cut is made larger by what drying takes.'),
  }),
  grid: z.strictObject({
    columns: count({ min: 1, max: 20 }),
    rows: count({ min: 1, max: 20 }),
    slices: count({ min: 1, max: 40 }),
  }),
  'wire-allowance': z.strictObject({ length: trim, width: trim, height: trim }).optional(),
  trim: z
    .strictObject({ top: trim, bottom: trim, left: trim, right: trim, front: trim, back: trim })
    .optional(),
  lining: quantity('length', { min: '0 mm', max: '10 mm' }),
  panels: z.strictObject({
    side: panel,
    end: panel,
    'base-top': panel,
    rail: panel,
    strip: panel,
    lid: panel,
  }),
  dado: z.strictObject({
    depth: quantity('length', { min: '1 mm', max: '50 mm' }),
    fit: quantity('length', { min: '0 mm', max: '2 mm' }),
  }),
  lip: quantity('length', { min: '10 mm', max: '200 mm' }),
  freeboard: quantity('length', { min: '0 mm', max: '300 mm' }),
  base: z.strictObject({
    height: quantity('length', { min: '20 mm', max: '300 mm' }),
    clearance: quantity('length', { min: '0 mm', max: '10 mm' }),
    'groove-width': quantity('length', { min: '0.5 mm', max: '20 mm' }),
    'groove-depth': quantity('length', { min: '1 mm', max: '50 mm' }),
    rails: count({ min: 2, max: 12 }),
  }),
  rods: z.strictObject({
    thread: oneOf(THREADS),
    heights: z
      .array(quantity('length', { min: '5 mm', max: '1500 mm' }))
      .min(1)
      .max(8),
    'in-base': count({ min: 0, max: 8 }),
    'stock-length': quantity('length', { min: '200 mm', max: '4 m' }),
  }),
  'strip-width': quantity('length', { min: '10 mm', max: '200 mm' }),
})

export type FixtureFile = z.output<typeof fixtureFile>
