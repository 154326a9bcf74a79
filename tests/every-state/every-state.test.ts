/**
 * What is held to every state that a binder can be in; a few of them each day, all in the soak.
 *
 * One file, so that one process composes each of them, and once: it takes a minute. That process is its own, so that
 * nothing is known in it that another test composed, and the words that listen miss nothing.
 */
import './values.ts'
import './phrases.ts'
import './fingerprints.ts'
import './languages.ts'
