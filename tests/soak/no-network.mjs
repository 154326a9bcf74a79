// Loaded before the program: whatever it asks of a network is written down and refused.
import dns from 'node:dns'
import { appendFileSync } from 'node:fs'
import { syncBuiltinESMExports } from 'node:module'
import net from 'node:net'

const refuse = (what) => {
  appendFileSync(process.env.KETTLE_ASKED, `${what}\n`)
  throw new Error(`${what}: there is no network.`)
}
const connect = net.Socket.prototype.connect
net.Socket.prototype.connect = function (...args) {
  const [options] = Array.isArray(args[0]) ? args[0] : args
  // a path is a place on this machine
  if (typeof options === 'object' && options !== null && typeof options.path === 'string')
    return connect.apply(this, args)
  return refuse(`connect ${JSON.stringify(options)}`)
}
for (const name of ['lookup', 'resolve', 'resolve4', 'resolve6']) {
  dns[name] = (host) => refuse(`${name} ${host}`)
  dns.promises[name] = (host) => refuse(`${name} ${host}`)
}
syncBuiltinESMExports()
