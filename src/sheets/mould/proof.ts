/** What was reckoned and proved of a mould before its sheet was printed. */
import type { BoundMould } from '../../binder/bind-mould.ts'
import { nothing, number } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block } from '../model.ts'

/** The mould under batter: what pushes, what gives, how tight is tight enough. */
export const loadFacts = ({ say, show }: Frame, { loads, mould }: BoundMould): Block => ({
  kind: 'facts',
  size: 'plain',
  items: [
    {
      label: say('mould.loads.side'),
      cell: number(show.force('loads.sideForce', loads.sideForce)),
      note: say('mould.loads.side-note', { end: show.force('loads.endForce', loads.endForce) }),
    },
    {
      label: say('mould.loads.bulge'),
      cell: number(show.hundredths('loads.bulge', loads.bulge.high)),
      note: say('mould.loads.bulge-note', { low: show.hundredths('loads.bulge.low', loads.bulge.low) }),
    },
    {
      label: say('mould.loads.torque'),
      cell: number(show.torque('loads.torqueMost', loads.torqueMost)),
      note: say(loads.limitedBy === 'bow' ? 'mould.loads.torque-bow' : 'mould.loads.torque-crushing', {
        bow: show.millimetres('loads.bow', loads.bow),
        pull: show.force('loads.clampMost', loads.clampMost),
      }),
    },
    {
      label: say('mould.loads.edge'),
      cell: number(show.hundredths('loads.edgeBow', loads.edgeBow)),
      note: say('mould.loads.edge-note', { spacing: show.exactLength('loads.spacing', loads.spacing) }),
    },
    {
      label: say('mould.loads.needed'),
      cell: number(show.force('loads.clampNeeded', loads.clampNeeded)),
      note: say('mould.loads.needed-note', {
        enough: show.count('loads.rodsNeeded', loads.rodsNeeded),
        drawn: show.count('rod.count', mould.rods.count),
      }),
    },
  ],
})

/** What was proved before the sheet was printed; a block with nothing in it is not. */
export const proofFacts = ({ say, show }: Frame, { proof }: BoundMould): Block => {
  if (!proof) return nothing
  return {
    kind: 'cautions',
    signal: 'notice',
    heading: say('mould.proof.heading'),
    items: [
      say('mould.proof.pairs', { pairs: show.count('proof.pairs', proof.pairs) }),
      say('mould.proof.contacts', { contacts: show.count('proof.contacts', proof.contacts) }),
      say('mould.proof.rods', { room: show.millimetres('proof.rodClearance', proof.rodClearance) }),
      say('mould.proof.base', { room: show.millimetres('proof.baseClearance', proof.baseClearance) }),
      say('mould.proof.apart'),
      say('mould.proof.strips'),
    ],
  }
}
