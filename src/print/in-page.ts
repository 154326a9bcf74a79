/**
 * What is run inside the page: measuring the sheets, cutting foot words to length, filling in what the first pass found.
 *
 * Each function is sent to the browser as text, so it may use nothing from outside itself.
 */

/** A sheet as the page must know it. */
export interface SheetMeasure {
  readonly anchor: string
  /** height of the content box [mm] */
  readonly contentHeight: number
}

export interface CheckScale {
  readonly anchor: string
  readonly millimetres: number
  /** how many lines of that length run each way */
  readonly across: number
  readonly down: number
  /** the longest line drawn [mm] */
  readonly longest: number
}

export interface Offender {
  readonly kind: 'too-wide' | 'too-tall'
  readonly anchor: string
  /** what a reader sees of it */
  readonly words: string
  /** how far it reaches past the content box [mm] */
  readonly excess: number
}

export interface PageInspection {
  /** ids of the sheets, in the order of the document */
  readonly anchors: readonly string[]
  readonly hasRules: boolean
  /** ids that are linked to or asked for but not there */
  readonly missingAnchors: readonly string[]
  readonly brokenFonts: readonly string[]
  /** text that asks for a family first that the document does not bring along */
  readonly foreignFamilies: readonly { readonly anchor: string; readonly family: string }[]
  /** addresses of things outside the document that the browser did not even try to fetch */
  readonly outside: readonly string[]
  readonly offenders: readonly Offender[]
  readonly checkScales: readonly CheckScale[]
}

/** Puts the rules into the page, and a list of links that leaves no mark: only what is linked to gets a destination. */
export function installInPage(input: { readonly css: string; readonly anchors: readonly string[] }): void {
  const rules = document.getElementById('page-rules')
  if (rules) rules.textContent = input.css
  const links = document.createElement('nav')
  links.id = 'printed-destinations'
  links.hidden = true
  for (const anchor of input.anchors) {
    const link = document.createElement('a')
    link.setAttribute('href', `#${encodeURIComponent(anchor)}`)
    links.append(link)
  }
  document.body.append(links)

  // Layout cuts lengths to 1/64 px. A drawing keeps its shape by taking the worse of its two scales: 12 mm high, it
  // would lose 0.04 mm in 150. With a scale of its own each way it loses 0.004 mm at most.
  for (const svg of document.querySelectorAll<SVGSVGElement>('svg.full-size, svg[data-check-scale-mm]')) {
    const box = svg.getBoundingClientRect()
    const view = svg.viewBox.baseVal
    if (!view?.width || !view.height || !box.width || !box.height) continue
    const distortion = box.width / view.width / (box.height / view.height) - 1
    if (Math.abs(distortion) < 0.002) svg.setAttribute('preserveAspectRatio', 'none')
  }
}

/**
 * Sheets that styles want on one page (`--one-page`) and that are taller get narrower settings, one after the other.
 * @returns the classes that each sheet has got
 */
export function fitInPage(input: { readonly sheets: readonly SheetMeasure[] }): string[][] {
  const tolerance = 0.1 // px; layout works in 1/64 px
  const perMillimetre = 96 / 25.4
  return input.sheets.map(({ anchor, contentHeight }) => {
    const section = document.getElementById(anchor)
    if (!section || getComputedStyle(section).getPropertyValue('--one-page').trim() === '') return []
    const given: string[] = []
    for (const narrower of ['tight', 'tighter']) {
      if (section.getBoundingClientRect().height <= contentHeight * perMillimetre + tolerance) break
      section.classList.add(narrower)
      given.push(narrower)
    }
    return given
  })
}

