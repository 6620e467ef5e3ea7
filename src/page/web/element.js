// Elements of the page. Text is always text: nothing here, or anywhere, makes HTML of a string.

/**
 * @param {string} tag
 * @param {Record<string, any>} [properties] `class`, `on` (listeners by event), attributes; `false` and `null` are left out
 * @param {...(Node|string|number|null|undefined|false)} children
 * @returns {any}
 */
export function element(tag, properties = {}, ...children) {
    return filled(document.createElement(tag), properties, children);
}

/**
 * The same of a drawing.
 * @param {string} tag
 * @param {Record<string, any>} [properties]
 * @param {...(Node|string)} children
 * @returns {any}
 */
export function drawn(tag, properties = {}, ...children) {
    return filled(document.createElementNS('http://www.w3.org/2000/svg', tag), properties, children);
}

/** @param {Element} made @param {Record<string, any>} properties @param {any[]} children */
function filled(made, properties, children) {
    for (const [name, value] of Object.entries(properties)) {
        if (value === false || value === null || value === undefined) continue;
        if (name === 'on') for (const [event, call] of Object.entries(value)) made.addEventListener(event, /** @type {any} */ (call));
        else made.setAttribute(name, value === true ? '' : String(value));
    }
    for (const child of children.flat()) if (child || child === 0) made.append(child instanceof Node ? child : String(child));
    return made;
}

/** @param {string} id @returns {any} */
export function by(id) {
    return document.getElementById(id);
}

/**
 * A button that does one thing.
 * @param {string} words
 * @param {(event: Event) => void} press
 * @param {Record<string, any>} [more]
 */
export function button(words, press, more = {}) {
    return element('button', { type: 'button', ...more, on: { click: press } }, words);
}

/**
 * Text of a stranger's file: kept apart for its direction, its control characters seen.
 * @param {string} text
 */
export function strange(text) {
    // eslint-disable-next-line no-control-regex
    const seen = text.replace(/[\u0000-\u001f\u007f]/g, (sign) => String.fromCodePoint(0x2400 + (sign.charCodeAt(0) % 0x7f)));
    return element('bdi', {}, seen.trim() === '' ? '(no title)' : seen);
}
