/** What was reckoned and proved of a trial frame before its sheet was printed. */
import type { BoundTrialFrame } from '../../binder/bind-trial-frame.ts'
import { nothing, number } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block } from '../model.ts'

export const trialProof = ({ say, show }: Frame, { proof }: BoundTrialFrame): Block => {
  if (!proof) return nothing
  const room = (key: string, size: number) =>
    say(`trial.proof.${key}`, { room: show.millimetres(`trial.proof.${key}`, size) })
  return {
    kind: 'cautions',
    signal: 'notice',
    heading: say('trial.proof.heading'),
    items: [
      say('trial.proof.pairs', { pairs: show.count('trial.proof.pairs', proof.pairs) }),
      say('trial.proof.contacts', { contacts: show.count('trial.proof.contacts', proof.contacts) }),
      room('stroke', proof.clearance),
      room('groove', proof.grooveClearance),
      room('hole', proof.holeClearance),
      room('button', proof.buttonClearance),
    ],
  }
}

/** Each choice with its number. */
export const trialReckoned = ({ say, show }: Frame, { trial }: BoundTrialFrame): Block => {
  const { input, plane, overTravel, groove, wires } = trial
  const lag = wires[0]?.lag ?? 0
  return {
    kind: 'facts',
    size: 'plain',
    items: [
      {
        label: say('trial.reckoned.spacing'),
        cell: number(show.exactLength('trial.spacing', input.spacing)),
        note: say('trial.reckoned.spacing-note', {
          least: show.millimetres('trial.spacing.least', input.limits.spacing * input.wire.diameter),
        }),
      },
      {
        label: say('trial.reckoned.over-travel'),
        cell: number(show.millimetres('trial.over-travel', overTravel)),
        note: say('trial.reckoned.over-travel-note', {
          lag: show.millimetres('trial.lag.most', lag),
          below: show.millimetres('trial.below', input.limits.overTravel),
        }),
      },
      {
        label: say('trial.reckoned.groove'),
        cell: number(show.millimetres('trial.groove.depth', groove.depth)),
        note: say('trial.reckoned.groove-note', {
          width: show.millimetres('trial.groove.width', groove.width),
          web: show.millimetres('trial.groove.web', input.panels.top.thickness - groove.depth),
        }),
      },
      {
        label: say('trial.reckoned.plane'),
        cell: number(show.millimetres('trial.plane', plane)),
        note: say('trial.reckoned.plane-note'),
      },
      {
        label: say('trial.reckoned.window'),
        cell: number(show.exactLength('trial.window', input.window)),
        note: say('trial.reckoned.window-note'),
      },
    ],
  }
}
