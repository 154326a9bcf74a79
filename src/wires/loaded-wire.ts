/**
 * A wire that soap holds back. The frame goes down, the middle of the wire trails above its ends, and as it stretches its
 * tension rises: tension, lag and slope belong together and are solved together.
 */
import { integral } from '../numerics/quadrature.ts'
import { risingRoot } from '../numerics/root.ts'

export interface WireUnderLoad {
  /** from pin to pin at rest [m] */
  readonly length: number
  /** of the soap that it lies in, midway between the pins [m], at most the length */
  readonly soapWidth: number
  /** E A [N] */
  readonly axialStiffness: number
  /** tuned, without load [N], > 0 */
  readonly restTension: number
  /** of soap on each metre of its width, square to the line of the ends [N/m], ≥ 0 */
  readonly load: number
  /** how much the pins come together for each newton more [m/N]; none unless stated */
  readonly endGive?: number
}

export interface LoadedWire {
  /** at the pins, where it is greatest, and in the middle, where it runs along the line of the ends [N] */
  readonly tension: number
  readonly middleTension: number
  /** of the middle above the ends [m] */
  readonly lag: number
  /** of the wire at the pins against the line of the ends [rad] */
  readonly slope: number
  /** how much longer than at rest [m] */
  readonly stretch: number
  /** how much nearer the pins are than at rest [m] */
  readonly drawnIn: number
  /** above the ends, at a distance from the middle [m] */
  readonly lagAt: (fromMiddle: number) => number
}

/** Where the wire lies for a tension in its middle. */
interface Shape {
  readonly span: number
  readonly soap: number
  /** q/H: slope for each metre from the middle [1/m] */
  readonly bend: number
}

const shapeAt = (wire: WireUnderLoad, middle: number): Shape => {
  const span = wire.length - (wire.endGive ?? 0) * (middle - wire.restTension)
  return { span, soap: Math.min(wire.soapWidth, span), bend: wire.load / middle }
}

/** Sum along the wire of something that depends on how much longer it is than its shadow on the line of the ends. */
const along = (shape: Shape, f: (lengthening: number) => number): number => {
  const { soap, span, bend } = shape
  const half = soap / 2
  return (
    2 * integral((x) => f(Math.hypot(1, bend * x)), 0, half) + (span - soap) * f(Math.hypot(1, bend * half))
  )
}

/**
 * Shape, tension and lag of a wire pressed by an even load, after it has stretched.
 *
 *     y″ = −q/H in the soap, straight outside;   T = H √(1 + y′²)
 *     ∫ √(1 + y′²) / (1 + T/EA) dx = L / (1 + T₀/EA)
 *     lag = q w²/(8 H) + q w (L − w)/(4 H);   slope = atan(q w / 2 H)
 *
 * The wire that lies between the pins is as long unstretched as it was at rest: that gives H, by bisection. Exact for a load
 * that keeps its direction and counts by the width of the soap, for slopes of any size and a wire that stretches by
 * Hooke's law; bending stiffness is left out. A load that turns with the wire gives the same within the square of the slope.
 *
 * @param wire length, soap [m], E A [N], tension at rest [N], load [N/m], give of the pins [m/N]
 * @returns tensions [N], lag, stretch [m], slope [rad]
 * @throws RangeError unless 0 < soap ≤ length, tension and stiffness > 0, load and give ≥ 0
 * @source irvine-cables
 */
