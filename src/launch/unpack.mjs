// Unpacks the embedded browser into the temporary folder that this process was given; a process of its own, because
// the package knows no other way to be told where.
import chromium from '@sparticuz/chromium'

console.log(await chromium.executablePath())
