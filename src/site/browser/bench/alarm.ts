/** What makes a phone be noticed, as far as it lets a page: sound, vibration, a screen that stays on. */

const BEEPS = [0, 0.35, 0.7] as const // s
const BEEP = { length: 0.2, pitch: 880, loudness: 0.5 } as const // s, Hz, share
const SHAKES = [400, 200, 400, 200, 400] // ms

let audio: AudioContext | undefined
let lock: WakeLockSentinel | undefined
let isAsked = false

/** To be called while a finger or a key is down: no browser lets a page make sound before. */
export const allowSound = (): void => {
  try {
    audio ??= new AudioContext()
    if (audio.state !== 'running') audio.resume().catch(ignored)
  } catch {
    // a browser without sound: the page is still seen
  }
}

export const isSilent = (): boolean => audio?.state !== 'running'

export const ring = (): void => {
  // without a touch of this page no browser shakes, and some write that down as a fault
  if (navigator.userActivation?.hasBeenActive !== false) navigator.vibrate?.(SHAKES)
  if (audio?.state !== 'running') return
  for (const after of BEEPS) {
    const tone = audio.createOscillator()
    const loudness = audio.createGain()
    const begin = audio.currentTime + after
    tone.frequency.value = BEEP.pitch
    loudness.gain.setValueAtTime(BEEP.loudness, begin)
    loudness.gain.exponentialRampToValueAtTime(0.001, begin + BEEP.length)
    tone.connect(loudness).connect(audio.destination)
    tone.start(begin)
    tone.stop(begin + BEEP.length)
  }
}

/** @param told when the screen begins or ceases to stay on */
export const keepAwake = (isWanted: boolean, told: () => void): void => {
  if (!isWanted) {
    lock?.release().catch(ignored)
    lock = undefined
    return
  }
  // a page that was put aside loses it, and asks again when it is seen again
  if (lock || isAsked || document.visibilityState !== 'visible' || !navigator.wakeLock) return
  isAsked = true
  navigator.wakeLock
    .request('screen')
    .then((granted) => {
      lock = granted
      isAsked = false
      granted.addEventListener('release', () => {
        if (lock === granted) lock = undefined
        told()
      })
      told()
    })
    // one that says no is asked again when the page is next looked at
    .catch(ignored)
}

document.addEventListener('visibilitychange', () => {
  isAsked = false
})

export const isAwake = (): boolean => lock !== undefined

const ignored = (): void => {}
