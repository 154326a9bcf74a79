// Eleventy reads only our own layouts; a maker's folder reaches it as data (src/site/build-pages.ts hands it over).
import 'tsx/esm'

const { configure } = await import('./src/site/configure.ts')

export default configure

export const config = {
  dir: { input: 'layouts/pages', includes: '../partials', layouts: '../partials', data: '../none' },
  templateFormats: ['njk'],
  // Markdown of sheets goes through src/site/markdown.ts, never through a template language.
  markdownTemplateEngine: false,
  htmlTemplateEngine: false,
}