export function loadWire(wire: WireUnderLoad): LoadedWire {
  const { length, soapWidth, axialStiffness, restTension, load } = wire
  const give = wire.endGive ?? 0
  if (
    !(soapWidth > 0 && soapWidth <= length && axialStiffness > 0 && restTension > 0 && load >= 0 && give >= 0)
  )
    throw new RangeError('no wire between two pins with soap between them')
  const unstretched = length / (1 + restTension / axialStiffness)
  // falls as the tension rises: straighter, more of it stretch, and the pins nearer
  const excess = (middle: number): number => {
    const shape = shapeAt(wire, middle)
    return along(shape, (s) => s / (1 + (middle * s) / axialStiffness)) - unstretched
  }
  let high = 2 * restTension
  while (excess(high) > 0) high *= 2
  const middleTension = risingRoot((middle) => -excess(middle), 0, {
    low: restTension,
    high,
    tolerance: restTension * 1e-12,
  })
  const shape = shapeAt(wire, middleTension)
  const half = shape.soap / 2
  const steepest = shape.bend * half
  const lag = (shape.bend * half ** 2) / 2 + (steepest * (shape.span - shape.soap)) / 2
  return {
    tension: middleTension * Math.hypot(1, steepest),
    middleTension,
    lag,
    slope: Math.atan(steepest),
    stretch: along(shape, (s) => s) - length,
    drawnIn: length - shape.span,
    lagAt: (fromMiddle) => {
      const x = Math.abs(fromMiddle)
      if (x <= half) return lag - (shape.bend * x ** 2) / 2
      return Math.max(0, steepest * (shape.span / 2 - x))
    },
  }
}

export interface WireEnergy {
  /** that the soap has done on the wire while its load grew from nothing [J] */
  readonly work: number
  /** taken up by the wire and by what holds its pins [J] */
  readonly stored: number
}

/** Panels of eight points over which the load grows, and the share by which it is varied: the balance closes to six digits. */
const LOAD_STEPS = 4
const VARIED = 1e-3

/**
 * Work of the load beside the energy that is stored, each reckoned on its own: equal when the shape is right.
 *
 *     W = ∫ dq ∫ q (∂y/∂q + y′ ∂x/∂q) dx over the soap, x and y of one grain of the wire
 *     U = ∫ T²/(2 EA) ds₀ − T₀² s₀/(2 EA) + give (H² − T₀²)/2
 *
 * The grains of the wire move sideways, too, as it stretches: without that the work would be that of a load which
 * turns with the wire.
 *
 * @param wire as in `loadWire`
 * @returns work and stored energy [J]
 * @throws RangeError as `loadWire`
 * @source irvine-cables
 */
export function wireEnergy(wire: WireUnderLoad): WireEnergy {
  const { axialStiffness, restTension, load } = wire
  const at = (q: number) => {
    const { lagAt, middleTension } = loadWire({ ...wire, load: q })
    const { bend, soap } = shapeAt({ ...wire, load: q }, middleTension)
    /** unstretched wire to each metre along the line of the ends, and from the middle to x */
    const density = (x: number): number => {
      const s = Math.hypot(1, bend * x)
      return s / (1 + (middleTension * s) / axialStiffness)
    }
    return { lagAt, bend, soap, density, unstretched: (x: number) => integral(density, 0, x) }
  }
  const rate = (q: number): number => {
    const step = q * VARIED
    const [less, now, more] = [at(q - step), at(q), at(q + step)]
    return (
      2 *
      integral(
        (x) => {
          const up = (more.lagAt(x) - less.lagAt(x)) / (2 * step)
          const outward = -(more.unstretched(x) - less.unstretched(x)) / (2 * step) / now.density(x)
          return q * (up - now.bend * x * outward)
        },
        0,
        now.soap / 2,
      )
    )
  }
  const { middleTension } = loadWire(wire)
  const stretched = along(shapeAt(wire, middleTension), (s) => {
    const tension = middleTension * s
    return ((tension ** 2 / (2 * axialStiffness)) * s) / (1 + tension / axialStiffness)
  })
  const atRest = (restTension ** 2 * wire.length) / (1 + restTension / axialStiffness) / (2 * axialStiffness)
  const frame = ((wire.endGive ?? 0) * (middleTension ** 2 - restTension ** 2)) / 2
  return { work: integral(rate, 0, load, LOAD_STEPS), stored: stretched - atRest + frame }
}

/**
 * The load that makes a wire lag by what was measured: the second way to find it, beside the scale.
 *
 *     loadWire solved for its load, by bisection
 *
 * @param wire as in `loadWire`, without its load
 * @param lag  of the middle above the ends [m], ≥ 0
 * @returns load [N/m], at most 2000
 * @throws RangeError as `loadWire`
 * @source irvine-cables
 */
export const loadOfLag = (wire: Omit<WireUnderLoad, 'load'>, lag: number): number =>
  risingRoot((load) => loadWire({ ...wire, load }).lag, lag, { low: 0, high: 2000, tolerance: 1e-6 })
