/** Shapes that several kinds of file share. */
import { z } from 'zod'
import { name } from './fields.ts'

/** A mapping from the maker's own keys to things of one kind, at least one of them. */
export const mapOf = <T extends z.ZodType>(thing: T) => z.record(name(), thing)
