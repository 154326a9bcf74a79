import fs from 'node:fs'
import { FILE_KINDS } from '../src/schema/file-kinds.ts'
import { jsonSchemaOf } from '../src/schema/help/json-schema.ts'

for (const [k, kind] of Object.entries(FILE_KINDS)) {
  const s = JSON.stringify(jsonSchemaOf(kind), null, 1)
  console.log(k, s.length)
  if (k === 'batch') fs.writeFileSync('/tmp/batch.json', s)
  if (k === 'materials') fs.writeFileSync('/tmp/mat.json', s)
}
