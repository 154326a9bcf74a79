// A clock that is set while the program runs: it shows another day from the start, and a third one after some time.
const DAY = 24 * 3600 * 1000
const [from, later, after] = (process.env.KETTLE_TEST_CLOCK ?? '0,0,0').split(',').map(Number)
const Real = Date
const began = performance.now()
const shift = () => (performance.now() - began > after ? later : from) * DAY

globalThis.Date = class extends Real {
  constructor(...parts) {
    if (parts.length === 0) super(Real.now() + shift())
    else super(...parts)
  }
  static now() {
    return Real.now() + shift()
  }
}
