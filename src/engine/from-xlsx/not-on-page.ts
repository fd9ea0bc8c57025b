/** Thrown where the page's library cannot calculate a formula; the message says why, after "it" or by a function's name. */
export class NotOnPage extends Error {}