/** Looks at every sheet as it will be printed. */
export function inspectInPage(input: {
  readonly sheets: readonly SheetMeasure[]
  readonly anchors: readonly string[]
}): PageInspection {
  /** Layout works in 1/64 px; more than this is a real excess. [px] */
  const tolerance = 0.1
  const perMillimetre = 96 / 25.4
  const offenders: Offender[] = []
  const checkScales: CheckScale[] = []

  const wordsOf = (element: Element): string => {
    const words = (element.getAttribute('aria-label') ?? element.textContent ?? '')
      .replace(/\s+/g, ' ')
      .trim()
    return words.length > 60 ? `${words.slice(0, 60)}…` : words || `<${element.localName}>`
  }
  const isClipped = (element: Element, within: Element): boolean => {
    for (let up = element.parentElement; up && up !== within; up = up.parentElement) {
      if (getComputedStyle(up).overflowX !== 'visible') return true
    }
    return false
  }

  for (const sheet of input.sheets) {
    const section = document.getElementById(sheet.anchor)
    if (!section) continue
    const frame = section.getBoundingClientRect()
    const tallest = sheet.contentHeight * perMillimetre
    let widest: { element: Element; excess: number } | undefined
    let tall: { element: Element; excess: number } | undefined
    for (const element of section.querySelectorAll('*')) {
      if (element instanceof SVGElement && element.ownerSVGElement) continue
      const box = element.getBoundingClientRect()
      if (box.width === 0 && box.height === 0) continue
      let right = box.right
      if (element.scrollWidth > element.clientWidth + 1 && element.clientWidth > 0) {
        if (getComputedStyle(element).overflowX === 'visible') {
          right = Math.max(right, box.left + element.scrollWidth)
        }
      }
      const excess = Math.max(right - frame.right, frame.left - box.left)
      // the innermost of equally wide elements is the one to blame
      if (excess > tolerance && excess >= (widest?.excess ?? 0) - tolerance) {
        if (!isClipped(element, section)) widest = { element, excess }
      }
      if (box.height > tallest + tolerance && !tall) {
        const style = getComputedStyle(element)
        const whole =
          element instanceof SVGElement ||
          element instanceof HTMLImageElement ||
          style.breakInside.startsWith('avoid') ||
          style.display.startsWith('inline-')
        if (whole) tall = { element, excess: box.height - tallest }
      }
    }
    for (const [kind, found] of [
      ['too-wide', widest],
      ['too-tall', tall],
    ] as const) {
      if (!found) continue
      offenders.push({
        kind,
        anchor: sheet.anchor,
        words: wordsOf(found.element),
        excess: found.excess / perMillimetre,
      })
    }

    for (const svg of section.querySelectorAll('svg[data-check-scale-mm]')) {
      const millimetres = Number(svg.getAttribute('data-check-scale-mm'))
      let [across, down, longest] = [0, 0, 0]
      for (const shape of svg.querySelectorAll<SVGGraphicsElement>('line, path, polyline, rect')) {
        const box = shape.getBBox()
        const matrix = shape.getScreenCTM()
        if (!matrix) continue
        const width = (box.width * Math.hypot(matrix.a, matrix.b)) / perMillimetre
        const height = (box.height * Math.hypot(matrix.c, matrix.d)) / perMillimetre
        if (Math.abs(width - millimetres) <= 0.1) across += 1
        if (Math.abs(height - millimetres) <= 0.1) down += 1
        longest = Math.max(longest, width, height)
      }
      checkScales.push({ anchor: sheet.anchor, millimetres, across, down, longest })
    }
  }

  // A font of this computer may bear the same name inside the PDF as one of ours, so the wish itself is looked at.
  const brought = new Set([...document.fonts].map((face) => face.family.replace(/["']/g, '')))
  const foreignFamilies: { anchor: string; family: string }[] = []
  for (const sheet of input.sheets) {
    const section = document.getElementById(sheet.anchor)
    if (!section) continue
    for (const element of [section, ...section.querySelectorAll('*')]) {
      if (![...element.childNodes].some((node) => node.nodeType === 3 && node.textContent?.trim())) continue
      const family = (getComputedStyle(element).fontFamily.split(',')[0] ?? '').trim().replace(/["']/g, '')
      if (brought.has(family)) continue
      foreignFamilies.push({ anchor: sheet.anchor, family })
      break
    }
  }

  const wanted = new Set(input.anchors)
  for (const link of document.querySelectorAll('[data-page-of]')) {
    wanted.add(link.getAttribute('data-page-of') ?? '')
  }
  for (const range of document.querySelectorAll('[data-page-range]'))
    for (const anchor of (range.getAttribute('data-page-range') ?? '').split(' ')) wanted.add(anchor)
  return {
    anchors: [...document.querySelectorAll('section.sheet')].map((section) => section.id),
    hasRules: document.getElementById('page-rules') !== null,
    missingAnchors: [...wanted].filter((anchor) => !document.getElementById(anchor)),
    brokenFonts: [...document.fonts].filter((face) => face.status === 'error').map((face) => face.family),
    foreignFamilies,
    outside: [...document.querySelectorAll('[src], link[href], image[href], use[href]')]
      .map((element) => element.getAttribute('src') ?? element.getAttribute('href') ?? '')
      .filter((address) => !/^(data:|#)/.test(address)),
    offenders,
    checkScales,
  }
}

/** Words of a foot line: `head` may be cut, `tail` may not. */
export interface FootWords {
  readonly head: string
  readonly tail: string
  /** room [mm] */
  readonly width: number
}

/** Cuts the heads so that head and tail fit their room; the foot line itself cannot clip. Loads its font too. */
export async function fitFootInPage(input: {
  readonly words: readonly FootWords[]
  readonly points: number
}): Promise<string[]> {
  const probe = document.createElement('span')
  probe.style.cssText = `position:absolute; visibility:hidden; white-space:pre; font:${input.points}pt var(--foot-font, 'Noto Sans')`
  probe.textContent = 'foot'
  document.body.append(probe)
  probe.getBoundingClientRect()
  await document.fonts.ready
  const fitted = input.words.map(({ head, tail, width }) => {
    const room = (width * 96) / 25.4
    probe.textContent = head + tail
    if (probe.getBoundingClientRect().width <= room) return head
    const characters = [...head]
    let [fits, fails] = [0, characters.length]
    while (fails - fits > 1) {
      const middle = (fits + fails) >> 1
      probe.textContent = `${characters.slice(0, middle).join('').trimEnd()}…${tail}`
      if (probe.getBoundingClientRect().width <= room) fits = middle
      else fails = middle
    }
    return `${characters.slice(0, fits).join('').trimEnd()}…`
  })
  probe.remove()
  return fitted
}

/** Puts in what the first pass found: page rules with totals, blank pages, page numbers in the contents. */
export function completeInPage(input: {
  readonly css: string
  /** blank pages go before these sheets */
  readonly blanks: readonly { readonly anchor: string; readonly orientation: string }[]
  readonly pages: Readonly<Record<string, number>>
  /** how many pages each sheet has, by anchor */
  readonly counts?: Readonly<Record<string, number>>
}): void {
  const rules = document.getElementById('page-rules')
  if (rules) rules.textContent = input.css
  for (const { anchor, orientation } of input.blanks) {
    const blank = document.createElement('section')
    blank.className = `blank-page ${orientation}`
    blank.setAttribute('aria-hidden', 'true')
    document.getElementById(anchor)?.before(blank)
  }
  for (const cell of document.querySelectorAll('[data-page-of]')) {
    cell.textContent = String(input.pages[cell.getAttribute('data-page-of') ?? ''] ?? '')
  }
  for (const cell of document.querySelectorAll('[data-pages-of]')) {
    const count = input.counts?.[cell.getAttribute('data-pages-of') ?? '']
    if (count !== undefined) cell.textContent = String(count)
  }
  for (const cell of document.querySelectorAll('[data-page-range]')) {
    const [from = '', to = ''] = (cell.getAttribute('data-page-range') ?? '').split(' ')
    const first = input.pages[from]
    const count = input.counts?.[to]
    if (first === undefined || count === undefined) continue
    const last = (input.pages[to] ?? 0) + count - 1
    // as it is typed into a printing window
    cell.textContent = first === last ? String(first) : `${first}-${last}`
  }
}
