/** What somebody reads on a page of the site, written without the program's own reader of sheets. */
import { type Element, elements, hasClass } from '../sites/html.ts'

const BREAKS = new Set(
  'p h1 h2 h3 h4 h5 h6 li ul ol dl dt dd div table caption thead tbody tfoot tr th td figure figcaption section header footer article blockquote pre'.split(
    ' ',
  ),
)

/** Names, labels and numbers for programs; how anything is set; where links lead. */
const UNSEEN = /^(data-.*|aria-.*|id|href|role)$/

const drawingText = ({ tag, attributes, children }: Element): string =>
  `<${tag} ${Object.entries(attributes)
    .filter(([name]) => !UNSEEN.test(name))
    .map(([name, value]) => `${name}=${value}`)
    .join(' ')}>${children.map((child) => (typeof child === 'string' ? child : drawingText(child))).join('')}`

const seen = (element: Element): string =>
  element.children
    .map((child) => {
      if (typeof child === 'string') return child
      if (child.tag === 'svg') return `\n${drawingText(child).replace(/\s+/g, ' ')}\n`
      // what a camera reads has the code in it
      if (hasClass(child, 'title-block') || hasClass(child, 'card-scan')) return ''
      if (hasClass(child, 'tick-box')) return '[ ]'
      if (hasClass(child, 'blank-line') || hasClass(child, 'write-here')) return '____'
      const number =
        child.tag === 'li' && child.attributes.value !== undefined ? `${child.attributes.value}. ` : ''
      const text = `${number}${seen(child)}`
      return BREAKS.has(child.tag) ? `\n${text}\n` : text
    })
    .join('')

/** Of a sheet's page: its text by lines, its drawings, and of the title block the sheet's number and reading distance. */
export const visibleText = (page: Element): string => {
  const section = elements(page).find((one) => hasClass(one, 'sheet'))
  if (!section) throw new Error('The page has no sheet.')
  const block = elements(section).find((one) => hasClass(one, 'title-block'))
  // it stands last there
  const distance = block && elements(block).findLast(({ tag }) => tag === 'data')
  return [seen(section), distance ? seen(distance) : '']
    .join('\n')
    .split('\n')
    .map((line) => line.replace(/[ \t\r]+/g, ' ').trim())
    .filter((line) => line !== '')
    .join('\n')
}
