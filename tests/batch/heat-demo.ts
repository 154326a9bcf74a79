/** A block of some 13 kg in plywood, as the demo's mould makes it, for the tests of heat. */
import {
  type BlockHeat,
  type BlockHeatRequest,
  blockHeat,
  FRESH_SOAP,
  isReckoned,
} from '../../src/batch/block-heat.ts'
import { batterHeat, USUAL_RATE } from '../../src/batch/block-reaction.ts'

export const C = 273.15
export const HOUR = 3600

const wall = { layers: [{ thickness: 0.018, conductivity: 0.135 }], film: 7.5 }
const lid = { thickness: 0.012, conductivity: 0.135 }

export const BLOCK: BlockHeatRequest = {
  block: { length: 0.286, width: 0.21, height: 0.216 },
  soap: { density: 1010, ...FRESH_SOAP, waterShare: 0.19 },
  reaction: { heat: batterHeat(2.3), ...USUAL_RATE },
  coverings: {
    end: wall,
    side: wall,
    // air between soap and lid: 0.15 m2 K/W
    top: { layers: [{ resistance: 0.15 }, lid], film: 7.5 },
    base: { layers: [{ thickness: 0.024, conductivity: 0.135 }], film: 5 },
  },
  room: C + 20,
  pour: C + 38,
}

/** 3 cm of foam round the walls and on the lid. */
export const insulated = (request: BlockHeatRequest, thickness = 0.03): BlockHeatRequest => {
  const insulation = [{ thickness, conductivity: 0.0315 }]
  const { end, side, top, base } = request.coverings
  return {
    ...request,
    coverings: {
      end: { ...end, insulation },
      side: { ...side, insulation },
      top: { ...top, insulation },
      base,
    },
  }
}

export const reckoned = (request: BlockHeatRequest): BlockHeat => {
  const heat = blockHeat(request)
  if (!isReckoned(heat)) throw new Error(heat.findings.map(({ code }) => code).join(' '))
  return heat
}
