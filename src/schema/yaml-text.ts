/** A text as a YAML file holds it. */

/** Quotes where anything else than a plain word could be meant. */
export const asYamlText = (text: string): string =>
  /^[A-Za-z][A-Za-z0-9 ./-]*$/.test(text) &&
  text.trim() === text &&
  !/^(yes|no|on|off|true|false|null)$/i.test(text)
    ? text
    : JSON.stringify(text)
